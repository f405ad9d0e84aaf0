#pragma once
// Reads recordings of any mix into what the counters take: Streams documents (several form one chain), recorded
// multipart responses, SHDR logs; each plain, .gz or .xz, told apart by their content, not by their names.

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/feeds/arrival.h"
#include "src/feeds/note.h"

namespace hw::feeds {

// A document that starts past the nextSequence before it: what lies between is lost.
struct Gap {
  std::string file;
  std::uint64_t sequence_begin = 0;  // the first one lost
  std::uint64_t sequence_end = 0;    // the first one there again
  std::optional<Instant> from;       // last observation before it, where there is one
  std::optional<Instant> to;         // first observation behind it
};

// Another instanceId in the same chain.
struct Restart {
  std::string file;
  std::uint64_t instance_before = 0;
  std::uint64_t instance_after = 0;
  std::optional<Instant> at;  // creationTime of the first document of the new instance
};

// resetTriggered, or value:REASON: the counter was set back on purpose at that moment.
struct Reset {
  std::uint32_t item = 0;
  Instant at;
};

struct MachineRun {
  std::vector<counters::Observation> observations;  // in order of arrival: documents by sequence, logs by their time
  std::vector<std::size_t> source_begins;           // where each source begins: all documents are one, each log is one
  SeenTimes seen;                                   // items that no counter uses included
  std::vector<Reset> resets;
  std::vector<Gap> gaps;
  std::vector<Restart> restarts;
};

struct FileRun {
  std::vector<MachineRun> machines;  // as the models
  std::vector<Note> notes;
  std::uint64_t observations = 0;  // all that were read, those that no counter uses and repeats included
  std::uint64_t bad_lines = 0;     // SHDR lines, and elements of documents, that could not be read
};

struct FileRunSettings {
  std::string device;  // name or uuid: the only machine that is read, and whose an SHDR log without prefixes is
  std::map<std::string, std::string, std::less<>> aliases;  // of Execution words
};

// "-" is standard input. Order of arrival does not hang on the order of the files: documents come in order of sequence,
// logs in order of the time with which they begin.
//
// Refuses (not_found) a missing file or device, (bad_input) broken documents and compressed data, what is none of the
// three, an SHDR log of which nobody says whose it is; the message names file and line. Lines of SHDR that cannot be
// read are counted, not refused; an empty file and a recording that was broken off are noted.
Result<FileRun> read_files(std::span<const std::string> files, std::span<const counters::MachineModel> machines,
                           const FileRunSettings& settings);

}  // namespace hw::feeds
