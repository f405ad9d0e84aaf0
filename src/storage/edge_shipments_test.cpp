// A plant's edge and its group, with whatever lies between them: after the last shipment both hold the same rows.

#include "src/storage/edge_shipments.h"

#include <fstream>
#include <random>

#include <gmock/gmock.h>

#include "libs/formats/byte_source.h"
#include "src/storage/edge_taking.h"
#include "src/storage/record_digest.h"
#include "src/storage/shared_database.h"
#include "src/storage/store_test.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;
using service::Shipment;
using service::ShipmentPiece;
using testing::HasSubstr;

const Instant made = at("2026-03-02T08:00:00Z"), came = at("2026-03-02T08:01:00Z");

service::ShopRecord awaiting_shop() {
  service::ShopRecord shop;
  shop.plant = "north";
  shop.calendar.zone = Zone::utc();
  return shop;
}

std::string bytes_of(const Shipment& shipment) {
  std::ifstream in(shipment.file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<ShipmentPiece> cut(const Shipment& shipment, int count) {
  const std::string bytes = bytes_of(shipment);
  const std::size_t size = bytes.size() / static_cast<std::size_t>(count) + 1;
  std::vector<ShipmentPiece> pieces;
  for (int i = 0; i < count; ++i) {
    pieces.push_back(
        {shipment.number, shipment.sha256, i, count, bytes.substr(static_cast<std::size_t>(i) * size, size)});
  }
  return pieces;
}

// The edge in a file, the group in a database on a server.
class EdgeAndGroup : public testing::Test {
 protected:
  EdgeAndGroup() {
    open_edge();
    EXPECT_TRUE(edge->create_shop(full_shop(), {full_machine("l2"), full_machine("l1")}));
    EXPECT_TRUE(keep(*edge, full_entry("e1")));
    fs::create_directory(folder.path() / "group");
    plants = std::move(*SharedDatabase::open({folder.path() / "group", server.address()}, nullptr, {}));
    EXPECT_TRUE(plants->store_of_new("north")->create_awaiting(awaiting_shop()));
    group = std::move(*plants->take("north"));
    sending = std::move(*EdgeShipments::begin(*edge, data));
  }
  void open_edge() {
    edge.reset();
    auto kept = std::move(*keep_in_file({data}, nullptr, "north"));
    edge = std::make_unique<KeptStore>(std::move(kept));
  }
  void start_edge_again() {
    sending.reset();
    open_edge();
    sending = std::move(*EdgeShipments::begin(*edge, data));
  }
  std::string edge_digest() const {
    std::string sha;
    const auto step = [&](sql::Connection& db) -> Result<void> {
      sha = record_digest(db, sent_tables())->sha256;
      return {};
    };
    EXPECT_TRUE(edge->read(step));
    return sha;
  }
  std::string group_digest() const {
    auto db = std::move(*open_database({folder.path(), server.address(), "north"}, sql::Access::read));
    return record_digest(*db, sent_tables())->sha256;
  }
  Result<bool> carry(const Shipment& shipment, int pieces = 1) const {
    Result<bool> is_taken = false;
    for (const ShipmentPiece& piece : cut(shipment, pieces)) {
      is_taken = group->take_piece(piece, came);
      if (!is_taken) return refuse(is_taken.error());
    }
    return is_taken;
  }
  // The next shipment, made, carried and taken.
  bool send(int pieces = 1) {
    const auto shipment = sending->next(made);
    EXPECT_TRUE(shipment) << shipment.error().message;
    if (!shipment || !*shipment) return false;
    const auto carried = carry(**shipment, pieces);
    EXPECT_TRUE(carried) << carried.error().message;
    return carried && *carried && sending->taken(**shipment);
  }
  void change(const std::string& sql) {
    const auto step = [&](sql::Connection& db) -> Result<void> {
      HW_TRY(db.execute(sql));
      return {};
    };
    const auto changed = edge->write(step);
    EXPECT_TRUE(changed) << changed.error().message;
  }

  sql::TestFolder folder;
  TestDatabase server;
  fs::path data = (fs::create_directory(folder.path() / "edge"), folder.path() / "edge");
  std::unique_ptr<KeptStore> edge;
  std::unique_ptr<EdgeShipments> sending;
  std::unique_ptr<SharedDatabase> plants;
  std::unique_ptr<service::Store> group;
};

TEST_F(EdgeAndGroup, TheFirstShipmentBringsEverythingAndTheChainVerifiesThere) {
  EXPECT_EQ(group->edge_taken().value()->number, 0);
  ASSERT_TRUE(send());
  EXPECT_EQ(group_digest(), edge_digest());
  EXPECT_EQ(group->shop().value()->plant, "Werk Süd");
  EXPECT_EQ(group->machines()->size(), 2U);
  EXPECT_EQ(group->verdict()->entries, 1);
  EXPECT_EQ(group->verdict()->head, edge->verdict()->head);
  const auto taken = group->edge_taken().value();
  EXPECT_EQ(taken->number, 1);
  EXPECT_EQ(taken->made_at, made);
  EXPECT_EQ(taken->taken_at, came);
  EXPECT_FALSE(*sending->next(made)) << "nothing has changed since";
  EXPECT_EQ(*sending->waiting(), 0);
}

TEST_F(EdgeAndGroup, LaterOnesBringWhatChangedAndTakeAwayWhatIsGone) {
  ASSERT_TRUE(send());
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  change("update machine set note = 'by the gate' where machine = 'l1'");
  change("delete from task_done where entry = 'e1'");
  change("insert into counter_day values('north', 'l1', 'operating', 20514, 5, 0, 0, 0.25)");
  change("insert into photo(plant, id, sha256, bytes) values('north', 'p', '00', x'00ff0a2b2d')");
  change("delete from point where machine = 'l2'");
  const auto shipment = *sending->next(made);
  EXPECT_LT(shipment->bytes, 3000U) << "not the whole shop";
  ASSERT_TRUE(send());
  EXPECT_EQ(group_digest(), edge_digest());
  EXPECT_EQ(group->edge_taken().value()->number, 2);
}

TEST_F(EdgeAndGroup, WhatChangesWhileAShipmentIsUnderWayGoesWithTheNext) {
  const auto first = *sending->next(made);
  change("update machine set note = 'later' where machine = 'l1'");
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  ASSERT_TRUE(*carry(*first));
  ASSERT_TRUE(sending->taken(*first));
  EXPECT_NE(group_digest(), edge_digest());
  ASSERT_TRUE(send());
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, PiecesMayComeInAnyOrderAndMoreThanOnce) {
  const auto shipment = *sending->next(made);
  auto pieces = cut(*shipment, 4);
  for (const int i : {2, 0, 2, 3, 0}) EXPECT_FALSE(*group->take_piece(pieces[static_cast<std::size_t>(i)], came));
  EXPECT_THAT(group->pieces_here().value()->pieces, testing::ElementsAre(0, 2, 3));
  EXPECT_EQ(group->pieces_here().value()->sha256, shipment->sha256);
  EXPECT_TRUE(*group->take_piece(pieces[1], came));
  EXPECT_TRUE(*group->take_piece(pieces[1], came)) << "the answer was lost, and it is sent again";
  EXPECT_FALSE(*group->pieces_here());
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, AShipmentIsTheSameAfterTheEdgeHasStartedAgain) {
  const auto before = *sending->next(made);
  start_edge_again();
  const auto after = *sending->next(came);
  EXPECT_EQ(after->sha256, before->sha256);
  ASSERT_TRUE(*carry(*after, 2));
  start_edge_again();  // before it heard that it was taken
  const auto again = *sending->next(came);
  EXPECT_EQ(again->number, 1);
  EXPECT_TRUE(*carry(*again));
  ASSERT_TRUE(sending->taken(*again));
  EXPECT_EQ(*sending->last_taken(), 1);
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, AFileThatIsGoneIsMadeAgain) {
  const auto before = *sending->next(made);
  fs::remove(before->file);
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  const auto anew = *sending->next(came);
  EXPECT_EQ(anew->number, before->number);
  EXPECT_NE(anew->sha256, before->sha256);
  EXPECT_FALSE(*group->take_piece(cut(*before, 1).size() == 1 ? cut(*anew, 2)[0] : ShipmentPiece{}, came));
  ASSERT_TRUE(*carry(*anew, 2));
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, PiecesOfAShipmentThatWasMadeAnewTakeThePlaceOfThoseBefore) {
  const auto before = *sending->next(made);
  EXPECT_FALSE(*group->take_piece(cut(*before, 3)[0], came));
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  fs::remove(before->file);
  const auto anew = *sending->next(came);
  EXPECT_FALSE(*group->take_piece(cut(*anew, 3)[1], came));
  EXPECT_THAT(group->pieces_here().value()->pieces, testing::ElementsAre(1));
  EXPECT_EQ(group->pieces_here().value()->sha256, anew->sha256);
}

TEST_F(EdgeAndGroup, PiecesOfTheSameShipmentCutOtherwiseAreNotMixed) {
  const auto shipment = *sending->next(made);
  EXPECT_FALSE(*group->take_piece(cut(*shipment, 3)[0], came));
  EXPECT_FALSE(*group->take_piece(cut(*shipment, 2)[1], came));
  EXPECT_EQ(group->pieces_here().value()->of, 2);
  EXPECT_TRUE(*group->take_piece(cut(*shipment, 2)[0], came));
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, WhatWasAlteredOnItsWayIsRefusedAndSentAgain) {
  const auto shipment = *sending->next(made);
  for (const std::size_t at : {std::size_t{3}, std::size_t{200}, std::size_t{shipment->bytes - 3}}) {
    auto piece = cut(*shipment, 1)[0];
    piece.bytes[at] = static_cast<char>(piece.bytes[at] ^ 0x10);
    const auto refused = group->take_piece(piece, came);
    ASSERT_FALSE(refused) << at;
    EXPECT_FALSE(*group->pieces_here());
  }
  EXPECT_EQ(group->edge_taken().value()->number, 0);
  EXPECT_TRUE(group->machines()->empty());
  ASSERT_TRUE(send());
  EXPECT_EQ(group_digest(), edge_digest());
}

TEST_F(EdgeAndGroup, ANumberOutOfTurnIsRefused) {
  ASSERT_TRUE(send());
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  auto piece = cut(**sending->next(made), 1)[0];
  for (const std::int64_t number : {1, 3}) {
    piece.number = number;
    const auto refused = group->take_piece(piece, came);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, ErrorCode::conflict);
    EXPECT_THAT(refused.error().message, HasSubstr("2 is the next one"));
  }
}

TEST_F(EdgeAndGroup, AfterTheGroupLostSomeEverythingIsSentAgainAndTheRecordGoesOn) {
  ASSERT_TRUE(send());
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  ASSERT_TRUE(send());
  const auto whole = sending->whole(3, made);
  ASSERT_TRUE(whole) << whole.error().message;
  const auto taken = carry(*whole, 3);
  ASSERT_TRUE(taken) << taken.error().message;
  ASSERT_TRUE(sending->taken(*whole));
  EXPECT_EQ(*sending->last_taken(), 3);
  EXPECT_EQ(group_digest(), edge_digest());
  ASSERT_TRUE(keep(*edge, full_entry("e3")));
  ASSERT_TRUE(send());
  EXPECT_EQ(group_digest(), edge_digest());
}

// An entry that the group has seen is never lost there without a word.
TEST_F(EdgeAndGroup, ARecordThatWentBackIsRefusedAndNothingIsLostAtTheGroup) {
  const auto away = [&] {
    sending.reset();
    edge.reset();
  };
  away();
  fs::copy(data / "hourwright.db", folder.path() / "before.db");
  start_edge_again();
  ASSERT_TRUE(keep(*edge, full_entry("e2")));
  ASSERT_TRUE(send());
  const std::string was = group_digest();
  away();
  fs::copy(folder.path() / "before.db", data / "hourwright.db", fs::copy_options::overwrite_existing);
  start_edge_again();
  ASSERT_TRUE(keep(*edge, full_entry("other")));
  const auto whole = *sending->whole(2, made);
  const auto refused = carry(whole);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict) << refused.error().message;
  EXPECT_EQ(group_digest(), was);
}

TEST_F(EdgeAndGroup, AnotherPlantsShipmentIsRefused) {
  EXPECT_TRUE(plants->store_of_new("south")->create_awaiting(awaiting_shop()));
  const auto south = std::move(*plants->take("south"));
  const auto refused = south->take_piece(cut(**sending->next(made), 1)[0], came);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::bad_input);
  EXPECT_THAT(refused.error().message, HasSubstr("comes from the plant \"north\", and this is \"south\""));
}

TEST_F(EdgeAndGroup, APlantThatKeepsItsRecordHereTakesNone) {
  EXPECT_TRUE(plants->store_of_new("west")->create_shop(full_shop(), {}));
  const auto west = std::move(*plants->take("west"));
  EXPECT_FALSE(*west->edge_taken());
  EXPECT_EQ(west->take_piece(cut(**sending->next(made), 1)[0], came).error().code, ErrorCode::not_found);
}

TEST_F(EdgeAndGroup, WhoMayComeInIsNotSent) {
  const auto step = [](sql::Connection& db) -> Result<void> {
    HW_TRY(db.execute(
        "insert into token values('north', 't', 'h', 'T', 'lead', null, null, 'Ada', 1, 2, null, null, null)"));
    return {};
  };
  ASSERT_TRUE(edge->write(step));
  ASSERT_TRUE(send());
  EXPECT_TRUE(group->access_rows()->tokens.empty());
  EXPECT_EQ(edge->access_rows()->tokens.size(), 1U);
}

TEST_F(EdgeAndGroup, HoweverLongNothingCanBeSentWhatWaitsIsNoMoreThanTheShop) {
  ASSERT_TRUE(send());
  for (int i = 0; i < 500; ++i) {
    change(
        fmt::format("insert into counter_day values('north', 'l1', 'operating', 20514, {0}, 0, 0, 0) on "
                    "conflict(plant, machine, counter, day_on) do update set counted_ns = {0}",
                    i));
  }
  EXPECT_EQ(*sending->waiting(), 1);
}

TEST_F(EdgeAndGroup, PropertyWhateverHappensBetweenTheyAreEqualAfterTheLastShipment) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(fmt::format("seed {}", seed));
  std::mt19937 random(seed);
  for (int id = 10; id < 90; ++id) {
    switch (random() % 7) {
      case 0:
        (void)send(1 + id % 4);
        break;
      case 1:
        ASSERT_TRUE(keep(*edge, full_entry(fmt::format("x{}", id))));
        break;
      case 2:
        change(fmt::format("update task set version = {} where machine = 'l1'", id));
        break;
      case 3:
        change(fmt::format("insert into counter_day values('north', 'l2', 'c{}', 1, 2, 3, 4, 0.1)", id));
        break;
      case 4:
        change(fmt::format("delete from counter_day where day_on = 1 and counter < 'c{}'", random() % 90));
        break;
      case 5:
        start_edge_again();
        break;
      default:
        if (const auto shipment = *sending->next(made)) (void)group->take_piece(cut(*shipment, 3)[random() % 3], came);
    }
  }
  while (send(2)) {
  }
  EXPECT_EQ(group_digest(), edge_digest());
}

}  // namespace
}  // namespace hw::storage
