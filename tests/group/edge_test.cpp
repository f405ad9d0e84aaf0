// A plant of the group whose record is kept at its edge.

#include <fstream>

#include <boost/json.hpp>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/http/loopback_test.h"
#include "src/service/send_upward.h"
#include "src/storage/open_store.h"
#include "tests/group/group_scene.h"

namespace hw::group {
namespace {

using http::comes_true;
using testing::HasSubstr;

struct Edges : testing::Test {
  Edges() {
    std::filesystem::create_directory(folder.path() / "edge");
    {
      const auto store = std::move(*storage::open_store(folder.path() / "edge", {.new_plant = "west"}));
      EXPECT_TRUE(store->create_shop(shop_named("west"), {lathe()}));
    }
    edge = std::move(*storage::open_edge(folder.path() / "edge"));
    scene.await_plant("west");
    scene.join("a");
    EXPECT_TRUE(comes_true([&] { return scene.holder_of("west") == "a"; }));
    upward = upward_to(scene.member("a").server->port());
  }
  service::Upward upward_to(std::uint16_t port) const {
    service::Upward to;
    to.group = *http::parse_url(fmt::format("http://west.localhost:{}", port));
    to.token = scene.pass_of("west").substr(7);
    to.piece_bytes = 700;
    to.every = Duration::millis(20);
    to.wait_max = Duration::millis(40);
    to.clock = now;
    to.report = [](std::string_view) {};
    return to;
  }
  Result<void> send() { return service::send_once(*edge.shipments, upward, {}); }
  void enter(const std::string& id) {
    auto writing = std::move(*edge.store->begin());
    service::Entry entry;
    entry.id = id;
    entry.kind = "task done";
    entry.machine = "l1";
    entry.task = "filter";
    entry.by = "Ada";
    entry.at = entry.happened_at = now();
    EXPECT_TRUE(writing->add_entry(entry));
    EXPECT_TRUE(writing->commit());
  }
  http::Response ask(std::string_view method, const std::string& target, std::string_view body = "") {
    return scene.ask("a", "west", method, target, body);
  }
  bool shows_machines() { return std::string{ask("GET", "/api/floor").text()}.find("Lathe 1") != std::string::npos; }
  std::size_t entries_there() { return entries_of(ask("GET", "/api/logbook")); }

  GroupScene scene;
  sql::TestFolder folder;
  storage::OpenEdge edge;
  service::Upward upward;
};

TEST_F(Edges, BeforeTheFirstShipmentThePlantIsThereAndEmpty) {
  const auto shop = boost::json::parse(ask("GET", "/api/shop").text());
  EXPECT_EQ(shop.at("kept_at_edge"), true);
  EXPECT_TRUE(shop.at("from_edge_at").is_null());
  EXPECT_EQ(boost::json::parse(ask("GET", "/api/edge/shipments").text()).at("number"), 0);
  EXPECT_EQ(scene.ask("a", "north", "GET", "/api/edge/shipments").status, 404);
}

TEST_F(Edges, WhatIsSentIsShownThere) {
  enter(id_of(1));
  const auto sent = send();
  ASSERT_TRUE(sent) << sent.error().message;
  ASSERT_TRUE(comes_true([&] { return shows_machines(); }));
  EXPECT_EQ(entries_there(), 1U);
  const auto shop = boost::json::parse(ask("GET", "/api/shop").text());
  EXPECT_EQ(shop.at("plant").at("name"), "Plant west");
  EXPECT_FALSE(shop.at("from_edge_at").is_null());
  enter(id_of(2));
  ASSERT_TRUE(send());
  EXPECT_TRUE(comes_true([&] { return entries_there() == 2; }));
  EXPECT_TRUE(send()) << "nothing more";
  EXPECT_EQ(boost::json::parse(ask("GET", "/api/edge/shipments").text()).at("number"), 2);
}

TEST_F(Edges, TheGroupsFloorHasItsMachines) {
  ASSERT_TRUE(send());
  EXPECT_TRUE(comes_true([&] {
    const auto floor = boost::json::parse(scene.ask("a", "group", "GET", "/api/group/floor").text());
    for (const auto& plant : floor.at("plants").as_array()) {
      if (plant.at("key") == "west" && plant.at("line").is_object()) {
        return plant.at("line").at("machines").as_array().size() == 1;
      }
    }
    return false;
  }));
}

TEST_F(Edges, NothingIsEnteredAtTheGroupButWhoMayComeIn) {
  ASSERT_TRUE(send());
  ASSERT_TRUE(comes_true([&] { return shows_machines(); }));
  const auto refused = ask("POST", std::string{done_target}, done_body(1));
  EXPECT_EQ(refused.status, 409);
  EXPECT_THAT(std::string{refused.text()}, HasSubstr("kept-at-edge"));
  EXPECT_EQ(ask("GET", "/api/logbook").status, 200);
  const auto invited = ask("POST", "/api/accounts", R"({"name":"Ada","role":"lead","by":"Ada"})");
  EXPECT_THAT(std::string{invited.text()}, testing::Not(HasSubstr("kept-at-edge"))) << "though no token may";
}

TEST_F(Edges, AfterACutItGoesOnFromWhatHasArrived) {
  const auto shipment = *edge.shipments->next(now());
  ASSERT_GT(shipment->bytes, upward.piece_bytes);
  std::string first(upward.piece_bytes, '\0');
  std::ifstream(shipment->file, std::ios::binary).read(first.data(), static_cast<std::streamsize>(first.size()));
  const auto count = (shipment->bytes + upward.piece_bytes - 1) / upward.piece_bytes;
  const auto put = [&](std::size_t piece, const std::string& bytes) {
    return scene.put_bytes(
        "a", "west", fmt::format("/api/edge/shipments/1/pieces/{}?of={}&sha256={}", piece, count, shipment->sha256),
        bytes);
  };
  ASSERT_EQ(put(0, first).status, 200);
  EXPECT_EQ(put(count, first).status, 400);
  const auto next = boost::json::parse(ask("GET", "/api/edge/shipments").text()).at("next");
  EXPECT_EQ(next.at("pieces").as_array().size(), 1U);
  const auto sent = send();
  ASSERT_TRUE(sent) << sent.error().message;
  EXPECT_EQ(*edge.shipments->last_taken(), 1);
}

// The group has it, and the answer that says so was lost.
TEST_F(Edges, AShipmentWhoseAnswerWasLostIsNotSentTwice) {
  const auto shipment = *edge.shipments->next(now());
  std::string bytes(shipment->bytes, '\0');
  std::ifstream(shipment->file, std::ios::binary).read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  ASSERT_EQ(
      scene
          .put_bytes("a", "west", fmt::format("/api/edge/shipments/1/pieces/0?of=1&sha256={}", shipment->sha256), bytes)
          .status,
      200);
  EXPECT_EQ(*edge.shipments->last_taken(), 0);
  ASSERT_TRUE(send());
  EXPECT_EQ(*edge.shipments->last_taken(), 1);
  EXPECT_EQ(boost::json::parse(ask("GET", "/api/edge/shipments").text()).at("number"), 1);
}

TEST_F(Edges, AGroupThatWentBackIsToldEverythingAgain) {
  enter(id_of(1));
  ASSERT_TRUE(send());
  const auto db = std::move(*sql::open_postgres(scene.address(), sql::Access::write, {}));
  ASSERT_TRUE(db->act_for("west"));
  ASSERT_TRUE(db->execute("update edge_taken set number = 0, sha256 = '' where plant = 'west'"));
  ASSERT_TRUE(db->execute("delete from task_done where plant = 'west'"));
  enter(id_of(2));
  const auto sent = send();
  ASSERT_TRUE(sent) << sent.error().message;
  EXPECT_TRUE(comes_true([&] { return entries_there() == 2; }));
  EXPECT_EQ(*edge.shipments->last_taken(), 1);
}

TEST_F(Edges, WhatTheGroupRefusesIsSaidInItsWords) {
  upward.token = "wrong";
  auto refused = send();
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, HasSubstr("the group refuses: nobody has signed in here"));
  upward = upward_to(scene.member("a").server->port());
  upward.group.host = "north.localhost";
  upward.token = scene.pass_of("north").substr(7);
  refused = send();
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, HasSubstr("the record of this plant is kept here"));
}

TEST_F(Edges, SendsByItselfUntilTheGroupHasAll) {
  const auto shop = std::move(*service::OpenShop::open(*edge.store));
  const std::uint16_t port = upward.group.port;
  upward.group.port = 9;  // nobody listens
  {
    const service::SendUpward sending(*shop, *edge.shipments, upward);
    EXPECT_TRUE(comes_true([&] { return !shop->upward().trouble.empty(); }));
    EXPECT_TRUE(shop->upward().is_edge);
    EXPECT_FALSE(shop->upward().sent_at);
  }
  upward.group.port = port;
  const service::SendUpward sending(*shop, *edge.shipments, upward);
  enter(id_of(1));
  EXPECT_TRUE(comes_true([&] { return entries_there() == 1; }));
  EXPECT_TRUE(comes_true([&] { return shop->upward().trouble.empty() && shop->upward().sent_at; }));
  EXPECT_EQ(shop->upward().waiting_rows, 0);
}

}  // namespace
}  // namespace hw::group
