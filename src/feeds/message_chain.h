#pragma once
// One machine's plain messages in their sequence, without I/O and without a clock: which are counted, which are
// duplicates, from where on they are wanted again, and what is unknown because nobody has it any more.
//
//   same run, sequence < next     a duplicate: dropped
//   same run, sequence = next     counted
//   same run, sequence > next     left aside and wanted again from `next`; a publisher that keeps nothing: counted, and
//                                 from the last alive_at until the first value of each item nothing is known
//   another run, not older        its first message is counted, or wanted; the time between the runs is unknown
//   another run, older            an old message, as brokers retain them: dropped
//
// A run is older when the message's alive_at is not after ours: a run begins after the one before it has ended.

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "src/feeds/delivery.h"
#include "src/feeds/machine_batch.h"
#include "src/feeds/plain_message.h"
#include "src/feeds/remarks.h"

namespace hw::feeds {

using Aliases = std::map<std::string, std::string, std::less<>>;  // of Execution words

class MessageChain {
 public:
  MessageChain(std::string device, const Aliases& aliases, StoredRun stored);

  // Nothing where the model is the one that is known.
  std::optional<RunBatch> hear(const ModelMessage& message, Instant now);
  // Nothing where the message is not counted.
  std::optional<RunBatch> hear(const ObservationMessage& message, Instant now);

  // From where on the publisher is to send again, once: nothing while nothing is missing, and not again for a second.
  std::optional<SequencePlace> take_wanted(Instant now);
  // It has been told in another way from where on to send.
  void asked(Instant now) { wanted_at_ = now; }
  bool is_behind() const { return wanted_.has_value(); }
  const RunPosition& position() const { return position_; }
  bool has_model() const { return model_.has_value(); }

 private:
  class Arriving;
  bool is_next(const ObservationMessage& message);
  bool ask_for(const ObservationMessage& message, std::uint64_t sequence);
  void interrupt(RunBatch& batch, const ObservationMessage& message, std::string why) const;
  void add_observations(RunBatch& batch, const ObservationMessage& message, Instant not_before, Instant now);
  RunBatch begin_batch(Instant now);
  void set_model(counters::MachineModel model);

  std::string device_;
  Vocabulary words_;
  Notes notes_;
  RunPosition position_;
  std::optional<counters::MachineModel> model_;
  std::optional<ItemIndex> index_;
  bool keeps_ = true;
  std::optional<SequencePlace> wanted_;
  Instant wanted_at_;  // when it was last said
};

}  // namespace hw::feeds
