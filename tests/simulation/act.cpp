#include "tests/simulation/act.h"

namespace hw::simulation {
namespace {

template <class View>
Result<void> without_view(const Result<View>& told) {
  if (!told) return refuse(told.error());
  return {};
}

template <class Edit>
Edit signed_by(const service::Signature& signature, Edit edit) {
  static_cast<service::Signature&>(edit) = signature;
  return edit;
}

// Where, by whom and when: what every telling needs.
struct Told {
  service::OpenShop& shop;
  const std::string& machine;
  service::Signature signature;
  Instant now;

  Result<void> operator()(const BeginWalk& what) const {
    return without_view(begin_walk(shop, machine, what.rhythm, {signature, what.checks}, now));
  }
  Result<void> operator()(const AnswerChecks& what) const {
    return without_view(
        answer_checks(shop, machine, what.rhythm, {signature, what.walk, what.others, what.answers, {}}, now));
  }
  Result<void> operator()(const MarkDone& what) const {
    return without_view(mark_done(shop, machine, what.task, {signature, {}}, now));
  }
  Result<void> operator()(const MakeFinding& what) const {
    return without_view(make_finding(shop, machine, signed_by(signature, what.edit), now));
  }
  Result<void> operator()(const ChangeFinding& what) const {
    return without_view(change_finding(shop, what.finding, signed_by(signature, what.edit), now));
  }
  Result<void> operator()(const SettleFinding& what) const {
    return without_view(settle_finding(shop, what.finding, signed_by(signature, what.edit), now));
  }
  Result<void> operator()(const ReopenFinding& what) const {
    return without_view(reopen_finding(shop, what.finding, signed_by(signature, what.edit), now));
  }
  Result<void> operator()(const KeepPhoto& what) const {
    return without_view(keep_photo(shop, {signature.id, "image/jpeg", what.bytes}));
  }
};

}  // namespace

std::optional<std::string> followed_finding(const Act& act) {
  const auto finding_in = [](const auto& what) -> std::optional<std::string> {
    if constexpr (requires { what.finding; }) return what.finding;
    return std::nullopt;
  };
  return std::visit(finding_in, act.what);
}

Result<void> tell(const shop::Scene& scene, const Act& act, Duration clock_off) {
  const service::Signature signature{act.id, fmt::format("Person {}", act.phone), act.at + clock_off,
                                     scene.now + clock_off};
  return std::visit(Told{scene.shop(), act.machine, signature, scene.now}, act.what);
}

}  // namespace hw::simulation
