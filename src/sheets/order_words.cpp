#include "src/sheets/order_words.h"

namespace hw::sheets {
namespace {

constexpr OrderWords english_order{
    .order = "Order",
    .page = "{} of {}",
    .continued = "goes on: {}",
    .nothing = "Nothing has to be ordered.",
    .supplier = "Supplier",
    .no_supplier = "No supplier known",
    .reference_of_order = "Order number",
    .day = "Day",
    .reference = "Your number",
    .number = "Our number",
    .title = "Title",
    .quantity = "Quantity",
    .unit = "Unit",
    .price = "Price",
    .amount = "Amount",
    .wanted = "Wanted by",
    .sum = "Sum ({})",
    .subject = "Order of {}, {}",
    .greeting = "Good day,",
    .please = "please deliver to {}:",
    .line = "- {} {}: {}",
    .our_number = " (our number {})",
    .wanted_by = ", wanted by {}",
    .confirm = "Please confirm the day of delivery.",
    .named = "Our order number: {}",
    .regards = "Kind regards",
};

constexpr OrderWords german_order{
    .order = "Bestellung",
    .page = "{} von {}",
    .continued = "weiter: {}",
    .nothing = "Es ist nichts zu bestellen.",
    .supplier = "Lieferant",
    .no_supplier = "Kein Lieferant bekannt",
    .reference_of_order = "Auftragsnummer",
    .day = "Tag",
    .reference = "Ihre Nummer",
    .number = "Unsere Nummer",
    .title = "Bezeichnung",
    .quantity = "Menge",
    .unit = "Einheit",
    .price = "Preis",
    .amount = "Betrag",
    .wanted = "Gewünscht bis",
    .sum = "Summe ({})",
    .subject = "Bestellung von {}, {}",
    .greeting = "Guten Tag,",
    .please = "bitte liefern Sie an {}:",
    .line = "- {} {}: {}",
    .our_number = " (unsere Nummer {})",
    .wanted_by = ", gewünscht bis {}",
    .confirm = "Bitte bestätigen Sie den Liefertag.",
    .named = "Unsere Auftragsnummer: {}",
    .regards = "Mit freundlichen Grüßen",
};

}  // namespace

const OrderWords& order_words(CardLanguage language) {
  return language == CardLanguage::german ? german_order : english_order;
}

}  // namespace hw::sheets
