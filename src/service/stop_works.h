#pragma once
// The works of a stop and the order in which they are done: safe first, then short (src/sequence).

#include "src/sequence/stop_order.h"
#include "src/service/open_shop.h"

namespace hw::service {

struct OrderedWorks {
  std::vector<sequence::StopWork> works;  // one for each task, in the order of the tasks
  sequence::StopOrder order;
};

// Where a task has a point, its place is that of the point; else that of its assembly's first point; else the
// operator's. What has to come before counts only among the tasks given. Adjusting and measuring under power are done
// alone: axes may move, and nobody else reaches in meanwhile. Refuses (bad_input) tasks that wait for each other. The
// caller holds a lock.
Result<OrderedWorks> order_works(const OpenMachine& machine, const std::vector<PlannedTask>& tasks);

}  // namespace hw::service
