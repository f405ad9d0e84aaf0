#include "tests/power/failing_play.h"

#include "libs/power/mounted_disk.h"
#include "src/web/readiness.h"

namespace hw::power {
namespace {

Result<void> attempt(const Step& step, Stage& stage) {
  try {
    return step(stage);
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

service::Store* store_of(Stage& stage) { return stage.scene ? &stage.scene->store() : stage.store.get(); }

bool reads(service::Store& store) {
  try {
    return store.shop().has_value() && store.entries({}, 10).has_value();
  } catch (const sql::StorageFailed&) {
    return false;
  }
}

void send_all(const WritingScene& scene, Stage& stage, FailingPlay& play) {
  for (const Step& step : scene.steps) {
    auto done = attempt(step, stage);
    if (!done) {
      if (!play.refusal) play.refusal = done.error();
      done = attempt(step, stage);
    }
    if (!done) {
      play.is_refused_again = true;
      return;
    }
    ++play.confirmed;
  }
}

}  // namespace

FailingPlay play(const WritingScene& scene, std::optional<Fault> fault) {
  FailingPlay play;
  Disk disk;
  const MountedDisk mounted(disk);
  {
    Stage stage;
    scene.begin(stage);
    play.begin = disk.image();
    disk.begin_record();
    disk.fail(fault);
    send_all(scene, stage, play);
    for (const Access access : accesses) play.met[static_cast<std::size_t>(access)] = disk.met(access);
    play.has_failed = disk.has_failed();
    if (service::Store* store = store_of(stage)) {
      play.failure = store->failure();
      play.reads = reads(*store);
    }
    if (stage.scene) play.is_ready = web::readiness_of(stage.scene->shop(), 1, stage.scene->now).ready;
    play.operations = disk.record();
    disk.fail({});
  }
  play.left = disk.image();
  return play;
}

}  // namespace hw::power
