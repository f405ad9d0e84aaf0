#include "tests/simulation/act.h"

namespace hw::simulation {
namespace {

// Where, by whom and when: what every telling needs.
struct Told {
  service::OpenShop& shop;
  const std::string& machine;
  service::Signature signature;
  Instant now;

  Result<service::EntryView> operator()(const BeginWalk& what) const {
    return begin_walk(shop, machine, what.rhythm, {signature, what.checks}, now);
  }
  Result<service::EntryView> operator()(const AnswerChecks& what) const {
    return answer_checks(shop, machine, what.rhythm, {signature, what.walk, what.others, what.answers, {}}, now);
  }
  Result<service::EntryView> operator()(const MarkDone& what) const {
    return mark_done(shop, machine, what.task, {signature, {}}, now);
  }
};

}  // namespace

Result<service::EntryView> tell(const shop::Scene& scene, const Act& act, Duration clock_off) {
  const service::Signature signature{act.id, fmt::format("Person {}", act.phone), act.at + clock_off,
                                     scene.now + clock_off};
  return std::visit(Told{scene.shop(), act.machine, signature, scene.now}, act.what);
}

}  // namespace hw::simulation
