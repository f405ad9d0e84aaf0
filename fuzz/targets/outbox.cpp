// What phones send: one message a line, "operation machine thing JSON". Whatever it says, a message that was taken is
// in the logbook, sent again it is the same entry, one that was refused left nothing, and the chain of entries proves.

#include "fuzz/pieces.h"
#include "fuzz/small_shop.h"
#include "fuzz/targets.h"
#include "libs/formats/json.h"
#include "libs/values/assert.h"
#include "src/service/stores_cases.h"
#include "src/service/use_cases.h"

namespace hw::fuzz {
namespace {

struct Message {
  std::string_view operation, place, thing, body;
};

template <class Edit, class Use>
bool is_taken(const Message& message, Use use) {
  const auto edit = formats::parse_json<Edit>(message.body);
  return edit && use(*edit).has_value();
}

bool send(service::OpenShop& shop, const Message& m) {
  using namespace service;
  const Instant now = small_shop_now;
  if (m.operation == "done") {
    return is_taken<DoneEdit>(m, [&](const auto& e) { return mark_done(shop, m.place, m.thing, e, now); });
  }
  if (m.operation == "walk") {
    return is_taken<WalkEdit>(m, [&](const auto& e) { return begin_walk(shop, m.place, m.thing, e, now); });
  }
  if (m.operation == "answers") {
    return is_taken<AnswersEdit>(m, [&](const auto& e) { return answer_checks(shop, m.place, m.thing, e, now); });
  }
  if (m.operation == "finding") {
    return is_taken<FindingEdit>(m, [&](const auto& e) { return make_finding(shop, m.place, e, now); });
  }
  if (m.operation == "settle") {
    return is_taken<FindingSettle>(m, [&](const auto& e) { return settle_finding(shop, m.thing, e, now); });
  }
  if (m.operation == "hours") {
    return is_taken<HourReadingEdit>(m, [&](const auto& e) { return read_hours(shop, m.place, e, now); });
  }
  if (m.operation == "move") {
    return is_taken<MovementEdit>(m, [&](const auto& e) { return move_stock(shop, e, now); });
  }
  if (m.operation == "correct") {
    return is_taken<CorrectionEdit>(m, [&](const auto& e) { return correct_entry(shop, m.thing, e, now); });
  }
  return false;
}

void send_twice(service::OpenShop& shop, const Message& message) {
  const std::int64_t before = entries_of(shop);
  const bool taken = send(shop, message);
  const std::int64_t after = entries_of(shop);
  HW_ASSERT(taken || after == before, "what was refused left nothing");
  const bool taken_again = send(shop, message);
  HW_ASSERT(taken_again == taken, "the same message has the same outcome");
  HW_ASSERT(entries_of(shop) == after, "the same message is the same entry");
}

}  // namespace

void outbox(std::string_view input) {
  SmallShop& small = small_shop();
  for (int messages = 0; !input.empty() && messages < 8; ++messages) {
    std::string_view line = take_until(input, "\n");
    Message message;
    message.operation = take_until(line, " ");
    message.place = take_until(line, " ");
    message.thing = take_until(line, " ");
    message.body = line;
    send_twice(small.shop(), message);
  }
  const auto verdict = service::prove_logbook(small.shop());
  HW_ASSERT(verdict && verdict->breaks.empty(), "the chain of entries proves");
}

}  // namespace hw::fuzz
