#pragma once
// Whether a JSON value is what a schema of api/openapi.yaml says: $ref, type, required, properties, items, enum, oneOf,
// additionalProperties and the formats uuid, date and date-time. A member that the schema does not name is a mistake
// too: what is answered is documented.

#include <string>
#include <vector>

#include <boost/json/value.hpp>

namespace hw::shop {

// One sentence for each mistake, with its path; none where the value fits.
std::vector<std::string> mistakes_in(const boost::json::value& value, const boost::json::value& schema,
                                     const boost::json::value& contract);

}  // namespace hw::shop
