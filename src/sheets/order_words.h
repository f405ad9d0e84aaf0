#pragma once
// What a list of orders says by itself, in each language.

#include <string_view>

#include "src/sheets/job_card.h"

namespace hw::sheets {

// One text each; where it holds {}, something is put in.
struct OrderWords {
  std::string_view order;  // the title
  std::string_view page, continued;
  std::string_view nothing;  // where there is no list
  std::string_view supplier, no_supplier, reference_of_order, day;
  std::string_view reference, number, title, quantity, unit, price, amount, wanted, sum;
  std::string_view subject;  // {}: plant, {}: day
  std::string_view greeting, please, line, our_number, wanted_by, confirm, named, regards;
};

const OrderWords& order_words(CardLanguage language);

}  // namespace hw::sheets
