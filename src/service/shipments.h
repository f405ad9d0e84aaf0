#pragma once
// A plant whose record is kept at its edge: by a server at the plant itself, which sends its group what changed, in
// numbered shipments, each cut into pieces. The group holds what came, as of the last shipment, for looking only.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/formats/json_types.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::service {

// At the group: what was taken last. Before the first its number is 0.
struct ShipmentTaken {
  std::int64_t number = 0;
  std::string sha256;  // of its bytes
  Instant made_at;     // by the edge's clock: the group's rows are those of this moment
  Instant taken_at;    // by the group's
};

// Of the next shipment, what has come so far.
struct PiecesHere {
  std::string sha256;
  int of = 1;               // into how many it was cut
  std::vector<int> pieces;  // from 0, in order
};
BOOST_DESCRIBE_STRUCT(PiecesHere, (), (sha256, of, pieces))

// What the group tells the edge.
struct ShipmentsView {
  std::int64_t number = 0;
  std::string sha256;
  formats::OrNull<Instant> made_at;
  formats::OrNull<Instant> taken_at;
  formats::OrNull<PiecesHere> next;
};
BOOST_DESCRIBE_STRUCT(ShipmentsView, (), (number, sha256, made_at, taken_at, next))

struct PieceTakenView {
  bool taken = false;  // the whole shipment
};
BOOST_DESCRIBE_STRUCT(PieceTakenView, (), (taken))

struct ShipmentPiece {
  std::int64_t number = 0;  // of the shipment, from 1
  std::string sha256;       // of the whole shipment
  int piece = 0;            // from 0
  int pieces = 1;           // of how many
  std::string bytes;
};

// At the edge: a shipment that lies in a file until the group has it.
struct Shipment {
  std::int64_t number = 0;
  std::string sha256;
  std::filesystem::path file;
  std::uint64_t bytes = 0;
};

// At the edge: what has changed and was not sent yet. A row that changed often is sent once, as it is then: however
// long nothing can be sent, what waits is never more than the shop itself.
class Shipments {
 public:
  virtual ~Shipments() = default;
  virtual Result<std::int64_t> last_taken() = 0;  // the number; 0: none
  // How many rows have changed since.
  virtual Result<std::int64_t> waiting() = 0;
  // The shipment that was made and not taken; else one of what has changed; nothing where nothing has.
  virtual Result<std::optional<Shipment>> next(Instant now) = 0;
  // Everything, under this number, in place of any other.
  virtual Result<Shipment> whole(std::int64_t number, Instant now) = 0;
  // The group has it: it is forgotten here, and so is what changed before it was made.
  virtual Result<void> taken(const Shipment& shipment) = 0;
};

// How sending stands; for /readyz and /metrics.
struct UpwardState {
  bool is_edge = false;
  std::optional<Instant> sent_at;  // the group was last told, or nothing was to be told
  std::int64_t waiting_rows = 0;
  std::string trouble;  // why nothing could be sent, in a sentence; empty when it could
};

}  // namespace hw::service
