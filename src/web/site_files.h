#pragma once
// What every shop's site is made of and never changes while the server runs: the contract and the built app.

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "libs/http/static_files.h"
#include "src/web/access_table.h"

namespace hw::web {

struct SiteFiles {
  http::SharedBytes contract;  // as JSON
  AccessTable access;
  std::optional<http::StaticFiles> app;

  std::size_t app_files() const { return app ? app->size() : 0; }
};

// From the folder with the program's own files (`app/dist`, `api/openapi.yaml`). Refuses one without the contract.
// Without a built app there is the API alone, which `report` is told.
Result<std::shared_ptr<const SiteFiles>> read_site_files(const std::filesystem::path& share,
                                                         const std::function<void(std::string_view)>& report);

}  // namespace hw::web
