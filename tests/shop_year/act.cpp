#include "tests/shop_year/act.h"

namespace hw::shop_year {
namespace {

using service::OpenShop;
using service::Signature;

template <class View>
Result<void> told(const Result<View>& result) {
  if (!result) return refuse(result.error());
  return {};
}

template <class Edit>
Edit signed_by(const Signature& signature) {
  Edit edit;
  static_cast<Signature&>(edit) = signature;
  return edit;
}

service::TaskEdit task_edit(const Signature& signature, double interval_h) {
  service::TaskEdit edit;
  edit.id = signature.id;
  edit.by = signature.by;
  edit.title = "Our own";
  edit.assembly = "coolant";
  edit.work = "clean";
  edit.skill = "operator";
  edit.energy = "powered at rest";
  edit.minutes = 5;
  edit.triggers.resize(2);
  edit.triggers[0].counter = "operating";
  edit.triggers[0].interval = interval_h;
  edit.triggers[1].calendar = "1 week";
  return edit;
}

// How a server is told of each kind.
struct Telling {
  OpenShop& shop;
  Signature signature;
  Instant now;

  Result<void> operator()(const BeginWalk& what) const {
    const std::vector<std::string> checks{"look", "window", "coolant", "air/supply air"};
    return told(begin_walk(shop, what.machine, "shift", {signature, checks}, now));
  }
  Result<void> operator()(const AnswerChecks& what) const {
    return told(answer_checks(shop, what.machine, "shift", {signature, what.walk, what.others, what.answers, {}}, now));
  }
  Result<void> operator()(const MarkDone& what) const {
    return told(mark_done(shop, what.machine, what.task, {signature, what.note}, now));
  }
  Result<void> operator()(const Undo& what) const { return told(undo(shop, what.entry, signature, now)); }
  Result<void> operator()(const CorrectEntry& what) const {
    return told(correct_entry(shop, what.entry, {signature, "it was another one"}, now));
  }
  Result<void> operator()(const ReadHours& what) const {
    return told(
        read_hours(shop, what.machine, {signature.id, signature.by, "operating", what.display_h, signature.at}, now));
  }
  Result<void> operator()(const MakeFinding& what) const {
    auto edit = signed_by<service::FindingEdit>(signature);
    edit.what = "It drips.";
    edit.severity = what.severity;
    edit.owner = what.owner;
    edit.task = what.task;
    return told(make_finding(shop, what.machine, edit, now));
  }
  Result<void> operator()(const ChangeFinding& what) const {
    auto edit = signed_by<service::FindingChange>(signature);
    edit.severity = what.severity;
    edit.owner = what.owner;
    edit.task = what.task;
    edit.note = "looked at again";
    return told(change_finding(shop, what.finding, edit, now));
  }
  Result<void> operator()(const SettleFinding& what) const {
    return told(settle_finding(shop, what.finding, {signature, "sealed", {}}, now));
  }
  Result<void> operator()(const ReopenFinding& what) const {
    return told(reopen_finding(shop, what.finding, {signature, "it drips again"}, now));
  }
  Result<void> operator()(const AddTask& what) const {
    return told(add_task(shop, what.machine, task_edit(signature, what.interval_h), now));
  }
  Result<void> operator()(const ChangeTask& what) const {
    auto edit = task_edit(signature, what.interval_h);
    edit.version = what.version;
    return told(change_task(shop, what.machine, what.task, edit, now));
  }
  Result<void> operator()(const RetireTask& what) const {
    return told(retire_task(shop, what.machine, what.task, signature, now));
  }
  Result<void> operator()(const AgreeStop& what) const {
    return told(agree_stop(shop, what.machine, {signature, what.on, "early", what.tasks, {}}, now));
  }
  Result<void> operator()(const ChangeStop& what) const {
    auto edit = signed_by<service::StopChange>(signature);
    edit.version = what.version;
    edit.on = what.on;
    edit.tasks = what.tasks;
    edit.note = "moved by " + signature.by;
    return told(change_stop(shop, what.stop, edit, now));
  }
  Result<void> operator()(const WithdrawStop& what) const {
    return told(withdraw_stop(shop, what.stop, {signature, "a hot order"}, now));
  }
  Result<void> operator()(const CloseStop& what) const {
    auto edit = signed_by<service::StopClose>(signature);
    edit.version = what.version;
    edit.began_at = *signature.at - Duration::hours(1);
    edit.ended_at = *signature.at;
    for (const DoneInStop& one : what.done) {
      edit.done.emplace_back();
      edit.done.back().id = one.id;
      edit.done.back().task = one.task;
    }
    if (what.used) edit.used = service::UsedParts{what.used->id, {{what.used->part, what.used->quantity}}};
    return told(close_stop(shop, what.stop, edit, now));
  }
  Result<void> operator()(const KeepPart& what) const {
    auto edit = signed_by<service::StoredPartEdit>(signature);
    edit.title = "Part " + what.number;
    edit.unit = "pc";
    edit.price = what.price;
    edit.version = what.version;
    return keep_part(shop, what.number, edit, now);
  }
  Result<void> operator()(const MoveStock& what) const {
    auto edit = signed_by<service::MovementEdit>(signature);
    edit.kind = what.kind;
    edit.lines = {{what.part, what.quantity}};
    edit.stop = what.stop;
    edit.order = what.order;
    if (what.more_than_ordered) edit.more_than_ordered = true;
    return told(move_stock(shop, edit, now));
  }
  Result<void> operator()(const PlaceOrder& what) const {
    auto edit = signed_by<service::OrderEdit>(signature);
    edit.supplier = "Kranz";
    edit.lines = {{what.part, what.quantity, 20.0}};
    return told(place_order(shop, edit, now));
  }
  Result<void> operator()(const ChangeOrder& what) const {
    auto edit = signed_by<service::OrderChange>(signature);
    edit.confirmed_on = what.confirmed_on;
    if (what.ended) edit.ended = true;
    return told(change_order(shop, what.order, edit, now));
  }
};

}  // namespace

std::string name_of(const Act& act) { return fmt::format("act {} of kind {}", act.id, act.what.index()); }

Result<void> tell(OpenShop& shop, const Act& act, Instant sent_at, Instant now) {
  return std::visit(Telling{shop, Signature{act.id, act.by, act.at, sent_at}, now}, act.what);
}

}  // namespace hw::shop_year
