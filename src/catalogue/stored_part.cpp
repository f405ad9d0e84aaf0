#include "src/catalogue/stored_part.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include <fmt/ranges.h>

#include "libs/values/characters.h"

namespace hw::catalogue {
namespace {

constexpr std::size_t number_max = 40, part_title_max = 200, part_unit_max = 20, place_max = 60, part_note_max = 2000;
constexpr std::size_t listed_max = 20, supplier_max = 200;
constexpr std::size_t ring_shown = 12;
constexpr std::array measured_units = {"l", "ml", "kg", "g", "m", "mm", "m2", "m²"};

Result<void> check_length(std::string_view field, std::string_view text, std::size_t most) {
  const std::size_t length = characters_in(text);
  if (length >= 1 && length <= most) return {};
  return refuse(ErrorCode::bad_input, Saying{"text-length", {}, {{"most", static_cast<double>(most)}}},
                "{}: say it in 1 to {} characters", field, most);
}

Result<void> check_may_lack(std::string_view field, const std::optional<std::string>& text, std::size_t most) {
  return text ? check_length(field, *text, most) : Result<void>{};
}

// It stands in addresses, on labels and in lists with commas between.
Result<void> check_number(std::string_view number) {
  HW_TRY(check_length("number", number, number_max));
  for (const char byte : number) {
    if (static_cast<unsigned char>(byte) >= 0x20 && byte != ',' && byte != '/' && byte != ';' && byte != '"') continue;
    return refuse(ErrorCode::bad_input,
                  "number: \"{}\" holds a comma, semicolon, slash, quote or control character; right is for example "
                  "F-104",
                  number);
  }
  if (number.front() != ' ' && number.back() != ' ') return {};
  return refuse(ErrorCode::bad_input, "number: \"{}\" begins or ends with a space", number);
}

struct Range {
  double least = 0;
  double most = 0;
};

Result<void> check_amount(std::string_view field, const std::optional<double>& amount, Range range) {
  if (!amount || (*amount >= range.least && *amount <= range.most)) return {};
  return refuse(ErrorCode::bad_input, "{}: {} must be {} to {}", field, *amount, range.least, range.most);
}

Result<void> check_above_0(std::string_view field, const std::optional<double>& amount) {
  if (!amount || (*amount > 0 && *amount <= 1e6)) return {};
  return refuse(ErrorCode::bad_input, "{}: {} must be above 0 and at most 1000000", field, *amount);
}

Result<void> check_amounts(const StoredPart& part) {
  HW_TRY(check_amount("price", part.price, {0, 1e7}));
  HW_TRY(check_above_0("pack", part.pack));
  HW_TRY(check_above_0("minimum", part.minimum));
  HW_TRY(check_amount("lead_days", part.lead_days, {0, 1000}));
  HW_TRY(check_amount("wanted", part.wanted, {0.5, 0.9999}));
  HW_TRY(check_amount("failures_per_year", part.failures_per_year, {0, 10'000}));
  if (part.shelf_life_days) HW_TRY(check_amount("shelf_life_days", *part.shelf_life_days, {1, 20'000}));
  if (!is_counted(part.unit)) return {};
  for (const auto& [field, amount] : {std::pair{"pack", part.pack}, {"minimum", part.minimum}}) {
    if (!amount || *amount == std::floor(*amount)) continue;
    return refuse(ErrorCode::bad_input, "{}: {} is no whole number; a part counted in {} is ordered in whole ones",
                  field, *amount, part.unit);
  }
  return {};
}

Result<void> check_names(std::string_view field, const std::optional<std::vector<std::string>>& texts,
                         std::size_t most) {
  if (!texts) return {};
  if (texts->size() > listed_max) {
    return refuse(ErrorCode::bad_input, "{}: {} are too many; at most {}", field, texts->size(), listed_max);
  }
  std::set<std::string_view> seen;
  for (const std::string& text : *texts) {
    HW_TRY(check_length(field, text, most));
    if (!seen.insert(text).second) return refuse(ErrorCode::bad_input, "{}: \"{}\" is named twice", field, text);
  }
  return {};
}

Result<void> check_references(const StoredPart& part) {
  if (!part.references) return {};
  if (part.references->size() > listed_max) {
    return refuse(ErrorCode::bad_input, "references: {} are too many; at most {}", part.references->size(), listed_max);
  }
  for (const SupplierReference& one : *part.references) {
    HW_TRY(check_length("references, supplier", one.supplier, supplier_max));
    HW_TRY(check_length("references, reference", one.reference, supplier_max));
  }
  return {};
}

using PartsByNumber = std::map<std::string_view, const StoredPart*>;

PartsByNumber by_number(std::span<const StoredPart> parts) {
  PartsByNumber all;
  for (const StoredPart& part : parts) all.emplace(part.number, &part);
  return all;
}

// Follows substitutes from part to part; its path is how it came where it is.
class RingSearch {
 public:
  explicit RingSearch(std::span<const StoredPart> parts) : parts_(by_number(parts)) {}

  // The ring that is reached from a part; empty where there is none.
  std::vector<std::string> from(const StoredPart& part) {
    if (clear_.contains(part.number)) return {};
    enter(part);
    while (!path_.empty()) {
      const StoredPart* next = next_substitute();
      if (next == nullptr) {
        leave();
      } else if (on_path_.contains(next->number)) {
        return ring_to(*next);
      } else if (!clear_.contains(next->number)) {
        enter(*next);
      }
    }
    return {};
  }

 private:
  struct Step {
    const StoredPart* part;
    std::size_t next = 0;  // of its substitutes
  };

  void enter(const StoredPart& part) {
    path_.push_back({&part});
    on_path_.insert(part.number);
  }

  void leave() {
    clear_.insert(path_.back().part->number);
    on_path_.erase(path_.back().part->number);
    path_.pop_back();
  }

  // Of the last part on the path; substitutes that are not there lead nowhere.
  const StoredPart* next_substitute() {
    Step& step = path_.back();
    while (step.part->substitutes && step.next < step.part->substitutes->size()) {
      const auto there = parts_.find((*step.part->substitutes)[step.next++]);
      if (there != parts_.end()) return there->second;
    }
    return nullptr;
  }

  std::vector<std::string> ring_to(const StoredPart& first) const {
    const auto begun = std::find_if(path_.begin(), path_.end(), [&](const Step& step) { return step.part == &first; });
    std::vector<std::string> ring;
    for (auto step = begun; step != path_.end(); ++step) ring.push_back(step->part->number);
    ring.push_back(first.number);
    return ring;
  }

  PartsByNumber parts_;
  std::vector<Step> path_;
  std::set<std::string_view> on_path_;
  std::set<std::string_view> clear_;  // no ring is reached from them
};

Result<void> check_line(const KitLine& line, std::span<const StoredPart> parts) {
  const auto part = std::find_if(parts.begin(), parts.end(), [&](const auto& one) { return one.number == line.part; });
  if (part == parts.end()) {
    return refuse(ErrorCode::bad_input, Saying{"no-stored-part", {{"part", line.part}}},
                  "part: the stores do not keep \"{}\"", line.part);
  }
  if (!(line.quantity > 0) || line.quantity > 1e6) {
    return refuse(ErrorCode::bad_input, "quantity: {} of {} must be above 0", line.quantity, line.part);
  }
  return check_whole(*part, line.quantity);
}

}  // namespace

bool is_counted(std::string_view unit) {
  return std::find(measured_units.begin(), measured_units.end(), unit) == measured_units.end();
}

Result<void> check_whole(const StoredPart& part, double quantity) {
  if (!is_counted(part.unit) || quantity == std::floor(quantity)) return {};
  return refuse(ErrorCode::bad_input, Saying{"part-whole", {{"part", part.number}}, {{"quantity", quantity}}},
                "quantity: {} of {} is no whole number of {}", quantity, part.number, part.unit);
}

double pack_of(const StoredPartText& part) { return part.pack.value_or(is_counted(part.unit) ? 1 : 0.1); }

Result<void> check(const StoredPart& part) {
  HW_TRY(check_number(part.number));
  HW_TRY(check_length("title", part.title, part_title_max));
  HW_TRY(check_length("unit", part.unit, part_unit_max));
  HW_TRY(check_may_lack("place", part.place, place_max));
  HW_TRY(check_may_lack("supplier", part.supplier, supplier_max));
  HW_TRY(check_may_lack("note", part.note, part_note_max));
  HW_TRY(check_names("names", part.names, part_title_max));
  HW_TRY(check_names("substitutes", part.substitutes, number_max));
  HW_TRY(check_references(part));
  HW_TRY(check_amounts(part));
  if (part.serial.value_or(false) && !is_counted(part.unit)) {
    return refuse(ErrorCode::bad_input, "serial: what is measured in {} has no serial numbers", part.unit);
  }
  return {};
}

std::vector<std::string> ring_of_substitutes(std::span<const StoredPart> parts) {
  RingSearch search(parts);
  for (const StoredPart& part : parts) {
    if (auto ring = search.from(part); !ring.empty()) return ring;
  }
  return {};
}

Error ring_mistake(std::span<const std::string> ring) {
  std::vector<std::string> shown(ring.begin(), ring.end());
  if (shown.size() > ring_shown) {
    shown.resize(ring_shown);
    shown.emplace_back("…");
  }
  const std::string way = fmt::format("{}", fmt::join(shown, " → "));
  return {ErrorCode::bad_input,
          fmt::format("substitutes: {} stand in for each other in a ring; leave one of them out", way),
          Saying{"parts-ring", {{"parts", way}}}};
}

Result<void> check_substitutes(std::span<const StoredPart> parts) {
  const auto all = by_number(parts);
  for (const StoredPart& part : parts) {
    for (const std::string& number : part.substitutes.value_or(std::vector<std::string>{})) {
      const auto there = all.find(number);
      if (there != all.end() && there->second->unit == part.unit) continue;
      if (there != all.end()) {
        return refuse(ErrorCode::bad_input, "substitutes: part {} is counted in {}, and {} in {}; right is one unit",
                      part.number, part.unit, number, there->second->unit);
      }
      return refuse(ErrorCode::bad_input, Saying{"no-stored-part", {{"part", number}}},
                    "substitutes: part {} names \"{}\", which the stores do not keep", part.number, number);
    }
  }
  const auto ring = ring_of_substitutes(parts);
  return ring.empty() ? Result<void>{} : refuse(ring_mistake(ring));
}

Result<void> check(const Kit& kit, std::span<const StoredPart> parts) {
  if (kit.task.has_value() == kit.service.has_value()) {
    return refuse(ErrorCode::bad_input, "task: a kit is for one task or for one service; name one of them");
  }
  if (kit.kind.has_value() == kit.machine.has_value()) {
    return refuse(ErrorCode::bad_input, "kind: a kit is for a kind of machine or for one machine; name one of them");
  }
  if (kit.service && kit.machine) {
    return refuse(ErrorCode::bad_input, "service: services are those of a kind; name the kind instead of the machine");
  }
  std::set<std::string_view> named;
  for (std::size_t i = 0; i < kit.lines.size(); ++i) {
    const std::string place = fmt::format("lines[{}]", i);
    if (auto checked = check_line(kit.lines[i], parts); !checked) return refuse(checked.error().at(place));
    if (named.insert(kit.lines[i].part).second) continue;
    return refuse(ErrorCode::bad_input, "{}.part: \"{}\" is named twice; add the quantities up", place,
                  kit.lines[i].part);
  }
  return {};
}

}  // namespace hw::catalogue
