#pragma once
// A row as one line of JSON, and read again:
//
//   {"plant":"north","machine":"m1","ordinal":3,"standing_per_hour":92.5,"note":null,"state":{"base64":"AAE="}}
//
// A key for each column. Whole numbers and doubles read back as the same; bytes are base64url (RFC 4648, section 5), or
// {"file":"photos/ID.jpg"} where a file beside holds them.

#include <functional>
#include <string>
#include <vector>

#include <boost/json/object.hpp>

#include "libs/sql/connection.h"
#include "src/storage/row_text.h"

namespace hw::storage {

boost::json::object open_row(const std::vector<std::string>& columns, const sql::Rows& rows);

// The bytes of a file that a row names. Refuses what reading it refuses.
using ReadBytes = std::function<Result<std::string>(const std::string& file)>;

// Refuses (bad_input, with the column): what is no JSON object, a column that is missing or that there is not, a value
// that is none of the five.
Result<std::vector<Cell>> parse_open_row(std::string_view line, const std::vector<std::string>& columns,
                                         const ReadBytes& read);

}  // namespace hw::storage
