#pragma once
// What the group's own site knows of the plants.

#include "src/service/group_lives.h"
#include "src/web/group_lines.h"

namespace hw::web {

struct GroupTold {
  GroupLines lines;
  service::GroupLives lives;
};

}  // namespace hw::web
