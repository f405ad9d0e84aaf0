#pragma once
// What may be wrong with an agent, for tests of whoever follows it, and how the bytes of its answers show it.

#include <cstdint>
#include <functional>
#include <string>

#include "libs/http/byte_stream.h"
#include "libs/values/instant.h"

namespace hw::simulate {

// In force from the next answer on, in streams from the next part on.
struct Faults {
  bool stalls = false;         // streams stay open and say nothing, not even a heartbeat
  bool says_html = false;      // 200 and a page
  bool never_ends = false;     // a document that goes on and on
  bool breaks_off = false;     // a document that ends in the middle, then the connection
  bool says_doctype = false;   // a document type declaration with entities that multiply
  bool says_gigabyte = false;  // one value of a thousand million characters
  Duration clock_jump{};       // added to the stamps of all that arrives from now on
};

// One body as it is sent: head, then the same bytes over and over, then tail.
struct FaultyBody {
  std::string head;
  std::string filler;
  std::uint64_t fills = 0;
  std::string tail;
  bool ends_connection = false;

  std::uint64_t bytes() const { return head.size() + filler.size() * fills + tail.size(); }
};

// The document as the faults have it; without faults it is the head alone.
FaultyBody spoil(std::string xml, const Faults& faults);

// Gives such a body out in pieces, and ends. Used by one thread at a time.
class FaultyBytes : public http::ByteStream {
 public:
  explicit FaultyBytes(FaultyBody body) : body_(std::move(body)) {}
  std::string take() override;
  // From before the last piece on.
  bool closed() const override { return step_ == Step::tail; }
  bool ends_connection() const { return body_.ends_connection; }
  void on_wake(std::function<void()> wake) override;

 private:
  enum class Step { head, filler, tail };
  FaultyBody body_;
  Step step_ = Step::head;
};

}  // namespace hw::simulate
