#include "libs/sql/postgres.h"

#include <array>

#include <fmt/format.h>
#include <libpq-fe.h>

#include "libs/sql/postgres_connection.h"

namespace hw::sql {
namespace {

constexpr int version_min = 150'000;  // as libpq counts: 15.0

struct FreeOptions {
  void operator()(PQconninfoOption* options) const { PQconninfoFree(options); }
};

// "host:port/database" of an address, without what is secret in it.
Result<std::string> name_of(const std::string& address) {
  char* says = nullptr;
  const std::unique_ptr<PQconninfoOption, FreeOptions> options(PQconninfoParse(address.c_str(), &says));
  if (!options) {
    const std::string why = says ? says : "out of memory";
    PQfreemem(says);
    return refuse(ErrorCode::bad_input, "no address of a database: {}; postgresql://HOST/DATABASE is one",
                  why.substr(0, why.find('\n')));
  }
  std::string host, database;
  for (const PQconninfoOption* one = options.get(); one->keyword != nullptr; ++one) {
    const std::string_view keyword = one->keyword;
    if (one->val == nullptr) continue;
    if (keyword == "host" || (keyword == "hostaddr" && host.empty())) host = one->val;
    if (keyword == "port") host += fmt::format(":{}", one->val);
    if (keyword == "dbname") database = one->val;
  }
  return fmt::format("{}/{}", host, database);
}

Error not_connected(pg_conn* server, const std::string& name) {
  std::string says = PQerrorMessage(server);
  while (!says.empty() && says.back() == '\n') says.pop_back();
  const auto holds = [&](std::string_view words) { return says.find(words) != std::string::npos; };
  ErrorCode code = ErrorCode::unreachable;
  if (holds("does not exist") && holds("database \"")) code = ErrorCode::not_found;
  if (holds("authentication failed") || holds("no password supplied") || holds("no pg_hba.conf entry") ||
      holds("role \"")) {
    code = ErrorCode::not_allowed;
  }
  if (holds("too many clients") || holds("remaining connection slots")) code = ErrorCode::in_use;
  return {code, fmt::format("{}: {}", name, says.substr(0, says.find('\n')))};
}

}  // namespace

bool is_postgres_address(std::string_view text) {
  return text.starts_with("postgresql://") || text.starts_with("postgres://");
}

Result<std::unique_ptr<Connection>> open_postgres(const std::string& address, Access access,
                                                  const PostgresOptions& options) {
  if (!is_postgres_address(address)) {
    return refuse(ErrorCode::bad_input, "no address of a database; postgresql://HOST/DATABASE is one");
  }
  HW_TAKE(name, name_of(address));
  const std::string within = std::to_string(options.connect_within.count());
  const std::array keywords{"dbname",
                            "connect_timeout",
                            "application_name",
                            "client_encoding",
                            "options",
                            "keepalives_idle",
                            static_cast<const char*>(nullptr)};
  // One plan for each statement: planned anew each time over a table's parts, opening a plant took four times as long.
  const std::array values{
      address.c_str(),
      within.c_str(),
      "hourwright",
      "UTF8",
      "-c synchronous_commit=on -c client_min_messages=warning -c plan_cache_mode=force_generic_plan",
      "30",
      static_cast<const char*>(nullptr)};
  constexpr int expand_address = 1;
  Server server(PQconnectdbParams(keywords.data(), values.data(), expand_address));
  if (PQstatus(server.get()) != CONNECTION_OK) return refuse(not_connected(server.get(), name));
  if (PQserverVersion(server.get()) < version_min) {
    return refuse(ErrorCode::unsupported, "{}: PostgreSQL {}; at least 15 is needed", name,
                  PQparameterStatus(server.get(), "server_version"));
  }
  const std::string_view encoding = PQparameterStatus(server.get(), "server_encoding");
  if (encoding != "UTF8") {
    return refuse(ErrorCode::bad_input, "{}: its text is {}; make a database with encoding UTF8", name, encoding);
  }
  return std::make_unique<PostgresConnection>(std::move(server), std::move(name), access, options);
}

}  // namespace hw::sql
