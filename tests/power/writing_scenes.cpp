#include "tests/power/writing_scenes.h"

#include <utility>

#include "libs/sql/sqlite.h"
#include "libs/values/sha256.h"
#include "src/storage/open_store.h"
#include "src/storage/schema.h"
#include "src/storage/store_test.h"
#include "tests/power/access_scenes.h"
#include "tests/shop/stopping.h"
#include "tests/shop/storing.h"
#include "tests/shop/walking.h"

namespace hw::power {
namespace {

using kits::MovementKind;
using shop::id_of;
using shop::Scene;
using shop::Stopping;
using shop::Storing;
using shop::Walker;

// A step in which people or feeds do something in the scene's shop.
template <class Act>
Step in(Act act) {
  return [act](Stage& stage) { return told(act(*stage.scene)); };
}

void open_shop(Stage& stage) { stage.scene.emplace("2026-03-02T06:00:00Z", "Europe/Berlin", shop::round_tasks); }

std::string photo_of(std::size_t bytes) {
  std::string photo = "\xFF\xD8\xFF\xE0";
  while (photo.size() < bytes) photo += static_cast<char>(photo.size() * 31 >> 3 & 0xff);
  return photo;
}
auto keeps_photo(int id, std::size_t bytes) {
  return [=](Scene& scene) { return keep_photo(scene.shop(), {id_of(id), "image/jpeg", photo_of(bytes)}); };
}

WritingScene tasks_done() {
  const auto done = [](int id) { return in([id](Scene& scene) { return scene.done("filter", id); }); };
  return {"task done, undone", open_shop, {done(1), in([](Scene& scene) { return scene.undo(1, 2); }), done(3)}};
}

WritingScene round_walked() {
  const auto answers = [](int id, service::CheckAnswer answer) {
    return in([=](Scene& scene) { return Walker{scene}.answer(id, 1, answer); });
  };
  return {"round walked",
          open_shop,
          {in([](Scene& scene) { return Walker{scene}.begin(1); }), answers(2, shop::good("look")),
           answers(3, shop::bad("window", "clean")), answers(4, shop::read("air/supply air", 5.2))}};
}

WritingScene finding_with_photo() {
  const auto makes = [](Scene& scene) {
    service::FindingEdit edit;
    edit.id = id_of(2);
    edit.by = "Ada";
    edit.what = "Oil under the spindle";
    edit.photos = std::vector<service::PhotoName>{{id_of(1), print_hex(sha256(photo_of(30'000)))}};
    return make_finding(scene.shop(), "mill1", edit, scene.now);
  };
  const auto changes = [](Scene& scene) {
    service::FindingChange edit;
    edit.id = id_of(3);
    edit.by = "Bo";
    edit.owner = "Ada";
    return change_finding(scene.shop(), id_of(2), edit, scene.now);
  };
  const auto settles = [](Scene& scene) {
    service::FindingSettle edit;
    edit.id = id_of(4);
    edit.by = "Ada";
    edit.done = "Seal replaced";
    return settle_finding(scene.shop(), id_of(2), edit, scene.now);
  };
  return {"finding with photo", open_shop, {in(keeps_photo(1, 30'000)), in(makes), in(changes), in(settles)}};
}

WritingScene hours_read() {
  const auto begin = [](Stage& stage) {
    open_shop(stage);
    stage.scene->play("mill1 |####|");
    shop::must(stage.scene->keep());
  };
  return {"hours read and settled",
          begin,
          {in([](Scene& scene) { return scene.read_hours(1000, 1); }),
           in([](Scene& scene) { return scene.read_hours(1003, 2); }),
           in([](Scene& scene) { return scene.settle(2, "display is right", 3); })}};
}

service::TaskEdit own_task(int id, std::string title) {
  service::TaskEdit edit;
  edit.id = id_of(id);
  edit.by = "Ada";
  edit.title = std::move(title);
  edit.assembly = "coolant";
  edit.work = "clean";
  edit.skill = "operator";
  edit.energy = "in production";
  edit.minutes = 5;
  edit.triggers.resize(1);
  edit.triggers[0].calendar = "1 month";
  return edit;
}

WritingScene own_task_and_plan() {
  const auto changes = [](Scene& scene) {
    auto edit = own_task(2, "Empty both chip bins");
    edit.version = 1;
    return change_task(scene.shop(), "mill1", id_of(1), edit, scene.now);
  };
  const auto retires = [](Scene& scene) {
    return retire_task(scene.shop(), "mill1", id_of(1), {id_of(3), "Ada", {}, {}}, scene.now);
  };
  const auto moves = [](Scene& scene) {
    return move_points(scene.shop(), "mill1", {id_of(4), "Ada", {{1, 0.25, 0.75}}}, scene.now);
  };
  const auto walks = [](Scene& scene) { return change_walk(scene.shop(), "mill1", {id_of(5), "Ada", {1}}, scene.now); };
  const auto announces = [](Scene& scene) {
    service::UseChangeEdit edit;
    edit.id = id_of(6);
    edit.by = "Ada";
    edit.from = LocalDate::of(2026, 3, 9);
    edit.factor = 1.5;
    edit.why = "a second shift";
    return announce_use(scene.shop(), edit, scene.now);
  };
  const auto adds = [](Scene& scene) {
    return add_task(scene.shop(), "mill1", own_task(1, "Empty the chip bin"), scene.now);
  };
  return {"own task, plan, use", open_shop, {in(adds), in(changes), in(retires), in(moves), in(walks), in(announces)}};
}

service::StoredPartEdit filter_part() {
  auto edit = Storing::filter(900);
  edit.names = std::vector<std::string>{"Filter"};
  return edit;
}

WritingScene stop_closed() {
  const auto begin = [](Stage& stage) {
    open_shop(stage);
    const Storing stores{*stage.scene};
    shop::must(stores.keep("F-1", filter_part()));
    shop::must(stores.move(1, MovementKind::received, 5));
  };
  const auto closes = [](Scene& scene) {
    const Stopping stops{scene};
    auto closing = stops.closing(30, 1, {"filter", "grease"});
    closing.used = service::UsedParts{id_of(40), {{"F-1", 1}}};
    return stops.close(20, closing);
  };
  return {"stop agreed and closed",
          begin,
          {in([](Scene& scene) {
             return Stopping{scene}.agree(20, {"filter", "grease"});
           }),
           in(closes)}};
}

WritingScene stock_moved() {
  const auto receives = [](Scene& scene) {
    const Storing stores{scene};
    auto delivery = stores.movement(2, MovementKind::received, 4);
    delivery.order = id_of(1);
    return stores.move(delivery);
  };
  return {"stock kept, ordered, moved",
          open_shop,
          {in([](Scene& scene) { return Storing{scene}.keep("F-1", filter_part()); }),
           in([](Scene& scene) { return Storing{scene}.order(1, 4); }), in(receives),
           in([](Scene& scene) { return Storing{scene}.move(3, MovementKind::taken, 1); }),
           in([](Scene& scene) { return Storing{scene}.move(4, MovementKind::counted, 2); })}};
}

// From an evening over midnight: days end, and their checkpoints are kept.
WritingScene counting_stored() {
  const auto begin = [](Stage& stage) {
    open_shop(stage);
    stage.scene->now = *parse_instant("2026-03-02T20:00:00Z");
    stage.scene->play("mill1 |#|");
    shop::must(stage.scene->keep());
  };
  const auto counts = [](int number, std::string picture) -> Step {
    return [=](Stage& stage) {
      if (stage.pictures_played < number) stage.scene->play(picture);
      stage.pictures_played = number;
      return stage.scene->keep();
    };
  };
  return {"counting stored",
          begin,
          {counts(1, "mill1 |#.|"), counts(2, "mill2 |S#S|"), counts(3, "mill1 |?##.|"), counts(4, "mill1 |#|")}};
}

WritingScene devices_joined() {
  const auto begin = [](Stage& stage) {
    open_shop(stage);
    stage.devices = shop::must(service::Devices::open(stage.scene->store(), Zone::utc(), chance_of(stage)));
  };
  // The code of an id is the same however often it is asked for.
  const auto joins = [](int id) -> Step {
    return [id](Stage& stage) -> Result<void> {
      const Instant now = stage.scene->now;
      stage.chance = id * 11;
      HW_TAKE(code, stage.devices->offer_code({id_of(id), "Ada"}, now));
      stage.chance = id * 11 + 5;
      return told(stage.devices->enrol({id_of(id + 1), code.code, "Phone"}, service::Line::encrypted, now));
    };
  };
  const Step ends = [](Stage& stage) {
    return told(stage.devices->end(id_of(2), {id_of(9), "Ada", {}, {}}, stage.scene->now));
  };
  return {"devices joined and ended", begin, {joins(1), joins(3), ends}};
}

Result<void> write_log_back(const std::filesystem::path& folder) {
  HW_TAKE(db,
          sql::open_sqlite(folder / "hourwright.db", sql::Access::write, {.application_id = storage::application_id}));
  return db->run_script("pragma wal_checkpoint(truncate)");
}

WritingScene log_written_back() {
  const Step writes_back = [](Stage& stage) { return write_log_back(stage.scene->folder()); };
  const auto done = [](int id) { return in([id](Scene& scene) { return scene.done("filter", id); }); };
  return {"log written back", open_shop, {done(1), writes_back, done(2), done(3), writes_back, done(4)}};
}

WritingScene closed_and_opened() {
  const Step reopens = [](Stage& stage) -> Result<void> {
    stage.scene->end_and_reopen();
    return {};
  };
  const auto done = [](int id) { return in([id](Scene& scene) { return scene.done("filter", id); }); };
  return {"closed and opened", open_shop, {done(1), reopens, done(2), reopens, done(3)}};
}

// So many that the log is written back by itself and begins anew, over what was in it.
WritingScene many_photos() {
  WritingScene scene{"log beginning anew", open_shop, {}};
  for (int n = 1; n <= 5; ++n) scene.steps.push_back(in(keeps_photo(n, 1'000'000)));
  for (int n = 6; n <= 9; ++n) scene.steps.push_back(in(keeps_photo(n, 10'000)));
  return scene;
}

WritingScene shop_founded() {
  const Step makes = [](Stage& stage) -> Result<void> {
    HW_TAKE(store, storage::open_store(stage.folder.path()));
    stage.store = std::move(store);
    return {};
  };
  const Step founds = [](Stage& stage) {
    return stage.store->create_shop(storage::full_shop(), {storage::full_machine("l2"), storage::full_machine("l1")});
  };
  return {"shop founded", [](Stage&) {}, {makes, founds}};
}

// From the tables as they were before the last step of the schema (none, where there is one only).
WritingScene schema_brought_up() {
  const auto begin = [](Stage& stage) {
    const auto db = shop::must(sql::open_sqlite(stage.folder.path() / "hourwright.db", sql::Access::write,
                                                {.application_id = storage::application_id}));
    const auto steps = storage::migrations();
    shop::must(sql::apply_migrations(*db, steps.first(steps.size() - 1)));
  };
  const Step opens = [](Stage& stage) -> Result<void> {
    HW_TAKE(store, storage::open_store(stage.folder.path()));
    stage.store = std::move(store);
    return {};
  };
  return {"schema brought up to date", begin, {opens}};
}

}  // namespace

access::Randomness chance_of(Stage& stage) {
  return [&stage](std::size_t bytes) {
    std::string chance;
    while (chance.size() < bytes) chance += static_cast<char>(++stage.chance * 7);
    return chance;
  };
}

std::vector<WritingScene> writing_scenes() {
  return {shop_founded(),       schema_brought_up(), tasks_done(),        round_walked(),
          finding_with_photo(), hours_read(),        own_task_and_plan(), stop_closed(),
          stock_moved(),        counting_stored(),   devices_joined(),    people_let_in(),
          own_access_changed(), log_written_back(),  closed_and_opened(), many_photos()};
}

}  // namespace hw::power
