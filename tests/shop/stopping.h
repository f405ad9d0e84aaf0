#pragma once
// Stops as people agree, change and close them in a Scene.

#include "tests/shop/scene.h"

namespace hw::shop {

struct Stopping {
  Scene& scene;

  service::StopEdit edit(int id, std::vector<std::string> tasks, LocalDate on) const {
    service::StopEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.on = on;
    edit.shift = "early";
    edit.tasks = std::move(tasks);
    return edit;
  }
  Result<service::StopView> agree(int id, std::vector<std::string> tasks,
                                  LocalDate on = LocalDate::of(2026, 3, 4)) const {
    return agree_stop(scene.shop(), "mill1", edit(id, std::move(tasks), on), scene.now);
  }
  Result<service::StopView> change(int stop, int version, service::StopChange change, int id) const {
    change.id = id_of(id);
    change.by = "Bo";
    change.version = version;
    return change_stop(scene.shop(), id_of(stop), change, scene.now);
  }
  Result<service::StopView> withdraw(int stop, int id) const {
    service::StopWithdraw edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.why = "a hot order";
    return withdraw_stop(scene.shop(), id_of(stop), edit, scene.now);
  }
  // From an hour ago until now; each task's entry has the id of its place behind `id`.
  service::StopClose closing(int id, int version, std::vector<std::string> done) const {
    service::StopClose edit;
    edit.id = id_of(id);
    edit.by = "Bo";
    edit.version = version;
    edit.began_at = scene.now - Duration::hours(1);
    edit.ended_at = scene.now;
    for (std::string& task : done) {
      service::StopDone one;
      one.id = id_of(++id);
      one.task = std::move(task);
      edit.done.push_back(std::move(one));
    }
    return edit;
  }
  Result<service::StopView> close(int stop, const service::StopClose& edit) const {
    return close_stop(scene.shop(), id_of(stop), edit, scene.now);
  }
  Result<service::StopView> close(int stop, int version, std::vector<std::string> done, int id) const {
    return close(stop, closing(id, version, std::move(done)));
  }

  service::StopView shown(int stop) const { return must(show_stop(scene.shop(), id_of(stop), scene.now)).stop; }
  std::vector<service::StopView> agreed() const { return must(show_stops(scene.shop(), {})).stops; }
  std::vector<service::EntryView> entries(std::string_view kind) const {
    service::LogbookQuery query;
    query.kind = kind;
    return must(show_logbook(scene.shop(), query)).entries;
  }
};

}  // namespace hw::shop
