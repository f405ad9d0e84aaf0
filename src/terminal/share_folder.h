#pragma once
// Where the program's own files lie: library/, demo/, api/ and the built app.

#include <filesystem>

#include "libs/values/result.h"

namespace hw::terminal {

// HOURWRIGHT_SHARE where it is set; else beside the program as in the repository (build/hourwright), else as installed
// (bin/hourwright and share/hourwright). Refuses (not_found) when none of them holds library/.
Result<std::filesystem::path> share_folder();

}  // namespace hw::terminal
