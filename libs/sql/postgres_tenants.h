#pragma once
// Several tenants in one PostgreSQL database, kept apart by the database itself: row-level security lets a connection
// see and change the rows of the tenant that it acts for (Connection::act_for), and no others; none before it acts for
// one. A guard against a statement that forgot its tenant: who may send statements of his own can act for anybody. It
// does not hold for a superuser, who is let past by PostgreSQL.

#include <span>
#include <string>

namespace hw::sql {

// The setting of a session in which PostgreSQL keeps whom it acts for.
inline constexpr const char* tenant_setting = "app.tenant";

// The statements that keep the tables' rows apart by their column `column`. Of `listed`, one of the tables or empty,
// everybody may read all rows: which tenants there are.
std::string keep_tenants_apart(std::span<const std::string> tables, const std::string& column,
                               const std::string& listed);

}  // namespace hw::sql
