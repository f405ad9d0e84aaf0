#pragma once
// One SHDR file's share of a run.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "libs/formats/byte_source.h"
#include "src/feeds/file_run.h"
#include "src/feeds/remarks.h"
#include "src/feeds/shdr_reader.h"

namespace hw::feeds {

class ShdrLog : public ShdrSink {
 public:
  // `machine`: whose log it is where its lines do not say so; `only`: the one machine whose observations are kept.
  // none_found: nobody's, everybody's. `machines` are the names of all, for messages.
  ShdrLog(const ItemIndex& index, std::uint32_t machine, std::uint32_t only, Remarks& remarks)
      : index_(index), machine_(machine), only_(only), remarks_(remarks) {}

  // Reads to the end. Refuses (bad_input) a file of which no line can be read, and one of which nobody says whose it
  // is; names file and line.
  Result<void> read(formats::ByteSource& source, const Vocabulary& words);

  void observation(const Arrival& arrival) override;
  void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) override;
  void unknown_key(std::string_view key) override;
  void bad_line(std::uint64_t line, std::string_view why) override;

  // The time of its first observation that a counter uses.
  std::optional<Instant> began_at() const { return began_at_; }
  std::uint64_t observations() const { return observations_; }
  std::uint64_t bad_lines() const { return bad_lines_; }
  // Adds what was read to the machines' runs.
  void add_to(std::vector<MachineRun>& runs);

 private:
  Result<void> judge(std::uint64_t lines) const;

  const ItemIndex& index_;
  std::uint32_t machine_;
  std::uint32_t only_;
  Remarks& remarks_;
  std::string file_;
  std::map<std::uint32_t, MachineRun> machines_;
  std::vector<SeenTimes> seen_;              // by machine
  std::uint32_t last_machine_ = none_found;  // of the observation before, and its run
  MachineRun* last_run_ = nullptr;
  std::optional<Instant> began_at_;
  std::uint64_t observations_ = 0;
  std::uint64_t bad_lines_ = 0;
  std::uint64_t unknown_keys_ = 0;
  std::string first_bad_;
};

}  // namespace hw::feeds
