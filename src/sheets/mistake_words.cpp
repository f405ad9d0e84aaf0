#include "src/sheets/mistake_words.h"

#include <algorithm>
#include <array>

#include "src/sheets/card_text.h"

namespace hw::sheets {
namespace {

struct Sentence {
  std::string_view code;
  std::string_view german;  // {name}: what the saying fills in
};
constexpr std::array<Sentence, 13> sentences{{
    {"sheet-no-key", "Keine Spalte mit den Nummern der Teile gefunden; bitte angeben, welche es ist."},
    {"sheet-number-missing", "Die Nummer des Teils fehlt."},
    {"sheet-title-missing", "Das Teil ist neu und hat keine Bezeichnung."},
    {"sheet-twice", "{part} steht in den Zeilen {rows}; richtig ist eine Zeile je Teil."},
    {"sheet-no-number", "„{text}“ ist keine Zahl; richtig ist zum Beispiel 12,50."},
    {"sheet-two-ways",
     "„{text}“ kann {less} oder {more} sein, und keine andere Zahl der Spalte sagt, was; bitte ohne Tausenderzeichen "
     "schreiben oder mit einer 0 mehr am Ende."},
    {"sheet-negative", "{value} kann nicht im Fach liegen; richtig ist 0 oder mehr."},
    {"sheet-not-whole", "{value} ist keine ganze Zahl ({unit})."},
    {"sheet-yes-no", "„{text}“ ist weder Ja noch Nein."},
    {"sheet-no-supplier",
     "Es ist die Nummer eines Lieferanten, und das Teil hat keinen; bitte in eigener Spalte nennen."},
    {"no-stored-part", "Es gibt kein Teil „{part}“, weder in der Liste noch im Lager."},
    {"parts-ring", "{parts} ersetzen einander im Kreis; bitte eines herausnehmen."},
    {"text-length", "Etwas eintragen, höchstens {most} Zeichen."},
}};

std::string filled(std::string_view sentence, const Saying& saying) {
  std::string text;
  while (!sentence.empty()) {
    const auto begin = std::min(sentence.find('{'), sentence.size());
    text += sentence.substr(0, begin);
    sentence.remove_prefix(begin);
    if (sentence.empty()) break;
    const auto end = sentence.find('}');
    const std::string name(sentence.substr(1, end - 1));
    const auto number = saying.numbers.find(name);
    const auto words = saying.texts.find(name);
    if (number != saying.numbers.end()) text += print_number(number->second, CardLanguage::german);
    if (words != saying.texts.end()) text += words->second;
    sentence.remove_prefix(end + 1);
  }
  return text;
}

}  // namespace

std::string print_mistake(const catalogue::SheetMistake& mistake, CardLanguage language) {
  if (language == CardLanguage::english || !mistake.saying) return mistake.says;
  const auto found = std::find_if(sentences.begin(), sentences.end(),
                                  [&](const Sentence& one) { return one.code == mistake.saying->code; });
  return found == sentences.end() ? mistake.says : filled(found->german, *mistake.saying);
}

}  // namespace hw::sheets
