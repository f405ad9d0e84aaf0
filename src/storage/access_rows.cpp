#include "src/storage/access_rows.h"

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using Texts = std::vector<std::string>;

std::optional<std::string> texts_json(const std::optional<Texts>& texts) {
  return texts ? std::optional{formats::print_json(*texts)} : std::nullopt;
}

Result<std::optional<Texts>> texts_of(const std::optional<std::string>& json, std::string_view column) {
  if (!json) return std::optional<Texts>{};
  HW_TAKE(texts, stored(formats::parse_json<Texts>(*json), column));
  return std::optional{std::move(texts)};
}

std::optional<std::int32_t> days_of(const std::optional<LocalDate>& on) {
  return on ? std::optional{on->days} : std::nullopt;
}

std::optional<LocalDate> date_of(const std::optional<int>& days) {
  return days ? std::optional{LocalDate{*days}} : std::nullopt;
}

Result<void> put_account(sql::Connection& db, const service::Account& account) {
  HW_TRY(db.execute(
      "insert into account(plant, name, role, machines, until_on, made_by, made_ms, ended_ms, password_hash, pin_hash, "
      "factor_key, factor_step) values($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12) "
      "on conflict(plant, name) do update set role = excluded.role, machines = excluded.machines, "
      "until_on = excluded.until_on, made_by = excluded.made_by, made_ms = excluded.made_ms, "
      "ended_ms = excluded.ended_ms, password_hash = excluded.password_hash, pin_hash = excluded.pin_hash, "
      "factor_key = excluded.factor_key, factor_step = excluded.factor_step",
      db.tenant(), account.name, access::word_of(account.role), texts_json(account.machines), days_of(account.until),
      account.made_by, account.made_at.as_millis(), millis_of(account.ended_at), account.password_hash,
      account.pin_hash, account.factor_key, account.factor_step));
  return {};
}

Result<void> put_link(sql::Connection& db, const service::Link& link) {
  HW_TRY(db.execute(
      "insert into sign_in_link(plant, secret_hash, account, made_by, until_ms, used_ms) "
      "values($1, $2, $3, $4, $5, $6) "
      "on conflict(plant, secret_hash) do update set used_ms = excluded.used_ms",
      db.tenant(), link.secret_hash, link.account, link.made_by, link.until.as_millis(), millis_of(link.used_at)));
  return {};
}

Result<void> put_session(sql::Connection& db, const service::Session& session) {
  HW_TRY(db.execute(
      "insert into session(plant, id, secret_hash, account, way, device, begun_ms, seen_ms, ended_ms) "
      "values($1, $2, $3, $4, $5, $6, $7, $8, $9) "
      "on conflict(plant, id) do update set seen_ms = excluded.seen_ms, ended_ms = excluded.ended_ms",
      db.tenant(), session.id, session.secret_hash, session.account, formats::print_word(session.way), session.device,
      session.begun_at.as_millis(), session.seen_at.as_millis(), millis_of(session.ended_at)));
  return {};
}

Result<void> put_token(sql::Connection& db, const service::Token& token) {
  HW_TRY(db.execute(
      "insert into token(plant, id, secret_hash, title, role, permissions, machines, made_by, made_ms, ends_ms, "
      "used_on, ended_ms, ended_by) values($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13) "
      "on conflict(plant, id) do update set used_on = excluded.used_on, ended_ms = excluded.ended_ms, "
      "ended_by = excluded.ended_by",
      db.tenant(), token.id, token.secret_hash, token.title, access::word_of(token.role), texts_json(token.permissions),
      texts_json(token.machines), token.made_by, token.made_at.as_millis(), token.ends_at.as_millis(),
      days_of(token.used_on), millis_of(token.ended_at), token.ended_by));
  return {};
}

Result<void> add_note(sql::Connection& db, const service::AccessNote& note) {
  HW_TRY(
      db.execute("insert into access_note(plant, ordinal, at_ms, by_name, what, about) "
                 "select $1, coalesce(max(ordinal), 0) + 1, $2, $3, $4, $5 from access_note where plant = $1",
                 db.tenant(), note.at.as_millis(), note.by, formats::print_word(note.what), note.about));
  return {};
}

Result<access::Role> role_of(std::string_view word) { return stored(access::parse_role(word), "role"); }

template <class E>
Result<E> word_in(std::string_view word, std::string_view column) {
  if (const auto value = formats::parse_word<E>(word)) return *value;
  return refuse(ErrorCode::corrupt, "the database's {} does not read: {}", column, word);
}

Result<std::vector<service::Account>> read_accounts(sql::Connection& db) {
  std::vector<service::Account> accounts;
  HW_TAKE(rows, db.query("select name, role, machines, until_on, made_by, made_ms, ended_ms, password_hash, pin_hash, "
                         "factor_key, factor_step from account where plant = $1",
                         db.tenant()));
  while (rows.next()) {
    service::Account account;
    account.name = rows.get<std::string>(0);
    HW_TAKE(role, role_of(rows.get<std::string_view>(1)));
    HW_TAKE(machines, texts_of(rows.get<std::optional<std::string>>(2), "account.machines"));
    account.role = role;
    account.machines = std::move(machines);
    account.until = date_of(rows.get<std::optional<int>>(3));
    account.made_by = rows.get<std::string>(4);
    account.made_at = Instant::from_millis(rows.get<std::int64_t>(5));
    account.ended_at = instant_of(rows.get<std::optional<std::int64_t>>(6));
    account.password_hash = rows.get<std::optional<std::string>>(7);
    account.pin_hash = rows.get<std::optional<std::string>>(8);
    account.factor_key = rows.get<std::optional<std::string>>(9);
    account.factor_step = rows.get<std::int64_t>(10);
    accounts.push_back(std::move(account));
  }
  return accounts;
}

Result<std::vector<service::Link>> read_links(sql::Connection& db) {
  std::vector<service::Link> links;
  HW_TAKE(rows, db.query("select secret_hash, account, made_by, until_ms, used_ms from sign_in_link where plant = $1",
                         db.tenant()));
  while (rows.next()) {
    links.push_back({rows.get<std::string>(0), rows.get<std::string>(1), rows.get<std::string>(2),
                     Instant::from_millis(rows.get<std::int64_t>(3)),
                     instant_of(rows.get<std::optional<std::int64_t>>(4))});
  }
  return links;
}

Result<std::vector<service::Session>> read_sessions(sql::Connection& db) {
  std::vector<service::Session> sessions;
  HW_TAKE(rows, db.query("select id, secret_hash, account, way, device, begun_ms, seen_ms from session "
                         "where plant = $1 and ended_ms is null",
                         db.tenant()));
  while (rows.next()) {
    HW_TAKE(way, word_in<service::SignInWay>(rows.get<std::string_view>(3), "session.way"));
    sessions.push_back({rows.get<std::string>(0), rows.get<std::string>(1), rows.get<std::string>(2), way,
                        rows.get<std::optional<std::string>>(4), Instant::from_millis(rows.get<std::int64_t>(5)),
                        Instant::from_millis(rows.get<std::int64_t>(6)), std::nullopt});
  }
  return sessions;
}

Result<std::vector<service::Token>> read_tokens(sql::Connection& db) {
  std::vector<service::Token> tokens;
  HW_TAKE(rows, db.query("select id, secret_hash, title, role, permissions, machines, made_by, made_ms, ends_ms, "
                         "used_on, ended_ms, ended_by from token where plant = $1",
                         db.tenant()));
  while (rows.next()) {
    service::Token token;
    token.id = rows.get<std::string>(0);
    token.secret_hash = rows.get<std::string>(1);
    token.title = rows.get<std::string>(2);
    HW_TAKE(role, role_of(rows.get<std::string_view>(3)));
    HW_TAKE(permissions, texts_of(rows.get<std::optional<std::string>>(4), "token.permissions"));
    HW_TAKE(machines, texts_of(rows.get<std::optional<std::string>>(5), "token.machines"));
    token.role = role;
    token.permissions = std::move(permissions);
    token.machines = std::move(machines);
    token.made_by = rows.get<std::string>(6);
    token.made_at = Instant::from_millis(rows.get<std::int64_t>(7));
    token.ends_at = Instant::from_millis(rows.get<std::int64_t>(8));
    token.used_on = date_of(rows.get<std::optional<int>>(9));
    token.ended_at = instant_of(rows.get<std::optional<std::int64_t>>(10));
    token.ended_by = rows.get<std::optional<std::string>>(11);
    tokens.push_back(std::move(token));
  }
  return tokens;
}

Result<service::AccessNote> note_in(const sql::Rows& row) {
  HW_TAKE(what, word_in<service::AccessDeed>(row.get<std::string_view>(2), "access_note.what"));
  return service::AccessNote{Instant::from_millis(row.get<std::int64_t>(0)), row.get<std::string>(1), what,
                             row.get<std::string>(3)};
}

// The latest of two kinds; nothing where there is none.
Result<std::optional<service::AccessNote>> last_note_of(sql::Connection& db,
                                                        const std::array<service::AccessDeed, 2>& deeds) {
  HW_TAKE(rows, db.query("select at_ms, by_name, what, about from access_note "
                         "where plant = $1 and what in ($2, $3) order by ordinal desc limit 1",
                         db.tenant(), formats::print_word(deeds[0]), formats::print_word(deeds[1])));
  if (!rows.next()) return std::optional<service::AccessNote>{};
  HW_TAKE(note, note_in(rows));
  return std::optional{std::move(note)};
}

}  // namespace

Result<void> put_access(sql::Connection& db, const service::AccessRows& rows) {
  for (const auto& account : rows.accounts) HW_TRY(put_account(db, account));
  for (const auto& link : rows.links) HW_TRY(put_link(db, link));
  for (const auto& session : rows.sessions) HW_TRY(put_session(db, session));
  for (const auto& token : rows.tokens) HW_TRY(put_token(db, token));
  for (const auto& note : rows.notes) HW_TRY(add_note(db, note));
  return {};
}

Result<service::AccessRows> read_access(sql::Connection& db) {
  using service::AccessDeed;
  service::AccessRows rows;
  HW_TAKE(accounts, read_accounts(db));
  HW_TAKE(links, read_links(db));
  HW_TAKE(sessions, read_sessions(db));
  HW_TAKE(tokens, read_tokens(db));
  rows.accounts = std::move(accounts);
  rows.links = std::move(links);
  rows.sessions = std::move(sessions);
  rows.tokens = std::move(tokens);
  HW_TAKE(rule, last_note_of(db, {AccessDeed::second_factor_demanded, AccessDeed::second_factor_offered}));
  if (rule) rows.notes.push_back(*rule);
  return rows;
}

Result<std::vector<service::AccessNote>> read_access_notes(sql::Connection& db, int count_max) {
  std::vector<service::AccessNote> notes;
  HW_TAKE(rows, db.query("select at_ms, by_name, what, about from access_note where plant = $1 "
                         "order by ordinal desc limit $2",
                         db.tenant(), count_max));
  while (rows.next()) {
    HW_TAKE(note, note_in(rows));
    notes.push_back(std::move(note));
  }
  return notes;
}

}  // namespace hw::storage
