#include "src/service/isolation_text.h"

#include "libs/values/result.h"

namespace hw::service {
namespace {

Result<catalogue::IsolationPoint> isolation_point_of(const IsolationPointText& text) {
  const auto energy = catalogue::parse_energy_source(text.energy);
  if (!energy) return refuse(energy.error().at("energy"));
  catalogue::IsolationPoint point{text.key,      text.title, text.title_de, *energy,    text.where,
                                  text.where_de, text.how,   text.how_de,   text.point, text.wait_minutes};
  HW_TRY(check(point));
  return point;
}

Result<catalogue::StoredEnergy> stored_energy_of(const StoredEnergyText& text) {
  const auto energy = catalogue::parse_energy_source(text.energy);
  if (!energy) return refuse(energy.error().at("energy"));
  catalogue::StoredEnergy stored{*energy,         text.title,  text.title_de,  text.release,
                                 text.release_de, text.verify, text.verify_de, text.wait_minutes};
  HW_TRY(check(stored));
  return stored;
}

IsolationPointText text_of(const catalogue::IsolationPoint& point) {
  return {point.key,   point.title,       point.title_de, std::string{word_of(point.energy)},
          point.where, point.where_de,    point.how,      point.how_de,
          point.point, point.wait_minutes};
}

StoredEnergyText text_of(const catalogue::StoredEnergy& stored) {
  return {std::string{word_of(stored.energy)},
          stored.title,
          stored.title_de,
          stored.release,
          stored.release_de,
          stored.verify,
          stored.verify_de,
          stored.wait_minutes};
}

}  // namespace

Result<catalogue::Isolation> isolation_of(const IsolationText& text) {
  catalogue::Isolation isolation;
  for (const auto& one : text.points) {
    auto point = isolation_point_of(one);
    if (!point) return refuse(point.error().at(fmt::format("points[{}]", isolation.points.size())));
    isolation.points.push_back(*std::move(point));
  }
  for (const auto& one : text.stored) {
    auto stored = stored_energy_of(one);
    if (!stored) return refuse(stored.error().at(fmt::format("stored[{}]", isolation.stored.size())));
    isolation.stored.push_back(*std::move(stored));
  }
  return isolation;
}

IsolationText text_of(const catalogue::Isolation& isolation) {
  IsolationText text;
  for (const auto& point : isolation.points) text.points.push_back(text_of(point));
  for (const auto& stored : isolation.stored) text.stored.push_back(text_of(stored));
  return text;
}

}  // namespace hw::service
