#pragma once
// What would be founded, in lines for people.

#include <string>

#include "src/service/found_shop.h"

namespace hw::terminal {

std::string told_of_new_shop(const service::NewShop& shop);

}  // namespace hw::terminal
