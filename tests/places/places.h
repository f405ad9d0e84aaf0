#pragma once
// Where the repository and what was built of it lie, for tests. Nothing else is compiled differently in another folder.

#include <string>
#include <string_view>

namespace hw {

// "library/lathe.toml" -> its absolute path in the repository; without a path the repository itself.
std::string in_source(std::string_view path = {});
// The same in the folder of what was built: "hourwright".
std::string in_build(std::string_view path);

}  // namespace hw
