#include "src/storage/access_rows.h"

#include <gtest/gtest.h>

#include "src/service/access_book.h"
#include "src/storage/grant_files.h"
#include "src/storage/grants.h"
#include "src/storage/open_store.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

Instant moment(int second) { return Instant::from_millis(1'700'000'000'000 + second * 1000LL); }

class AccessRowsKept : public StoreTest {
 protected:
  void keep(const service::AccessRows& rows) {
    auto writing = std::move(*store->begin());
    ASSERT_TRUE(writing->put_access(rows));
    ASSERT_TRUE(writing->commit());
  }
};

TEST_F(AccessRowsKept, ComeBackAsTheyWerePutLast) {
  service::Account account{.name = "Otto Ö",
                           .role = access::Role::outside,
                           .machines = {{"m1", "m2"}},
                           .until = LocalDate{20'000},
                           .made_by = "Ada",
                           .made_at = moment(0)};
  const service::Link link{"aa", "Otto Ö", "Ada", moment(60), {}};
  service::Session session{"s1", "bb", "Otto Ö", service::SignInWay::pin, "device-1", moment(1), moment(2), {}};
  service::Token token{"t1", "cc", "Wall", access::Role::viewer, {{"look"}}, {}, "Ada", moment(3), moment(90),
                       {},   {},   {}};
  keep({{account}, {link}, {session}, {token}, {{moment(4), "Ada", service::AccessDeed::account_made, "Otto Ö"}}});
  account.pin_hash = "hash";
  account.factor_step = 7;
  session.seen_at = moment(50);
  token.used_on = LocalDate{19'999};
  keep({{account}, {}, {session}, {token}, {{moment(5), "Ada", service::AccessDeed::signed_in, "Otto Ö"}}});
  const auto rows = *store->access_rows();
  ASSERT_EQ(rows.accounts.size(), 1U);
  EXPECT_EQ(rows.accounts[0].role, access::Role::outside);
  EXPECT_EQ(rows.accounts[0].machines, (service::MachineKeys{"m1", "m2"}));
  EXPECT_EQ(rows.accounts[0].until, LocalDate{20'000});
  EXPECT_EQ(rows.accounts[0].pin_hash, "hash");
  EXPECT_EQ(rows.accounts[0].factor_step, 7);
  EXPECT_FALSE(rows.accounts[0].password_hash);
  EXPECT_EQ(rows.links.at(0).until, moment(60));
  EXPECT_EQ(rows.sessions.at(0).seen_at, moment(50));
  EXPECT_EQ(rows.sessions.at(0).way, service::SignInWay::pin);
  EXPECT_EQ(rows.tokens.at(0).permissions, (std::vector<std::string>{"look"}));
  EXPECT_EQ(rows.tokens.at(0).used_on, LocalDate{19'999});
  const auto notes = *store->access_notes(10);
  ASSERT_EQ(notes.size(), 2U);
  EXPECT_EQ(notes[0].what, service::AccessDeed::signed_in) << "the latest first";
}

TEST_F(AccessRowsKept, OfTheNotesTheLastRuleOfTheSecondFactorIsReadWithTheRows) {
  using service::AccessDeed;
  EXPECT_TRUE(store->access_rows()->notes.empty());
  keep({.notes = {{moment(0), "Ada", AccessDeed::second_factor_demanded, ""},
                  {moment(1), "Bo", AccessDeed::second_factor_offered, ""}}});
  keep({.notes = {{moment(2), "Ada", AccessDeed::signed_in, "Ada"}}});
  const auto rows = *store->access_rows();
  ASSERT_EQ(rows.notes.size(), 1U);
  EXPECT_EQ(rows.notes[0].what, AccessDeed::second_factor_offered);
  EXPECT_EQ(rows.notes[0].by, "Bo");
}

TEST_F(AccessRowsKept, ASessionThatEndedIsNotReadAgain) {
  service::Session session{"s1", "bb", "Ada", service::SignInWay::link, {}, moment(1), moment(2), {}};
  keep({.sessions = {session}});
  session.ended_at = moment(3);
  keep({.sessions = {session}});
  EXPECT_TRUE(store->access_rows()->sessions.empty());
}

TEST_F(AccessRowsKept, AGrantIsThereForItsSecretOnceAndReadableByItsOwnerOnly) {
  const service::Grant grant{
      .kind = "link", .name = "Ada", .role = access::Role::lead, .made_at = moment(0), .ends_at = moment(9)};
  const std::string secret = *leave_grant(folder.path(), grant);
  const std::string hash = service::hash_of_secret(secret);
  const auto file = folder.path() / "grants" / (hash + ".json");
  EXPECT_EQ(std::filesystem::exists(file), !on_postgres());
  if (!on_postgres()) {
    EXPECT_EQ(std::filesystem::status(file).permissions(),
              std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
  }
  EXPECT_EQ((*store->grant(hash))->name, "Ada");
  EXPECT_FALSE(*store->grant(service::hash_of_secret("another")));
  EXPECT_TRUE(store->drop_grant(hash));
  EXPECT_FALSE(*store->grant(hash));
  EXPECT_TRUE(store->drop_grant(hash)) << "once more is right";
}

TEST(GrantFiles, AFolderWithoutAShopGetsNone) {
  const sql::TestFolder folder;
  EXPECT_EQ(leave_grant(folder.path(), {}).error().code, ErrorCode::not_found);
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

}  // namespace
}  // namespace hw::storage
