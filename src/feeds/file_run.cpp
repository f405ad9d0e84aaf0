#include "src/feeds/file_run.h"

#include <algorithm>
#include <cstring>
#include <deque>

#include "libs/formats/byte_source.h"
#include "libs/http/recording.h"
#include "src/feeds/document_chain.h"
#include "src/feeds/shdr_log.h"
#include "src/feeds/streams_reader.h"

namespace hw::feeds {
namespace {

using counters::MachineModel;
using formats::ByteSource;

enum class Kind { empty, streams, recording, shdr };

// A source whose first bytes have been looked at and are given once more.
class PeekedSource : public ByteSource {
 public:
  explicit PeekedSource(std::unique_ptr<ByteSource> rest) : rest_(std::move(rest)) {}

  Result<std::string_view> peek() {
    constexpr std::size_t bytes_looked_at = 4096;
    head_.resize(bytes_looked_at);
    std::size_t count = 0;
    while (count < head_.size()) {
      auto got = rest_->read(std::span(head_).subspan(count));
      if (!got) return refuse(got.error());
      if (*got == 0) break;
      count += *got;
    }
    head_.resize(count);
    return std::string_view(head_);
  }
  Result<std::size_t> read(std::span<char> into) override {
    if (given_ == head_.size()) return rest_->read(into);
    const std::size_t count = std::min(into.size(), head_.size() - given_);
    std::memcpy(into.data(), head_.data() + given_, count);
    given_ += count;
    return count;
  }
  const std::string& name() const override { return rest_->name(); }

 private:
  std::unique_ptr<ByteSource> rest_;
  std::string head_;
  std::size_t given_ = 0;
};

bool begins_with(std::string_view text, std::string_view front) { return text.substr(0, front.size()) == front; }

// XML begins with "<" and a letter, "?" or "!" ("<<<<" is a merge mark in a log); a recording with its status line, a
// header or its boundary.
Kind kind_of(std::string_view head) {
  if (head.empty()) return Kind::empty;
  if (begins_with(head, "\xEF\xBB\xBF")) head.remove_prefix(3);
  if (begins_with(head, "\xFF\xFE") || begins_with(head, "\xFE\xFF")) return Kind::streams;  // XML in UTF-16
  head = trim(head);
  if (head.size() > 1 && head[0] == '<' && head[1] != '<') return Kind::streams;
  constexpr std::string_view header = "CONTENT-";
  if (begins_with(head, "HTTP/") || begins_with(head, "--") || is_word(head.substr(0, header.size()), header)) {
    return Kind::recording;
  }
  return Kind::shdr;
}

// The parts of a recorded response, each a document of the chain. An error document is noted: it ends a stream, and
// what came before it stays true.
class RecordedParts : public http::PartSink {
 public:
  RecordedParts(StreamsReader& reader, DocumentChain& chain, Remarks& remarks, const std::string& file, FileRun& run)
      : reader_(reader), chain_(chain), remarks_(remarks), file_(file), run_(run) {}

  Result<void> begin(const http::Headers&) override {
    reader_.restart(fmt::format("{}, part {}", file_, ++parts_));
    return {};
  }
  Result<void> data(std::string_view piece) override { return reader_.feed(piece); }
  Result<void> end() override {
    auto finished = reader_.finish();
    if (!finished && !reader_.agent_error()) return finished;
    if (finished) {
      ++whole_;
      run_.observations += reader_.tally().observations;
      run_.bad_lines += reader_.tally().bad;
      chain_.commit(file_, reader_.tally());
    } else {
      remarks_.other("", finished.error().message);
    }
    return {};
  }
  std::uint64_t whole() const { return whole_; }

 private:
  StreamsReader& reader_;
  DocumentChain& chain_;
  Remarks& remarks_;
  const std::string& file_;
  FileRun& run_;
  std::uint64_t parts_ = 0;
  std::uint64_t whole_ = 0;
};

// What belongs to one run of files.
class FilesReading {
 public:
  FilesReading(std::span<const MachineModel> machines, const FileRunSettings& settings, std::uint32_t only)
      : index_(machines),
        words_(settings.aliases),
        remarks_(machines, notes_),
        only_(only),
        chain_(only, remarks_),
        documents_(index_, words_, chain_, "") {
    run_.machines.resize(machines.size());
  }

  Result<void> read(const std::string& path);
  FileRun finish();

 private:
  Result<void> read_streams(ByteSource& source);
  Result<void> read_recording(ByteSource& source);
  Result<void> read_shdr(ByteSource& source);
  void add_logs();

  ItemIndex index_;
  Vocabulary words_;
  Notes notes_;
  Remarks remarks_;
  std::uint32_t only_;
  DocumentChain chain_;
  StreamsReader documents_;
  std::deque<ShdrLog> logs_;
  bool logs_first_ = false;  // an SHDR log was given before any document
  FileRun run_;
};

Result<void> FilesReading::read(const std::string& path) {
  auto opened = formats::open_file(path);
  if (!opened) return refuse(opened.error());
  PeekedSource source(std::move(*opened));
  const auto head = source.peek();
  if (!head) return refuse(head.error());
  switch (kind_of(*head)) {
    case Kind::empty:
      remarks_.other("", fmt::format("{} is empty", path));
      return {};
    case Kind::streams:
      return read_streams(source);
    case Kind::recording:
      return read_recording(source);
    case Kind::shdr:
      return read_shdr(source);
  }
  return {};
}

Result<void> FilesReading::read_streams(ByteSource& source) {
  documents_.restart(source.name());
  if (auto read = documents_.read(source); !read) return read;
  run_.observations += documents_.tally().observations;
  run_.bad_lines += documents_.tally().bad;
  chain_.commit(source.name(), documents_.tally());
  return {};
}

// A recording that was broken off is the usual end of one that was made live: its whole parts count.
Result<void> FilesReading::read_recording(ByteSource& source) {
  RecordedParts parts(documents_, chain_, remarks_, source.name(), run_);
  http::RecordingReader reader(parts);
  std::vector<char> block(64 << 10);
  for (;;) {
    auto got = source.read(block);
    if (!got) return refuse(got.error());
    if (*got == 0) break;
    if (auto fed = reader.feed({block.data(), *got}); !fed) return refuse(fed.error().at(source.name()));
  }
  auto finished = reader.finish();
  chain_.discard();
  if (finished) return {};
  if (parts.whole() == 0) return refuse(finished.error().at(source.name()));
  remarks_.other("", finished.error().at(source.name()).message);
  return {};
}

Result<void> FilesReading::read_shdr(ByteSource& source) {
  logs_first_ = logs_first_ || (logs_.empty() && chain_.empty());
  const std::uint32_t owner = only_ != none_found || index_.machines() != 1 ? only_ : 0;
  ShdrLog& log = logs_.emplace_back(index_, owner, only_, remarks_);
  if (auto read = log.read(source, words_); !read) return read;
  run_.observations += log.observations();
  run_.bad_lines += log.bad_lines();
  return {};
}

// Logs in order of time, whatever the order in which they were given: the last line of one day must not arrive after
// the first of the next.
void FilesReading::add_logs() {
  static constexpr Instant never{std::numeric_limits<std::int64_t>::max()};
  std::vector<ShdrLog*> order;
  for (ShdrLog& log : logs_) order.push_back(&log);
  std::stable_sort(order.begin(), order.end(), [](const ShdrLog* a, const ShdrLog* b) {
    return a->began_at().value_or(never) < b->began_at().value_or(never);
  });
  for (ShdrLog* log : order) log->add_to(run_.machines);
}

FileRun FilesReading::finish() {
  if (logs_first_) add_logs();
  chain_.finish(run_.machines);
  if (!logs_first_) add_logs();
  run_.notes = notes_.take();
  return std::move(run_);
}

Result<std::uint32_t> find_machine(std::span<const MachineModel> machines, const std::string& device) {
  if (device.empty()) return none_found;
  std::string names;
  for (std::size_t n = 0; n < machines.size(); ++n) {
    if (machines[n].name == device || machines[n].uuid == device) return static_cast<std::uint32_t>(n);
    if (n < 20) names += (n == 0 ? "" : ", ") + machines[n].name;
  }
  return refuse(ErrorCode::not_found, "no device \"{}\" in the device model; it has: {}", device, names);
}

}  // namespace

Result<FileRun> read_files(std::span<const std::string> files, std::span<const MachineModel> machines,
                           const FileRunSettings& settings) {
  const auto only = find_machine(machines, settings.device);
  if (!only) return refuse(only.error());
  FilesReading reading(machines, settings, *only);
  for (const std::string& file : files) {
    if (auto read = reading.read(file); !read) return refuse(read.error());
  }
  return reading.finish();
}

}  // namespace hw::feeds
