#pragma once
// Everything that the service writes, as scenes of a few steps. A step is one call, and one transaction.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "src/service/devices.h"
#include "src/service/sign_in.h"
#include "tests/shop/scene.h"

namespace hw::power {

// Who acts in a scene, while its store is open.
struct Stage {
  std::optional<shop::Scene> scene;  // a shop with two mills
  int pictures_played = 0;           // so that a step that is sent again does not play once more
  std::unique_ptr<service::Devices> devices;
  std::unique_ptr<service::AccessBook> book;
  std::optional<service::SignedIn> signed_in;  // who did so last
  std::string secret;                          // of the link that was made last
  int chance = 0;  // where what is chance to devices and people begins: the same for a step that is sent again
  sql::TestFolder folder;
  std::unique_ptr<service::Store> store;  // where a scene founds a shop of its own in `folder`
};

using Step = std::function<Result<void>(Stage&)>;

struct WritingScene {
  std::string name;
  std::function<void(Stage&)> begin;  // before the power may fail
  std::vector<Step> steps;
};

// Whether it succeeded; what it answers is left.
template <class T>
Result<void> told(const Result<T>& result) {
  if (result) return {};
  return refuse(result.error());
}

// Chance that begins at the stage's number.
access::Randomness chance_of(Stage& stage);

// The same ones in the same order each time.
std::vector<WritingScene> writing_scenes();

}  // namespace hw::power
