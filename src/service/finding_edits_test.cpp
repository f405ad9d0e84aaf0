#include "src/service/finding_edits.h"

#include <gmock/gmock.h>

namespace hw::service {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

const std::string uuid = "01941f29-7c00-7aaa-8bbb-123456789abc";

template <class Edit>
Edit signed_edit() {
  Edit edit;
  edit.id = uuid;
  edit.by = "Ada";
  return edit;
}

FindingEdit finding() {
  auto edit = signed_edit<FindingEdit>();
  edit.what = "Oil below the tank";
  return edit;
}

template <class Edit>
std::string refusal(const Edit& edit) {
  const auto checked = check(edit);
  return checked ? "" : checked.error().message;
}

TEST(FindingEdits, WhatIsCompleteIsTaken) {
  EXPECT_EQ(refusal(finding()), "");
  auto full = finding();
  full.owner = "Bo";
  full.task = "seal";
  full.check = "tank/level";
  full.walk = uuid;
  full.photos = std::vector(20, PhotoName{uuid, std::string(64, 'f')});
  EXPECT_EQ(refusal(full), "");
}

TEST(FindingEdits, WhatIsMissingOrTooLongIsNamed) {
  const auto with = [](auto spoil) {
    auto edit = finding();
    spoil(edit);
    return refusal(edit);
  };
  EXPECT_THAT(with([](auto& edit) { edit.what = " \n"; }), StartsWith("what: "));
  EXPECT_THAT(with([](auto& edit) { edit.what = std::string(2001, 'x'); }), StartsWith("what: "));
  EXPECT_THAT(with([](auto& edit) { edit.by = ""; }), StartsWith("by: "));
  EXPECT_THAT(with([](auto& edit) { edit.id = "7"; }), StartsWith("id: "));
  EXPECT_THAT(with([](auto& edit) { edit.owner = std::string(81, 'x'); }), StartsWith("owner: "));
  EXPECT_THAT(with([](auto& edit) { edit.task = std::string(201, 'x'); }), StartsWith("task: "));
  EXPECT_THAT(with([](auto& edit) { edit.check = std::string(201, 'x'); }), StartsWith("check: "));
  EXPECT_THAT(with([](auto& edit) { edit.walk = "today's"; }), StartsWith("walk: "));
}

TEST(FindingEdits, APhotoIsNamedByItsIdAndHash) {
  const auto with = [](std::vector<PhotoName> photos) {
    auto edit = finding();
    edit.photos = std::move(photos);
    return refusal(edit);
  };
  EXPECT_THAT(with({{"p", std::string(64, 'a')}}), StartsWith("photos: \"p\" is no UUID"));
  for (const auto& hash : {std::string(64, 'A'), std::string(63, 'a'), std::string(64, 'g'), std::string()}) {
    EXPECT_THAT(with({{uuid, hash}}), HasSubstr("SHA-256")) << hash;
  }
  EXPECT_THAT(with(std::vector(21, PhotoName{uuid, std::string(64, 'a')})), HasSubstr("at most 20"));
}

TEST(FindingEdits, AChangeThatChangesNothingIsRefused) {
  auto change = signed_edit<FindingChange>();
  EXPECT_THAT(refusal(change), HasSubstr("changes nothing"));
  change.note = "";
  change.photos.emplace();
  EXPECT_THAT(refusal(change), HasSubstr("changes nothing"));
  change.owner = "";
  EXPECT_EQ(refusal(change), "") << "it takes the owner away";
  change.due_on = "tomorrow";
  EXPECT_THAT(refusal(change), StartsWith("due_on: "));
  change.due_on = "2026-03-04";
  EXPECT_EQ(refusal(change), "");
  change.note = std::string(2001, 'x');
  EXPECT_THAT(refusal(change), StartsWith("note: "));
}

TEST(FindingEdits, SettlingReopeningAndCorrectingSayWhatAndWhy) {
  auto settle = signed_edit<FindingSettle>();
  EXPECT_THAT(refusal(settle), StartsWith("done: "));
  settle.done = "Sealed";
  EXPECT_EQ(refusal(settle), "");
  auto reopen = signed_edit<FindingReopen>();
  EXPECT_THAT(refusal(reopen), StartsWith("why: "));
  auto correction = signed_edit<CorrectionEdit>();
  EXPECT_THAT(refusal(correction), StartsWith("says: "));
  correction.says = std::string(2000, 'x');
  EXPECT_EQ(refusal(correction), "");
}

}  // namespace
}  // namespace hw::service
