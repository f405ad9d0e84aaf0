// One shop's two weeks, by the same clock and ids, on SQLite and on PostgreSQL: the same rows, the same pages.

#include "libs/formats/json.h"
#include "libs/values/sha256.h"
#include "src/storage/database_place.h"
#include "src/storage/record_digest.h"
#include "tests/shop/stopping.h"
#include "tests/shop/storing.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

template <class Edit>
Edit signed_edit(int id) {
  Edit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  return edit;
}

std::string photo_of(std::size_t bytes) {
  std::string photo = "\xFF\xD8\xFF\xE0";
  while (photo.size() < bytes) photo += static_cast<char>(photo.size() * 7 & 0xff);
  return photo;
}

void play_rounds(Scene& scene) {
  const Walker ada{scene};
  must(ada.begin(100));
  must(ada.answer(101, 100, bad("look")));
  must(ada.answer(102, 100, read("air/supply air", 5.2)));
  must(ada.others(103, 100, {good("window", "clean")}));
  must(Walker{.scene = scene, .by = "Bo", .machine = "mill2", .ago = Duration::hours(2)}.answer(
      104, 105, read("air/supply air", 6.0)));  // of a walk that comes later, or never
}

void play_findings(Scene& scene) {
  const std::string photo = photo_of(5000);
  must(keep_photo(scene.shop(), {id_of(200), "image/jpeg", photo}));
  auto found = signed_edit<service::FindingEdit>(201);
  found.what = "Öl unter der Maschine \"1\"";
  found.severity = service::Severity::stop_the_machine;
  found.task = "grease";
  found.photos = {{{id_of(200), print_hex(sha256(photo))}}};
  must(make_finding(scene.shop(), "mill1", found, scene.now));
  auto other = signed_edit<service::FindingEdit>(202);
  other.what = "A lamp";
  must(make_finding(scene.shop(), "mill2", other, scene.now));
  auto change = signed_edit<service::FindingChange>(203);
  change.owner = "Bo";
  change.severity = service::Severity::before_next_shift;
  must(change_finding(scene.shop(), id_of(201), change, scene.now));
  auto settle = signed_edit<service::FindingSettle>(204);
  settle.done = "sealed";
  must(settle_finding(scene.shop(), id_of(201), settle, scene.now));
  auto reopen = signed_edit<service::FindingReopen>(205);
  reopen.why = "it drips again";
  must(reopen_finding(scene.shop(), id_of(201), reopen, scene.now));
  settle.id = id_of(206);
  must(settle_finding(scene.shop(), id_of(202), settle, scene.now));
}

void keep_stores(Scene& scene) {
  const Storing stores{scene};
  must(stores.keep("F-1", Storing::filter(300)));
  must(stores.order(301, 4));
  auto came = stores.movement(302, kits::MovementKind::received, 3);
  came.order = id_of(301);
  must(stores.move(came));
  must(stores.move(303, kits::MovementKind::taken, 1));
  must(stores.move(304, kits::MovementKind::counted, 1));
}

void play_stops(Scene& scene) {
  const Stopping stops{scene};
  must(stops.agree(400, {"grease"}, LocalDate::of(2026, 3, 10)));
  service::StopChange later;
  later.on = LocalDate::of(2026, 3, 12);
  must(stops.change(400, 1, later, 401));
  must(stops.agree(402, {"filter"}, LocalDate::of(2026, 3, 17)));
  must(stops.withdraw(402, 403));
  must(stops.close(400, 2, {"grease"}, 404));
}

void correct_and_undo(Scene& scene) {
  must(scene.done("filter", 500));
  must(scene.undo(500, 501));
  must(scene.done("filter", 502, "Bo"));
  auto right = signed_edit<service::CorrectionEdit>(503);
  right.says = "It was the other filter.";
  must(correct_entry(scene.shop(), id_of(502), right, scene.now));
  service::DoneEdit lost = signed_edit<service::DoneEdit>(504);
  must(mark_done(scene.shop(), "mill1", "no such task", lost, scene.now));  // a stray
  must(scene.read_hours(1234.25, 505));
  must(scene.settle(505, "display is right", 506));
  must(scene.read_hours(10, 507));
  must(scene.settle(507, "display replaced or reset", 508));
}

void change_tasks(Scene& scene) {
  auto own = signed_edit<service::TaskEdit>(600);
  own.title = "Späne";
  own.assembly = "coolant";
  own.work = "clean";
  own.skill = "operator";
  own.energy = "isolated";
  own.minutes = 0.1;
  own.triggers.resize(1);
  own.triggers[0].counter = "operating";
  own.triggers[0].interval = 40;
  const auto added = must(add_task(scene.shop(), "mill2", own, scene.now));
  own.id = id_of(601);
  own.version = 1;
  own.minutes = 7;
  must(change_task(scene.shop(), "mill2", added.key, own, scene.now));
  must(retire_task(scene.shop(), "mill2", "look", signed_edit<service::Signature>(602), scene.now));
  must(move_points(scene.shop(), "mill1", {id_of(603), "Ada", {{1, 0.25, 0.125}}}, scene.now));
  must(change_walk(scene.shop(), "mill1", {id_of(604), "Ada", {1}}, scene.now));
  service::UseChangeEdit use = signed_edit<service::UseChangeEdit>(605);
  use.from = LocalDate::of(2026, 3, 16);
  use.factor = 1.5;
  use.why = "a large order";
  must(announce_use(scene.shop(), use, scene.now));
}

// Secrets are made by chance: who comes in is written as it is kept.
void let_people_in(Scene& scene) {
  const auto writing = must(scene.store().begin());
  must(writing->add_device({id_of(700), "Telefon Ö", "a1", "Ada", scene.now, true, {}, {}, {}}));
  must(writing->add_device({id_of(701), "Tablet", "a2", "Ada", scene.now, false, {}, {}, {}}));
  must(writing->end_device({id_of(702), id_of(701), "Ada", scene.now}));
  must(writing->see_device(id_of(700), LocalDate::of(2026, 3, 9)));
  service::AccessRows rows;
  rows.accounts.push_back(
      {.name = "Ada", .role = access::Role::lead, .made_by = "this computer", .made_at = scene.now});
  rows.accounts.back().password_hash = "$argon2id$...";
  rows.links.push_back({"b1", "Ada", "this computer", scene.now, scene.now});
  rows.sessions.push_back({id_of(703), "c1", "Ada", service::SignInWay::pin, id_of(700), scene.now, scene.now, {}});
  rows.tokens.push_back({id_of(704), "d1", "Board", access::Role::viewer, {{"look"}}, {}, "Ada", scene.now, scene.now});
  rows.notes.push_back({scene.now, "Ada", service::AccessDeed::signed_in, "Ada"});
  must(writing->put_access(rows));
  must(writing->commit());
}

void play_two_weeks(Scene& scene) {
  for (int day = 0; day < 12; ++day) {
    scene.play("mill1 |####..SS??..##......oooo|");
    scene.play("mill2 |.#SS####|");
    must(scene.keep());
    if (day == 1) play_rounds(scene);
    if (day == 2) play_findings(scene);
    if (day == 3) keep_stores(scene);
    if (day == 4) play_stops(scene);
    if (day == 5) correct_and_undo(scene);
    if (day == 6) change_tasks(scene);
    if (day == 7) let_people_in(scene);
    must(scene.done("filter", 800 + day, "Bo"));
    if (day == 8) scene.reopen();
    if (day == 9) scene.end_and_reopen();
  }
  must(scene.keep());
}

// As a feed on which each machine has a position of its own stores it.
void keep_message_position(const Scene& scene) {
  const auto writing = must(scene.store().begin());
  service::CountingStep step;
  step.message_positions = {{"mill1", "run 1", 7, scene.now}};
  must(writing->put_counting(step));
  must(writing->commit());
}

storage::RecordDigest digest_of(const Scene& scene) {
  const auto place = must(storage::place_of(scene.folder()));
  const auto db = must(storage::open_database(place, sql::Access::read));
  return must(storage::record_digest(*db));
}

// What the API answers for these pages.
std::vector<std::string> pages_of(const Scene& scene) {
  const auto& shop = scene.shop();
  service::UseForecasts forecasts(shop);
  service::PartStudies parts(shop);
  service::StoresStudies stores(shop, forecasts, parts);
  const Instant now = scene.now;
  return {formats::print_json(show_shop(shop, now)),
          formats::print_json(must(show_machine(shop, "mill1", now))),
          formats::print_json(must(show_days(shop, "mill1", "operating", {}, {}, now))),
          formats::print_json(must(show_today(shop, forecasts, parts, stores, now))),
          formats::print_json(must(show_horizon(shop, forecasts, std::nullopt, now))),
          formats::print_json(must(show_rounds(shop, std::nullopt, now))),
          formats::print_json(must(show_logbook(shop, {}))),
          formats::print_json(must(show_findings(shop, {{}, service::FindingsShown::all}))),
          formats::print_json(must(show_stops(shop, {{}, service::StopsShown::all}))),
          formats::print_json(must(show_stores(shop, stores, now))),
          formats::print_json(must(show_month(shop, {"2026-03"}, now))),
          formats::print_json(must(prove_logbook(shop)))};
}

TEST(BothDatabases, HoldTheSameRowsOfTheSameShopAndAnswerTheSame) {
  Scene in_file("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks, Engine::sqlite);
  Scene on_server("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks, Engine::postgres);
  for (Scene* scene : {&in_file, &on_server}) {
    play_two_weeks(*scene);
    keep_message_position(*scene);
  }
  const auto file = digest_of(in_file), server = digest_of(on_server);
  EXPECT_EQ(server.sha256, file.sha256);
  ASSERT_EQ(server.tables.size(), file.tables.size());
  for (std::size_t i = 0; i < file.tables.size(); ++i) {
    EXPECT_EQ(server.tables[i].rows, file.tables[i].rows) << file.tables[i].table;
    const bool may_be_empty = file.tables[i].table == "closed_day";
    EXPECT_TRUE(may_be_empty || file.tables[i].rows > 0) << file.tables[i].table << " is part of the play";
  }
  const auto shown = pages_of(in_file), shown_by_server = pages_of(on_server);
  for (std::size_t i = 0; i < shown.size(); ++i) EXPECT_EQ(shown_by_server[i], shown[i]);
  EXPECT_NE(shown.back().find("\"breaks\":[]"), std::string::npos) << shown.back();
}

}  // namespace
}  // namespace hw::shop
