#include "src/service/access_book.h"

#include <algorithm>

#include "libs/sql/storage_failed.h"
#include "libs/values/secret.h"
#include "libs/values/sha256.h"
#include "src/access/session_limits.h"
#include "src/service/entry_making.h"

namespace hw::service {
namespace {

constexpr Duration seen_every = Duration::seconds(300);  // a row is written so often for a session in use, at most
constexpr std::size_t session_secret_size = 32;

template <class Row, class Key>
void put_all(const std::vector<Row>& rows, std::map<std::string, Row, std::less<>>& into, Key key) {
  for (const Row& row : rows) into.insert_or_assign(row.*key, row);
}

void put_in_memory(AccessBook& book, const AccessRows& rows) {
  put_all(rows.accounts, book.accounts, &Account::name);
  put_all(rows.links, book.links, &Link::secret_hash);
  put_all(rows.sessions, book.sessions, &Session::secret_hash);
  put_all(rows.tokens, book.tokens, &Token::secret_hash);
  for (const AccessNote& note : rows.notes) {
    if (note.what == AccessDeed::second_factor_demanded) book.demands_second_factor = true;
    if (note.what == AccessDeed::second_factor_offered) book.demands_second_factor = false;
  }
}

// That it was seen is worth no refusal: a disk that is full is told where something is entered.
void keep_seen(AccessBook& book, const AccessRows& rows) {
  try {
    (void)book.keep(rows);
  } catch (const sql::StorageFailed&) {
  }
}

void note_seen(AccessBook& book, Session& session, Instant now) {
  const bool is_news = session.seen_at + seen_every <= now || now < session.seen_at;
  if (!is_news) return;
  session.seen_at = as_kept(now);
  keep_seen(book, {.sessions = {session}});
}

// A person's account by link: what it had before is over once the link is used, not before.
AccessRows rows_of(const AccessBook& book, const Grant& grant, const std::string& secret_hash) {
  AccessRows rows;
  const std::string by{this_computer};
  if (grant.kind == "token") {
    rows.tokens = {{book.new_id(grant.made_at),
                    secret_hash,
                    grant.name,
                    grant.role,
                    grant.permissions,
                    grant.machines,
                    by,
                    grant.made_at,
                    grant.ends_at,
                    {},
                    {},
                    {}}};
    rows.notes = {{grant.made_at, by, AccessDeed::token_made, grant.name}};
    return rows;
  }
  const auto there = book.accounts.find(grant.name);
  const bool goes_on = there != book.accounts.end() && !there->second.ended_at;
  if (grant.kind == "reset") {
    if (!goes_on) return rows;
    rows.links = {{secret_hash, grant.name, by, grant.ends_at, {}}};
    rows.notes = {{grant.made_at, by, AccessDeed::link_made, grant.name}};
    return rows;
  }
  Account account = goes_on ? there->second : Account{.name = grant.name, .made_by = by, .made_at = grant.made_at};
  account.role = grant.role;
  account.machines = grant.machines;
  account.until = {};
  rows.accounts = {account};
  rows.links = {{secret_hash, grant.name, by, grant.ends_at, {}}};
  if (!goes_on) rows.notes.push_back({grant.made_at, by, AccessDeed::account_made, grant.name});
  rows.notes.push_back({grant.made_at, by, AccessDeed::link_made, grant.name});
  return rows;
}

}  // namespace

Instant end_of(const Session& session) {
  const auto& limits = session.way == SignInWay::pin ? access::device_limits : access::office_limits;
  return std::min(session.begun_at + limits.whole, session.seen_at + limits.idle);
}

std::string hash_of_secret(std::string_view secret) { return print_hex(sha256(secret)); }

bool Caller::may(std::string_view permission) const {
  return std::find(permissions.begin(), permissions.end(), permission) != permissions.end();
}

bool Caller::reaches(std::string_view machine) const {
  return !machines || std::find(machines->begin(), machines->end(), machine) != machines->end();
}

Result<std::unique_ptr<AccessBook>> AccessBook::open(Store& store, const Zone& zone, access::Randomness random,
                                                     access::PermissionTable table) {
  auto book = std::make_unique<AccessBook>(store, zone, std::move(random), std::move(table));
  HW_TAKE(rows, store.access_rows());
  put_in_memory(*book, rows);
  return book;
}

Result<void> AccessBook::keep(const AccessRows& rows) {
  HW_TAKE(writing, store.begin());
  HW_TRY(writing->put_access(rows));
  HW_TRY(writing->commit());
  put_in_memory(*this, rows);
  return {};
}

std::string AccessBook::new_secret() const { return print_base64url(random(session_secret_size)); }

// A UUIDv7 (RFC 9562): the time, then random bits.
std::string AccessBook::new_id(Instant now) const {
  const std::string bits = random(10);
  std::array<unsigned char, 16> id{};
  for (std::size_t i = 0; i < 6; ++i) {
    id[i] = static_cast<unsigned char>(static_cast<std::uint64_t>(now.as_millis()) >> (40 - 8 * i));
  }
  std::copy(bits.begin(), bits.end(), id.begin() + 6);
  id[6] = static_cast<unsigned char>(0x70U | (id[6] & 0x0FU));
  id[8] = static_cast<unsigned char>(0x80U | (id[8] & 0x3FU));
  std::string text;
  for (std::size_t i = 0; i < id.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    text += fmt::format("{:02x}", id[i]);
  }
  return text;
}

Account* AccessBook::account(std::string_view name, Instant now) {
  const auto found = accounts.find(name);
  if (found == accounts.end() || found->second.ended_at) return nullptr;
  if (found->second.until && *found->second.until < zone.date_of(now)) return nullptr;
  return &found->second;
}

bool AccessBook::goes_on(const Session& session, Instant now) {
  if (session.ended_at || !account(session.account, now)) return false;
  return now < end_of(session);
}

bool AccessBook::lacks_second_factor(const Account& account) const {
  return demands_second_factor && table.office.contains(account.role) && account.password_hash && !account.factor_key;
}

Caller AccessBook::caller(const Account& account, const Session& session) const {
  Caller caller{account.name, account.role, {}, account.machines, account.until, session};
  caller.needs_second_factor = session.way != SignInWay::pin && lacks_second_factor(account);
  if (!caller.needs_second_factor) caller.permissions = table.permissions_of(account.role);
  return caller;
}

Result<void> AccessBook::take_grant(const std::string& secret_hash, Instant now) {
  HW_TAKE(grant, store.grant(secret_hash));
  if (!grant) return {};
  const bool is_known = links.contains(secret_hash) || tokens.contains(secret_hash);
  if (is_known || grant->ends_at <= now) return store.drop_grant(secret_hash);
  const AccessRows rows = rows_of(*this, *grant, secret_hash);
  try {
    HW_TRY(keep(rows));
  } catch (const sql::StorageFailed&) {
    // A program that only looks is let in though the disk is full; what it was granted by stays until it is kept.
    if (rows.tokens.empty()) throw;
    put_in_memory(*this, rows);
    return {};
  }
  return store.drop_grant(secret_hash);
}

std::optional<Caller> recognise_session(AccessBook& book, std::string_view secret, Instant now) {
  const std::string hash = hash_of_secret(secret);
  const std::lock_guard lock(book.mutex);
  const auto found = book.sessions.find(hash);
  if (found == book.sessions.end() || !book.goes_on(found->second, now)) return std::nullopt;
  note_seen(book, found->second, now);
  const Account& account = *book.account(found->second.account, now);
  return book.caller(account, found->second);
}

std::optional<Caller> recognise_token(AccessBook& book, std::string_view secret, Instant now) {
  const std::string hash = hash_of_secret(secret);
  const std::lock_guard lock(book.mutex);
  if (!book.tokens.contains(hash) && !book.take_grant(hash, now)) return std::nullopt;
  const auto found = book.tokens.find(hash);
  if (found == book.tokens.end()) return std::nullopt;
  Token& token = found->second;
  if (token.ended_at || token.ends_at <= now) return std::nullopt;
  const LocalDate today = book.zone.date_of(now);
  if (!token.used_on || *token.used_on < today) {
    token.used_on = today;
    keep_seen(book, {.tokens = {token}});
  }
  Caller caller{token.title, token.role, book.table.permissions_of(token.role), token.machines, {}, {}};
  std::erase_if(caller.permissions, [&](const std::string& one) {
    const bool is_left_out = token.permissions && std::find(token.permissions->begin(), token.permissions->end(),
                                                            one) == token.permissions->end();
    return one == access::admit_permission || is_left_out;
  });
  return caller;
}

}  // namespace hw::service
