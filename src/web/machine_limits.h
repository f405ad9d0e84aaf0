#pragma once
// What somebody gets who is limited to some machines.

#include <algorithm>
#include <optional>
#include <vector>

#include "libs/http/message.h"
#include "src/service/open_shop.h"

namespace hw::web {

bool reaches(const http::Request& request, std::string_view machine);

// Refuses (403, not-your-machine) a request about another machine, by its path or its query, or about a finding, stop
// or entry of another. What there is not passes, to be refused by who knows it.
std::optional<http::Response> check_machine(service::OpenShop& shop, const http::Request& request);

// Leaves out what is about other machines; `machine` is the member with its key.
template <class View, class Key>
void keep_reachable(const http::Request& request, std::vector<View>& views, Key View::*machine) {
  std::erase_if(views, [&](const View& view) { return !reaches(request, view.*machine); });
}

}  // namespace hw::web
