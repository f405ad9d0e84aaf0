#pragma once
// The words that files, pages and the API use for kinds of work, skills, energy states and the energies to be isolated
// (EN 13306, ISO 14118, the trade).

#include <string_view>

#include "libs/values/result.h"

namespace hw::catalogue {

enum class WorkType { inspect, clean, lubricate, top_up, adjust, measure, replace, overhaul };
enum class Skill { machine_operator, technician, outside_service };
enum class EnergyState { in_production, powered_at_rest, isolated };
// Who wants a task done as it is: then its interval is not the shop's alone to change. `nobody`: nobody but the shop.
enum class Demand { nobody, safety, law, warranty };
enum class LimitKind { warning, action };  // of a reading
enum class EnergySource { electrical, hydraulic, air, gravity, spring, heat, coolant, other };

std::string_view word_of(WorkType);
std::string_view word_of(Skill);
std::string_view word_of(EnergyState);
std::string_view word_of(EnergySource);
std::string_view word_of(Demand);
std::string_view word_of(LimitKind);

// Each refuses an unknown word and lists the known ones.
Result<WorkType> parse_work_type(std::string_view word);
Result<Skill> parse_skill(std::string_view word);
Result<EnergyState> parse_energy_state(std::string_view word);
Result<EnergySource> parse_energy_source(std::string_view word);
Result<Demand> parse_demand(std::string_view word);
Result<LimitKind> parse_limit_kind(std::string_view word);

}  // namespace hw::catalogue
