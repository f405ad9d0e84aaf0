#pragma once
// Numbers, days, lengths of time and limits as a job card writes them in its language.

#include <string>

#include "libs/values/local_date.h"
#include "src/catalogue/task.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// The fewest digits that say it, with the language's decimal sign: 0.5, 0,5.
std::string print_number(double value, CardLanguage language);
// Whole minutes, from an hour on with hours: "45 min", "2 h 05 min".
std::string print_minutes(double minutes);
// After the stop's beginning: "0:45".
std::string print_clock(double minutes);
// "Sat 28 Nov 2026", "Sa 28.11.2026".
std::string print_day(LocalDate day, CardLanguage language);
// What is right and beyond what something is done now: "8.5 to 9.3, act below 8". Empty without limits.
std::string print_limits(const catalogue::TaskReading& reading, CardLanguage language);

}  // namespace hw::sheets
