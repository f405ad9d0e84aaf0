#include "src/web/site_files.h"

#include "src/web/contract.h"

namespace hw::web {

Result<std::shared_ptr<const SiteFiles>> read_site_files(const std::filesystem::path& share,
                                                         const std::function<void(std::string_view)>& report) {
  auto files = std::make_shared<SiteFiles>();
  HW_TAKE(contract, read_contract(share));
  HW_TAKE(access, read_access_table(contract));
  files->contract = std::make_shared<const std::string>(std::move(contract));
  files->access = std::move(access);
  if (auto app = http::StaticFiles::load(share / "app" / "dist")) {
    files->app = std::move(*app);
  } else {
    report(fmt::format("{}; the API is served alone", app.error().message));
  }
  return std::shared_ptr<const SiteFiles>{std::move(files)};
}

}  // namespace hw::web
