#pragma once
// Looking at passwords and PINs costs time and memory on purpose; so only two are looked at at once, whoever asks.

#include "src/service/access_book.h"

namespace hw::service {

inline constexpr int hashing_max = 2;  // fewer than the server's workers: the others go on answering

// A turn to look at a password; false: two are under way.
class HashingTurn {
 public:
  explicit HashingTurn(AccessBook& book);
  ~HashingTurn();
  HashingTurn(const HashingTurn&) = delete;
  HashingTurn& operator=(const HashingTurn&) = delete;
  explicit operator bool() const { return has_turn_; }

 private:
  AccessBook& book_;
  bool has_turn_;
};

// too_often (try-later) with the whole seconds that are left; and of a moment.
tl::unexpected<Error> refuse_for(Duration wait);
tl::unexpected<Error> refuse_busy();

// The key's bytes; the account has one.
std::string factor_key_of(const Account& account);

}  // namespace hw::service
