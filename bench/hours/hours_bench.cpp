// How fast hours are counted, beside what the machine could do at best. One JSON object on standard output.
//
//   hours_bench RECORDINGS [MILLIONS]     RECORDINGS: tests/recordings/day; MILLIONS of observations, default 10
//
// The recorded day is repeated, each time a day later. Every figure is the processor's time of one thread, the best of
// three runs. Texts lie in memory: no disk is measured. The physical limits over the same bytes: memchr for line ends
// for SHDR, expat with handlers that do nothing for XML.

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <functional>

#include <expat.h>
#include <fmt/format.h>

#include "libs/formats/byte_source.h"
#include "libs/formats/line_reader.h"
#include "src/counters/count_run.h"
#include "src/counters/engine.h"
#include "src/feeds/device_model.h"
#include "src/feeds/shdr_reader.h"
#include "src/feeds/streams_reader.h"

namespace hw {
namespace {

using counters::Engine;
using counters::MachineModel;
using counters::Mark;
using counters::MeterUse;
using counters::Observation;

constexpr std::int64_t day_ns = Duration::hours(24).ns;
constexpr auto usage = "usage: hours_bench RECORDINGS [MILLIONS]\n";

[[noreturn]] void give_up(const std::string& message) {
  std::fprintf(stderr, "hours_bench: %s\n", message.c_str());
  std::exit(1);
}

std::string read_file(const std::string& path) {
  auto source = formats::open_file(path);
  if (!source) give_up(source.error().message);
  auto text = formats::read_all(**source, std::size_t{1} << 30);
  if (!text) give_up(text.error().message);
  return *text;
}

double cpu_s() {
  timespec time{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) / 1e9;
}

double best_of_three_s(const std::function<void()>& run) {
  double best = 1e9;
  for (int n = 0; n < 3; ++n) {
    const double begin = cpu_s();
    run();
    best = std::min(best, cpu_s() - begin);
  }
  return best;
}

// Take what a reader hands on, as a run of files does.
class LogSink : public feeds::ShdrSink {
 public:
  void observation(const feeds::Arrival& arrival) override { observations.push_back(arrival.observation()); }
  void unknown_key(std::string_view) override {}
  void odd_word(std::uint32_t, std::uint32_t, std::string_view) override {}
  void bad_line(std::uint64_t, std::string_view) override {}

  std::vector<Observation> observations;
};

class DocumentSink : public feeds::StreamsSink {
 public:
  void observation(const feeds::Arrival& arrival) override { arrivals_.push_back(arrival); }
  Result<void> header(const feeds::StreamsHeader&) override { return {}; }
  void unknown_item(std::string_view, std::string_view) override {}
  void odd_word(std::uint32_t, std::uint32_t, std::string_view) override {}

  // Documents are in order of component and type: by sequence they are in order of arrival. Empties the sink.
  const std::vector<Observation>& take_by_sequence() {
    std::stable_sort(arrivals_.begin(), arrivals_.end(),
                     [](const feeds::Arrival& a, const feeds::Arrival& b) { return a.sequence < b.sequence; });
    observations_.clear();
    for (const feeds::Arrival& arrival : arrivals_) observations_.push_back(arrival.observation());
    arrivals_.clear();
    return observations_;
  }

 private:
  std::vector<feeds::Arrival> arrivals_;
  std::vector<Observation> observations_;
};

struct Day {
  std::vector<MachineModel> models;
  std::uint32_t machine = 0;
  std::string log;
  std::vector<std::string> documents;
  std::vector<Observation> observations;
};

Day read_day(const std::string& folder) {
  Day day;
  auto devices = feeds::read_devices_file(folder + "/devices.xml");
  if (!devices) give_up(devices.error().message);
  day.models = std::move(devices->machines);
  while (day.models.at(day.machine).name != "lathe-l") ++day.machine;
  day.log = read_file(folder + "/lathe-l_2016-05-23.shdr.xz");
  for (int n = 1; n <= 5; ++n) {
    day.documents.push_back(read_file(fmt::format("{}/lathe-l_2016-05-23_streams_{}.xml.xz", folder, n)));
  }
  const feeds::ItemIndex index(day.models);
  const feeds::Vocabulary words;
  LogSink sink;
  feeds::ShdrReader reader(index, words, sink, day.machine);
  formats::LineReader lines{std::string_view(day.log)};
  for (std::string_view line; lines.next(line);) reader.line(line);
  day.observations = sink.observations;
  return day;
}

std::vector<Observation> repeated(const Day& day, std::size_t count) {
  std::vector<Observation> all;
  all.reserve(count + day.observations.size());
  for (std::int64_t n = 0; all.size() < count; ++n) {
    for (Observation one : day.observations) {
      one.at.ns += n * day_ns;
      all.push_back(one);
    }
  }
  return all;
}

struct Counted {
  std::size_t observations = 0;
  double run_s = 0;     // count_run(): the rule for two clocks, order, and counting
  double engine_s = 0;  // counting alone
  counters::Report report;
};

Counted count_in_memory(const Day& day, std::size_t count) {
  const std::vector<Observation> all = repeated(day, count);
  const MachineModel& model = day.models[day.machine];
  Counted counted;
  counted.observations = all.size();
  const std::vector<counters::Source> sources = {all};
  counted.run_s = best_of_three_s([&] { counted.report = *count_run(model, sources, {}, {}); });
  counted.engine_s = best_of_three_s([&] {
    Engine engine(std::make_shared<const MachineModel>(model), {}, MeterUse::recording,
                  std::vector<bool>(model.items.size(), true));
    engine.observe(counters::mark_at(all.front().at, Mark::window_begin));
    for (const Observation& one : all) engine.observe(one);
    engine.drain();
  });
  return counted;
}

void count_day(const Day& day, std::span<const Observation> observations) {
  const std::vector<counters::Source> sources = {observations};
  if (auto report = count_run(day.models[day.machine], sources, {}, {}); !report) give_up(report.error().message);
}

double shdr_s(const Day& day, int times) {
  const feeds::ItemIndex index(day.models);
  const feeds::Vocabulary words;
  LogSink sink;
  return best_of_three_s([&] {
    for (int n = 0; n < times; ++n) {
      feeds::ShdrReader reader(index, words, sink, day.machine);
      formats::LineReader lines{std::string_view(day.log)};
      for (std::string_view line; lines.next(line);) reader.line(line);
      count_day(day, sink.observations);
      sink.observations.clear();
    }
  });
}

double xml_s(const Day& day, int times) {
  const feeds::ItemIndex index(day.models);
  const feeds::Vocabulary words;
  DocumentSink sink;
  feeds::StreamsReader reader(index, words, sink, "day");
  return best_of_three_s([&] {
    for (int n = 0; n < times; ++n) {
      for (const std::string& document : day.documents) {
        reader.restart("day");
        if (auto fed = reader.feed(document); !fed) give_up(fed.error().message);
        if (auto finished = reader.finish(); !finished) give_up(finished.error().message);
      }
      count_day(day, sink.take_by_sequence());
    }
  });
}

double expat_s(const Day& day, int times) {
  const auto start = [](void*, const XML_Char*, const XML_Char**) {};
  const auto end = [](void*, const XML_Char*) {};
  const auto text = [](void*, const XML_Char*, int) {};
  return best_of_three_s([&] {
    for (int n = 0; n < times; ++n) {
      for (const std::string& document : day.documents) {
        XML_Parser parser = XML_ParserCreate(nullptr);
        XML_SetElementHandler(parser, start, end);
        XML_SetCharacterDataHandler(parser, text);
        if (XML_Parse(parser, document.data(), static_cast<int>(document.size()), 1) != XML_STATUS_OK) {
          give_up("expat refuses a recorded document");
        }
        XML_ParserFree(parser);
      }
    }
  });
}

// Over as many bytes as do not fit into a cache.
double memchr_s(const Day& day, int times) {
  std::string all;
  constexpr int copies = 64;
  for (int n = 0; n < copies; ++n) all += day.log;
  std::uint64_t lines = 0;
  const double seconds = best_of_three_s([&] {
    for (const char* at = all.data(); at != nullptr; ++lines) {
      at = static_cast<const char*>(
          std::memchr(at + 1, '\n', static_cast<std::size_t>(all.data() + all.size() - at - 1)));
    }
  });
  if (lines == 0) give_up("no lines");
  return seconds * times / copies;
}

std::size_t bytes_of(const std::vector<std::string>& documents) {
  std::size_t bytes = 0;
  for (const std::string& document : documents) bytes += document.size();
  return bytes;
}

int run(const std::string& folder, double millions) {
  const Day day = read_day(folder);
  const Counted counted = count_in_memory(day, static_cast<std::size_t>(millions * 1e6));
  const int times = std::max(1, static_cast<int>(static_cast<double>(counted.observations) /
                                                 static_cast<double>(day.observations.size()) / 10));
  const double shdr = shdr_s(day, times), xml = xml_s(day, times);
  const auto seconds_of = [&](counters::CounterKind kind) {
    return print_seconds(Duration{counted.report.counters[static_cast<std::size_t>(kind)]->counted_ns()});
  };
  fmt::print(
      "{{\"observations\": {}, \"run_s\": {:.4f}, \"engine_s\": {:.4f},\n \"days\": {}, \"per_day\": {}, "
      "\"shdr_bytes\": {}, \"shdr_s\": {:.4f}, \"memchr_s\": {:.5f},\n \"xml_bytes\": {}, \"xml_s\": {:.4f}, "
      "\"expat_s\": {:.4f},\n \"operating\": {}, \"spindle\": {}, \"feeding\": {}, \"axis\": {}, \"cutting\": {}}}\n",
      counted.observations, counted.run_s, counted.engine_s, times, day.observations.size(),
      day.log.size() * static_cast<std::size_t>(times), shdr, memchr_s(day, times),
      bytes_of(day.documents) * static_cast<std::size_t>(times), xml, expat_s(day, times),
      seconds_of(counters::CounterKind::operating), seconds_of(counters::CounterKind::spindle),
      seconds_of(counters::CounterKind::feeding), seconds_of(counters::CounterKind::axis),
      seconds_of(counters::CounterKind::cutting));
  return 0;
}

}  // namespace
}  // namespace hw

int main(int argc, char** argv) {
  if (argc < 2 || argc > 3) {
    std::fputs(hw::usage, stderr);
    return 2;
  }
  return hw::run(argv[1], argc == 3 ? std::atof(argv[2]) : 10);
}
