#pragma once
// The stores as people keep them in a Scene.

#include "src/service/stores_cases.h"
#include "tests/shop/scene.h"

namespace hw::shop {

struct Storing {
  Scene& scene;

  // A filter of 20 from Kranz, four days away, known to tasks as "Bag".
  static service::StoredPartEdit filter(int id) {
    service::StoredPartEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.title = "Filter bag";
    edit.unit = "pc";
    edit.place = "A1";
    edit.names = std::vector<std::string>{"Bag"};
    edit.supplier = "Kranz";
    edit.price = 20;
    edit.lead_days = 4;
    return edit;
  }
  Result<void> keep(std::string_view number, const service::StoredPartEdit& edit) const {
    return keep_part(scene.shop(), number, edit, scene.now);
  }

  service::MovementEdit movement(int id, kits::MovementKind kind, double quantity, std::string part = "F-1") const {
    service::MovementEdit edit;
    edit.id = id_of(id);
    edit.by = "Bo";
    edit.kind = kind;
    edit.lines = {{std::move(part), quantity}};
    return edit;
  }
  Result<service::EntryView> move(const service::MovementEdit& edit) const {
    return move_stock(scene.shop(), edit, scene.now);
  }
  Result<service::EntryView> move(int id, kits::MovementKind kind, double quantity, std::string part = "F-1") const {
    return move(movement(id, kind, quantity, std::move(part)));
  }

  Result<service::OrderView> order(int id, double quantity, std::string part = "F-1") const {
    service::OrderEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.supplier = "Kranz";
    edit.lines = {{std::move(part), quantity, 20.0}};
    return place_order(scene.shop(), edit, scene.now);
  }

  const kits::Shelf& shelf(std::string_view part = "F-1") const { return scene.shop().stores().part(part)->shelf; }
  std::vector<service::StopReadinessView> readiness() const { return show_readiness(scene.shop(), scene.now).stops; }
};

}  // namespace hw::shop
