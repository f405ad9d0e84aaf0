#include "src/catalogue/work_words.h"

#include <array>

#include "libs/values/assert.h"

namespace hw::catalogue {
namespace {

template <class E>
struct Word {
  E value;
  std::string_view word;
};
// Clang 14, which checks and fuzzes this code, does not deduce an aggregate's arguments without it.
template <class E>
Word(E, std::string_view) -> Word<E>;

constexpr std::array work_types{Word{WorkType::inspect, "inspect"},     Word{WorkType::clean, "clean"},
                                Word{WorkType::lubricate, "lubricate"}, Word{WorkType::top_up, "top up"},
                                Word{WorkType::adjust, "adjust"},       Word{WorkType::measure, "measure"},
                                Word{WorkType::replace, "replace"},     Word{WorkType::overhaul, "overhaul"}};
constexpr std::array skills{Word{Skill::machine_operator, "operator"}, Word{Skill::technician, "technician"},
                            Word{Skill::outside_service, "outside service"}};
constexpr std::array energy_states{Word{EnergyState::in_production, "in production"},
                                   Word{EnergyState::powered_at_rest, "powered at rest"},
                                   Word{EnergyState::isolated, "isolated"}};
constexpr std::array limit_kinds{Word{LimitKind::warning, "warning"}, Word{LimitKind::action, "action"}};
constexpr std::array energy_sources{Word{EnergySource::electrical, "electrical"},
                                    Word{EnergySource::hydraulic, "hydraulic"},
                                    Word{EnergySource::air, "air"},
                                    Word{EnergySource::gravity, "gravity"},
                                    Word{EnergySource::spring, "spring"},
                                    Word{EnergySource::heat, "heat"},
                                    Word{EnergySource::coolant, "coolant"},
                                    Word{EnergySource::other, "other"}};

constexpr std::array demands{Word{Demand::nobody, "nobody"}, Word{Demand::safety, "safety"}, Word{Demand::law, "law"},
                             Word{Demand::warranty, "warranty"}};

template <class Table, class E>
std::string_view find_word(const Table& table, E value) {
  for (const auto& row : table) {
    if (row.value == value) return row.word;
  }
  HW_ASSERT(false, "every value has a word");
}

template <class E, std::size_t N>
Result<E> find_value(const std::array<Word<E>, N>& table, std::string_view what, std::string_view word) {
  std::string known;
  for (const auto& row : table) {
    if (row.word == word) return row.value;
    known += known.empty() ? "" : ", ";
    known += row.word;
  }
  return refuse(ErrorCode::bad_input, "\"{}\" is no {}; it is one of: {}", word.substr(0, 40), what, known);
}

}  // namespace

std::string_view word_of(WorkType value) { return find_word(work_types, value); }
std::string_view word_of(Skill value) { return find_word(skills, value); }
std::string_view word_of(EnergyState value) { return find_word(energy_states, value); }
std::string_view word_of(EnergySource value) { return find_word(energy_sources, value); }
std::string_view word_of(Demand value) { return find_word(demands, value); }
std::string_view word_of(LimitKind value) { return find_word(limit_kinds, value); }

Result<WorkType> parse_work_type(std::string_view word) { return find_value(work_types, "work type", word); }
Result<Skill> parse_skill(std::string_view word) { return find_value(skills, "skill", word); }
Result<EnergyState> parse_energy_state(std::string_view word) {
  return find_value(energy_states, "energy state", word);
}
Result<EnergySource> parse_energy_source(std::string_view word) { return find_value(energy_sources, "energy", word); }
Result<Demand> parse_demand(std::string_view word) { return find_value(demands, "demand", word); }
Result<LimitKind> parse_limit_kind(std::string_view word) { return find_value(limit_kinds, "limit", word); }

}  // namespace hw::catalogue
