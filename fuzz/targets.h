#pragma once
// The doors through which bytes come that others made, each as a function over any bytes. A target returns where the
// bytes were read or refused, whatever they are; what has to hold of what was read is asserted in it, so that a wrong
// value ends the program as a crash does. The same functions run under the fuzzer (driver.cpp), over the kept inputs
// (replay_test.cpp) and with memory that runs out (out_of_memory_test.cpp).

#include <span>
#include <string_view>

namespace hw::fuzz {

void addresses(std::string_view input);       // paths, queries, addresses of agents
void copy_file(std::string_view input);       // a copy of a shop, to be restored
void csv(std::string_view input);             // tables of any spreadsheet
void devices(std::string_view input);         // MTConnectDevices
void follower(std::string_view input);        // what an agent answers, document after document
void json_edits(std::string_view input);      // bodies of requests
void kept_count(std::string_view input);      // a count's record, as it lay on the disk
void label_order(std::string_view input);     // what is asked of labels, and the code on them
void messages(std::string_view input);        // what comes over a message broker, plain or documents in JSON
void multipart(std::string_view input);       // live streams
void outbox(std::string_view input);          // what phones send, to a shop
void packed(std::string_view input);          // gzip, xz
void recording(std::string_view input);       // recorded responses
void requests(std::string_view input);        // what comes over a connection
void responses(std::string_view input);       // what agents send over one
void routes(std::string_view input);          // a method and a path, to a handler
void sheet(std::string_view input);           // a table of parts, CSV or XLSX as a file
void shdr(std::string_view input);            // an adapter's lines
void shop_files(std::string_view input);      // TOML: a shop, a set of tasks
void streams(std::string_view input);         // MTConnectStreams
void workbook_parts(std::string_view input);  // the files inside of an XLSX

struct Target {
  std::string_view name;  // of its folder in corpus/
  void (*run)(std::string_view input);
};

// All of them, by name.
std::span<const Target> targets();

}  // namespace hw::fuzz
