#pragma once
// One device's MTConnect documents over a broker in their sequence, without I/O and without a clock. An agent there
// tells, and cannot be asked: what was lost on the way stays unknown.
//
//   Probe     the device's model
//   Current   every item's last value with its sequence: it proves whether anything was missed. At the beginning of
//   each
//             connection it is awaited, and what comes before it is passed over.
//   Sample    what follows on the Sample or Current before it
//
// The numbers are the agent's, for all its devices together, so that holes say nothing; but an observation that Current
// shows and no Sample brought was missed: then nothing is known since the last Current that proved the contrary. (What
// was missed and said anew before any Current goes unnoticed.) A document that the broker had kept is taken by its
// creationTime, never as now.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/feeds/heard_document.h"
#include "src/feeds/machine_batch.h"
#include "src/feeds/message_chain.h"

namespace hw::feeds {

enum class DocumentKind : std::uint8_t { probe, current, sample };

struct DocumentMessage {
  DocumentKind kind = DocumentKind::probe;
  std::string_view body;  // JSON
  bool is_retained = false;
};

class AgentChain {
 public:
  // `device`: the uuid, as the topics name it.
  AgentChain(std::string device, const Aliases& aliases, StoredRun stored);

  // A connection begins: the next Current says what was missed.
  void begin_session() { awaits_current_ = true; }
  // Nothing where there is nothing new in it. Errors: those of the readers, and a document of another device.
  Result<std::optional<RunBatch>> hear(const DocumentMessage& message, Instant now);
  bool is_behind() const { return model_ && awaits_current_; }

  const RunPosition& position() const { return position_; }

 private:
  struct Told;
  Result<std::optional<RunBatch>> hear_probe(std::string_view xml, Instant now);
  std::optional<RunBatch> hear_current(const Told& told);
  std::optional<RunBatch> hear_sample(const Told& told);
  std::optional<RunBatch> begin_anew(const Told& told, std::string_view why, Instant unknown_from);
  RunBatch go_on(const Told& told, Instant alive_at);
  bool has_missed(const HeardDocument& heard) const;
  bool lacks_owed(const HeardDocument& heard) const;
  void mark_owed(const HeardDocument& heard);
  void mark_seen(const Arrival& arrival);
  void bound_times(HeardDocument& heard, Instant now);
  void set_model(counters::MachineModel model);
  RunBatch finish(RunBatch batch, Instant now);

  std::string device_;
  Vocabulary words_;
  Notes notes_;
  RunPosition position_;
  std::optional<counters::MachineModel> model_;
  std::optional<ItemIndex> index_;
  std::vector<std::uint64_t> seen_;  // by item: the last sequence that was counted
  std::uint64_t seen_before_ = 0;    // all up to here was, of every item
  std::vector<std::uint64_t> owed_;  // what Current has shown and the next Sample is to bring
  Instant proven_at_;                // up to here Current proved that nothing was missed
  bool awaits_current_ = true;
};

}  // namespace hw::feeds
