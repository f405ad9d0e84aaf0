#pragma once

namespace hw::service {

inline constexpr const char* program_version = "0.1.0";

}  // namespace hw::service
