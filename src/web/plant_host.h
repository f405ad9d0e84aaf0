#pragma once
// Each plant of a group has a name of its own below the group's: north.shops.example is the plant "north" of the group
// at shops.example, and north.localhost that on this computer. So a browser keeps the plants apart as it does with
// different sites: cookies, stored data and scripts of one are nothing to the other.

#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "src/web/reach.h"

namespace hw::web {

// The key of the plant that a request for this host (without its port) is for; service::group_key where it is for the
// group itself; nothing where it is neither's name.
std::optional<std::string> plant_of_host(std::string_view host, const Reach& group);

// How other devices reach a plant of the group.
std::unique_ptr<Reach> reach_of_plant(const std::string& plant, const Reach& group);

}  // namespace hw::web
