#include "src/feeds/shdr_log.h"

#include "libs/formats/line_reader.h"

namespace hw::feeds {
namespace {

// Zeros after a power loss can make one line of many megabytes.
constexpr std::size_t line_bytes_max = 256 << 20;
constexpr std::uint64_t bad_lines_told = 5;  // one by one; the others are counted

}  // namespace

Result<void> ShdrLog::read(formats::ByteSource& source, const Vocabulary& words) {
  file_ = source.name();
  ShdrReader reader(index_, words, *this, machine_);
  formats::LineReader lines(source, line_bytes_max);
  for (std::string_view line; lines.next(line);) reader.line(line);
  if (auto read = lines.outcome(); !read) return read;
  observations_ = reader.observations();
  seen_ = reader.seen();
  return judge(reader.lines());
}

Result<void> ShdrLog::judge(std::uint64_t lines) const {
  if (observations_ == 0 && bad_lines_ > 0) {
    return refuse(
        ErrorCode::bad_input,
        "{}: neither a Streams document, nor a recorded response, nor an SHDR log ({}); a line of a log looks "
        "like 2026-03-02T06:30:00Z|execution|ACTIVE",
        file_, first_bad_);
  }
  if (machine_ == none_found && unknown_keys_ > 0 && machines_.empty()) {
    std::string names;
    for (std::size_t n = 0; n < index_.machines() && n < 20; ++n) {
      names += (n == 0 ? "" : ", ") + index_.machine_name(static_cast<std::uint32_t>(n));
    }
    return refuse(ErrorCode::bad_input,
                  "{}: no line says which machine's log this is ({} lines); name one with --device: {}", file_, lines,
                  names);
  }
  return {};
}

void ShdrLog::observation(const Arrival& arrival) {
  if (only_ != none_found && arrival.machine != only_) return;
  if (arrival.machine != last_machine_) {
    last_machine_ = arrival.machine;
    last_run_ = &machines_[arrival.machine];
    if (!began_at_) began_at_ = arrival.at;
  }
  last_run_->observations.push_back(arrival.observation());
  if (arrival.reset) last_run_->resets.push_back({arrival.item, arrival.at});
}

void ShdrLog::odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) {
  if (only_ == none_found || machine == only_) remarks_.odd_word(machine, item, word);
}

void ShdrLog::unknown_key(std::string_view key) {
  ++unknown_keys_;
  remarks_.unknown_key(machine_ == none_found ? std::string_view{} : index_.machine_name(machine_), key);
}

void ShdrLog::bad_line(std::uint64_t line, std::string_view why) {
  if (bad_lines_ == 0) first_bad_ = fmt::format("line {}: {}", line, why);
  if (++bad_lines_ <= bad_lines_told) remarks_.other("", fmt::format("{}, line {}: {}", file_, line, why));
}

void ShdrLog::add_to(std::vector<MachineRun>& runs) {
  for (auto& [machine, read] : machines_) {
    MachineRun& run = runs[machine];
    run.source_begins.push_back(run.observations.size());
    run.seen.add(seen_[machine]);
    if (run.observations.empty()) {
      run.observations.swap(read.observations);
    } else {
      run.observations.insert(run.observations.end(), read.observations.begin(), read.observations.end());
    }
    run.resets.insert(run.resets.end(), read.resets.begin(), read.resets.end());
    read = {};
  }
}

}  // namespace hw::feeds
