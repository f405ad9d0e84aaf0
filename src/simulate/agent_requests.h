#pragma once
// Answers HTTP requests to the agent.

#include <functional>
#include <memory>

#include "libs/http/message.h"
#include "src/simulate/agent_stream.h"

namespace hw::simulate {

// Called with each stream that is opened, under the agent's mutex.
using OnStream = std::function<void(const std::shared_ptr<AgentStream>&)>;

// Errors are MTConnectError documents: 400 INVALID_REQUEST (no number, a negative time), 404 OUT_OF_RANGE, 404
// NO_DEVICE, 404 INVALID_URI, 404 UNSUPPORTED (path, at, and streaming of current), 405 UNSUPPORTED (not GET).
http::Response answer(const std::shared_ptr<SharedAgent>& agent, const http::Request& request,
                      const OnStream& on_stream);

}  // namespace hw::simulate
