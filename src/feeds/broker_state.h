#pragma once
// Follows all machines of one feed over a broker, without I/O and without a clock: it is told what came, and says what
// to count and what to publish. (BrokerFollower joins it with a connection.)
//
// The feed's address says what is spoken: mqtt://host/cell-2 our plain messages of the feed "cell-2",
// mqtt://host MTConnect documents.

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/feeds/agent_chain.h"
#include "src/feeds/message_chain.h"

namespace hw::feeds {

// A machine that the shop has behind this feed.
struct FollowedMachine {
  std::string device;  // its name in plain topics; of MTConnect its name or uuid
  StoredRun stored;
};

struct Publication {
  std::string topic;
  std::string payload;
  bool is_retained = false;
  bool operator==(const Publication&) const = default;
};

struct BrokerOutcome {
  std::optional<RunBatch> batch;
  std::vector<Publication> publications;
};

struct BrokerMessage {
  std::string_view topic;
  std::string_view payload;
  bool is_retained = false;
};

// What a page shows of one machine.
struct MachineFeedView {
  std::optional<Instant> last_sign_at;  // the last message that could be read, by our clock
  bool is_behind = false;               // something is awaited that was missed
  std::string trouble;                  // of the last message that could not be read, until one of its kind can
};

class BrokerState {
 public:
  // `plain_feed`: the name in the topics of plain messages; empty: MTConnect documents.
  BrokerState(std::string plain_feed, Aliases aliases, std::vector<FollowedMachine> machines);
  ~BrokerState();

  std::vector<std::string> topic_filters() const;
  // A connection begins: what is said to it first. Publishers then send again what is not stored.
  std::vector<Publication> begin_session(Instant now);
  BrokerOutcome hear(const BrokerMessage& message, Instant now);
  // From time to time: what is still missing is wanted again, though no further message comes.
  std::vector<Publication> ask_again(Instant now);
  // The machine's share is on disk up to there. What is said about it; nothing to agents, which do not listen.
  std::optional<Publication> stored(const std::string& device, const RunPosition& position);

  // Of a machine as FollowedMachine names it.
  MachineFeedView view(std::string_view device) const;
  // Notes on what is of no followed machine.
  std::vector<Note> take_notes() { return notes_.take(); }

 private:
  struct Machine;
  BrokerOutcome hear_plain(const BrokerMessage& message, const MessageTopic& topic, Instant now);
  BrokerOutcome hear_agent(const BrokerMessage& message, Instant now);
  void hear_availability(std::string_view uuid, std::string_view word);
  BrokerOutcome outcome_of(Machine& machine, Result<std::optional<RunBatch>> heard, const BrokerMessage& message,
                           Instant now);
  Machine* machine_of(std::string_view device) const;
  Machine* adopt(std::string_view uuid, const DocumentMessage& message, Instant now);

  std::string plain_feed_;
  Aliases aliases_;
  std::map<std::string, std::unique_ptr<Machine>, std::less<>> machines_;  // by FollowedMachine::device
  std::map<std::string, Machine*, std::less<>> by_uuid_;                   // of those that have told it
  Notes notes_;
};

}  // namespace hw::feeds
