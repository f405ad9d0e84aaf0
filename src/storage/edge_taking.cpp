#include "src/storage/edge_taking.h"

#include <algorithm>

#include "src/storage/shipment_rows.h"

namespace hw::storage {
namespace {

using service::PiecesHere;
using service::ShipmentPiece;
using service::ShipmentTaken;

constexpr int pieces_max = 100'000;

// The pieces of a shipment one behind the other; the one at hand is not among those that are there.
class PieceSource : public formats::ByteSource {
 public:
  PieceSource(sql::Connection& earlier, const ShipmentPiece& at_hand)
      : earlier_(earlier), at_hand_(at_hand), name_(fmt::format("shipment {}", at_hand.number)) {}

  Result<std::size_t> read(std::span<char> into) override {
    while (begin_ == bytes_.size() && next_ < at_hand_.pieces) HW_TRY(take_next());
    const std::size_t count = std::min(into.size(), bytes_.size() - begin_);
    std::copy_n(bytes_.begin() + static_cast<std::ptrdiff_t>(begin_), count, into.begin());
    begin_ += count;
    return count;
  }
  const std::string& name() const override { return name_; }
  std::string sha256() { return print_hex(digest_.end()); }

 private:
  Result<void> take_next() {
    begin_ = 0;
    if (next_ == at_hand_.piece) {
      bytes_ = at_hand_.bytes;
    } else {
      HW_TAKE(bytes, earlier_.query_value<sql::Blob>("select bytes from edge_piece where plant = $1 and piece = $2",
                                                     earlier_.tenant(), next_));
      if (!bytes) return refuse(ErrorCode::corrupt, "{}: piece {} is not there any more", name_, next_);
      bytes_.assign(reinterpret_cast<const char*>(bytes->data()), bytes->size());
    }
    ++next_;
    digest_.add(bytes_);
    return {};
  }

  sql::Connection& earlier_;
  const ShipmentPiece& at_hand_;
  std::string name_;
  std::string bytes_;
  std::size_t begin_ = 0;
  int next_ = 0;
  Sha256Stream digest_;
};

Result<void> check_number(const ShipmentTaken& last, const ShipmentPiece& piece) {
  if (piece.number == last.number + 1) return {};
  return refuse(ErrorCode::conflict, "shipment {}: {} was taken last, so {} is the next one", piece.number, last.number,
                last.number + 1);
}

Result<void> keep_piece(sql::Connection& db, const ShipmentPiece& piece) {
  // Those of another shipment, or of the same one cut otherwise.
  HW_TRY(db.execute("delete from edge_piece where plant = $1 and (number <> $2 or sha256 <> $3 or pieces <> $4)",
                    db.tenant(), piece.number, piece.sha256, piece.pieces));
  const std::span<const std::byte> bytes = std::as_bytes(std::span{piece.bytes});
  HW_TRY(
      db.execute("insert into edge_piece(plant, number, sha256, pieces, piece, bytes) values($1, $2, $3, $4, $5, $6) "
                 "on conflict(plant, piece) do update set bytes = excluded.bytes",
                 db.tenant(), piece.number, piece.sha256, piece.pieces, piece.piece, sql::Parameter{bytes}));
  return {};
}

Result<void> note_taken(sql::Connection& db, const ShipmentTaken& taken) {
  HW_TRY(db.execute("update edge_taken set number = $2, sha256 = $3, made_ms = $4, taken_ms = $5 where plant = $1",
                    db.tenant(), taken.number, taken.sha256, taken.made_at.as_millis(), taken.taken_at.as_millis()));
  return forget_pieces(db);
}

}  // namespace

Result<void> await_shipments(sql::Connection& db) {
  HW_TRY(db.execute("insert into edge_taken(plant, number, sha256, made_ms, taken_ms) values($1, 0, '', 0, 0)",
                    db.tenant()));
  return {};
}

Result<std::optional<ShipmentTaken>> read_taken(sql::Connection& db) {
  HW_TAKE(rows, db.query("select number, sha256, made_ms, taken_ms from edge_taken where plant = $1", db.tenant()));
  if (!rows.next()) return std::optional<ShipmentTaken>{};
  return std::optional{ShipmentTaken{rows.get<std::int64_t>(0), rows.get<std::string>(1),
                                     Instant::from_millis(rows.get<std::int64_t>(2)),
                                     Instant::from_millis(rows.get<std::int64_t>(3))}};
}

Result<std::optional<PiecesHere>> read_pieces(sql::Connection& db) {
  HW_TAKE(rows, db.query("select sha256, pieces, piece from edge_piece where plant = $1 order by piece", db.tenant()));
  std::optional<PiecesHere> here;
  while (rows.next()) {
    if (!here) here = PiecesHere{rows.get<std::string>(0), rows.get<int>(1), {}};
    here->pieces.push_back(rows.get<int>(2));
  }
  return here;
}

Result<void> check_piece(const ShipmentPiece& piece) {
  const bool is_hash = piece.sha256.size() == 64 && std::all_of(piece.sha256.begin(), piece.sha256.end(), [](char c) {
                         return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
                       });
  if (!is_hash) return refuse(ErrorCode::bad_input, "sha256: 64 small hexadecimal digits are right");
  if (piece.number < 1) return refuse(ErrorCode::bad_input, "shipment: a number from 1 is right");
  if (piece.pieces < 1 || piece.pieces > pieces_max) {
    return refuse(ErrorCode::bad_input, "of: 1 to {} pieces are right", pieces_max);
  }
  if (piece.piece >= 0 && piece.piece < piece.pieces) return {};
  return refuse(ErrorCode::bad_input, "piece: 0 to {} are right, of {}", piece.pieces - 1, piece.pieces);
}

Result<bool> take_piece(const TakingInto& into, const ShipmentPiece& piece, Instant now) {
  sql::Connection& db = into.db;
  HW_TAKE(last, read_taken(db));
  if (!last) return refuse(ErrorCode::not_found, "the record of this plant is kept here, not at an edge");
  if (piece.number == last->number && piece.sha256 == last->sha256) return true;
  HW_TRY(check_number(*last, piece));
  HW_TRY(keep_piece(db, piece));
  HW_TAKE(here, db.query_value<int>("select count(*) from edge_piece where plant = $1", db.tenant()));
  if (here != piece.pieces) return false;
  PieceSource bytes(into.earlier, piece);
  HW_TAKE(head, store_shipment(db, bytes, piece.number));
  if (bytes.sha256() != piece.sha256) {
    return refuse(ErrorCode::corrupt, "shipment {}: it was altered on its way", piece.number);
  }
  HW_TRY(note_taken(db, {piece.number, piece.sha256, head.made_at, now}));
  return true;
}

Result<void> forget_pieces(sql::Connection& db) {
  HW_TRY(db.execute("delete from edge_piece where plant = $1", db.tenant()));
  return {};
}

}  // namespace hw::storage
