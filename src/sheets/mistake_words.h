#pragma once
// What is wrong in a sheet of parts, in the language of who reads it.

#include <string>

#include "src/catalogue/parts_sheet.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// In German by the mistake's code, as the app says it (app/src/words/german/sayings.ts); the English sentence where it
// has none that is known here.
std::string print_mistake(const catalogue::SheetMistake& mistake, CardLanguage language);

}  // namespace hw::sheets
