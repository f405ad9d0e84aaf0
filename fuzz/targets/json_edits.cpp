// The first byte chooses which edit of the contract the rest is read as. What was read is printed and read back the
// same, and is then checked as the service does.

#include <array>

#include "fuzz/targets.h"
#include "libs/formats/json.h"
#include "libs/values/assert.h"
#include "src/service/devices.h"
#include "src/service/edits.h"
#include "src/service/finding_edits.h"
#include "src/service/lives_views.h"
#include "src/service/plan_edits.h"
#include "src/service/proposal_views.h"
#include "src/service/rehearsal_views.h"
#include "src/service/round_edits.h"
#include "src/service/stop_edits.h"
#include "src/service/stores_edits.h"

namespace hw::fuzz {
namespace {

template <class Edit>
void read_edit(std::string_view text) {
  const auto edit = formats::parse_json<Edit>(text);
  if (!edit) {
    HW_ASSERT(!edit.error().message.empty(), "a refusal says why");
    return;
  }
  const std::string printed = formats::print_json(*edit);
  const auto again = formats::parse_json<Edit>(printed);
  HW_ASSERT(again && formats::print_json(*again) == printed, "an edit is read back as it was printed");
  if constexpr (requires { check(*edit); }) check(*edit);
  if constexpr (requires { service::task_of("key", *edit); }) service::task_of("key", *edit);
}

template <class... Edits>
constexpr auto readers_of() {
  return std::array{&read_edit<Edits>...};
}

// In an order that stays: the inputs that are kept name them by their place, A being the first.
constexpr auto readers =
    readers_of<service::Signature, service::DoneEdit, service::TaskEdit, service::HourReadingEdit,
               service::UseChangeEdit, service::SettleEdit, service::WalkEdit, service::AnswersEdit,
               service::FindingEdit, service::FindingChange, service::FindingSettle, service::FindingReopen,
               service::CorrectionEdit, service::PointsEdit, service::WalkOrderEdit, service::StopEdit,
               service::StopChange, service::StopWithdraw, service::StopClose, service::StopTryView,
               service::ProposalEdit, service::AcceptEdit, service::RehearsalEdit, service::IntervalEdit,
               service::StoredPartEdit, service::MovementEdit, service::OrderEdit, service::OrderChange,
               service::KitEdit, service::JoinCodeEdit, service::DeviceEdit>();

}  // namespace

void json_edits(std::string_view input) {
  if (input.empty()) return;
  const auto choice = static_cast<std::size_t>(static_cast<unsigned char>(input.front() - 'A'));
  readers[choice % readers.size()](input.substr(1));
}

}  // namespace hw::fuzz
