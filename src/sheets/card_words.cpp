#include "src/sheets/card_words.h"

#include <array>

namespace hw::sheets {
namespace {

constexpr CardWords english{
    .job_card = "Job card",
    .page = "{} of {}",
    .continued = "goes on: {}",
    .day = "Day",
    .shift = "Shift",
    .energy = "Energy state",
    .stands = "Stands",
    .agreed = "Agreed",
    .note = "Note",
    .agreed_by = "{}, {}",
    .stands_for = "one person {}, two {}",
    .scan = "Scan to close this stop",
    .closed_already = "This stop is closed already. The card shows what was planned.",
    .withdrawn = "This stop was withdrawn. Do not work by this card.",
    .caution = "Caution",
    .not_isolated =
        "No task of this card is done locked out. If anything else has to be opened, isolate the machine first: {}.",
    .places = "Places on this card",
    .front = "front, where the operator stands",
    .kit = "Lay out before",
    .no_kit = "No parts are needed.",
    .for_tasks = "for {}",
    .findings = "Findings that this stop settles",
    .step_of_phases = "{} of {}: {}",
    .shut_down = "End the program and bring the machine to rest in the usual way; the power stays on.",
    .isolate = "Isolate and lock out",
    .no_isolation =
        "Nobody has written down this machine's isolation points yet. Take them from the builder's manual "
        "before anything is opened.",
    .wait = "Wait at least {} min, or longer if the plate says so.",
    .off_at = "off at",
    .not_before = "not before",
    .locks = "Locks that are on",
    .lock_name = "name",
    .lock_number = "lock",
    .lock_on = "on at",
    .lock_off = "off at, by the same person",
    .seen = "Verify:",
    .way_back = "Back from isolation",
    .restart = "Start the machine up as its manual says: nobody inside, guards closed.",
    .person = "person {} from {}",
    .alone = "nobody else at the machine meanwhile",
    .after = "after {}",
    .parts = "Parts:",
    .reading = "Reading",
    .quantity = "Filled in",
    .as_found = "As found",
    .good = "good",
    .worn = "worn",
    .failed = "failed",
    .left_undone = "left undone",
    .who = "who",
    .time = "time",
    .minutes_taken = "minutes taken",
    .notes = "notes",
    .end = "End of the stop",
    .began = "machine stood from",
    .ended = "until",
    .given_back = "given back to production by",
    .defers = "The builder's manual, local codes and licensed trades go before this card.",
};

constexpr CardWords german{
    .job_card = "Arbeitskarte",
    .page = "{} von {}",
    .continued = "Fortsetzung: {}",
    .day = "Tag",
    .shift = "Schicht",
    .energy = "Energiezustand",
    .stands = "Steht",
    .agreed = "Vereinbart",
    .note = "Anmerkung",
    .agreed_by = "{}, {}",
    .stands_for = "eine Person {}, zwei {}",
    .scan = "Scannen, um diesen Stillstand abzuschließen",
    .closed_already = "Dieser Stillstand ist schon abgeschlossen. Die Karte zeigt, was geplant war.",
    .withdrawn = "Dieser Stillstand ist zurückgezogen. Nicht nach dieser Karte arbeiten.",
    .caution = "Achtung",
    .not_isolated =
        "Keine Aufgabe dieser Karte wird freigeschaltet und gesichert ausgeführt. Muss etwas anderes geöffnet "
        "werden, zuerst die Maschine trennen und sichern: {}.",
    .places = "Stellen auf dieser Karte",
    .front = "vorn, wo der Bediener steht",
    .kit = "Vorher bereitlegen",
    .no_kit = "Es werden keine Teile gebraucht.",
    .for_tasks = "für {}",
    .findings = "Befunde, die dieser Stillstand erledigt",
    .step_of_phases = "{} von {}: {}",
    .shut_down = "Programm beenden und die Maschine wie üblich zur Ruhe bringen; die Spannung bleibt an.",
    .isolate = "Trennen und sichern",
    .no_isolation =
        "Für diese Maschine hat noch niemand Trennstellen aufgeschrieben. Sie dem Handbuch des Herstellers "
        "entnehmen, bevor etwas geöffnet wird.",
    .wait = "Mindestens {} min warten, länger, wenn das Schild es sagt.",
    .off_at = "aus um",
    .not_before = "nicht vor",
    .locks = "Angebrachte Schlösser",
    .lock_name = "Name",
    .lock_number = "Schloss",
    .lock_on = "an um",
    .lock_off = "ab um, von derselben Person",
    .seen = "Prüfen:",
    .way_back = "Zurück aus der Trennung",
    .restart = "Maschine anfahren, wie ihr Handbuch sagt: niemand darin, Schutzeinrichtungen zu.",
    .person = "Person {} ab {}",
    .alone = "so lange niemand sonst an der Maschine",
    .after = "nach {}",
    .parts = "Teile:",
    .reading = "Ablesung",
    .quantity = "Eingefüllt",
    .as_found = "Vorgefunden",
    .good = "gut",
    .worn = "verschlissen",
    .failed = "ausgefallen",
    .left_undone = "nicht gemacht",
    .who = "wer",
    .time = "Uhrzeit",
    .minutes_taken = "Minuten gebraucht",
    .notes = "Notizen",
    .end = "Ende des Stillstands",
    .began = "Maschine stand von",
    .ended = "bis",
    .given_back = "an die Produktion zurückgegeben von",
    .defers = "Das Handbuch des Herstellers, örtliche Vorschriften und zugelassene Fachkräfte gehen dieser Karte vor.",
};

// German words in the order of the enumerators.
constexpr std::array<std::string_view, 8> german_work{"prüfen",     "reinigen", "schmieren", "nachfüllen",
                                                      "einstellen", "messen",   "ersetzen",  "überholen"};
constexpr std::array<std::string_view, 3> german_skills{"Bediener", "Instandhalter", "Fremdfirma"};
constexpr std::array<std::string_view, 3> german_energy{"in Produktion", "eingeschaltet, in Ruhe",
                                                        "freigeschaltet und gesichert"};
constexpr std::array<std::string_view, 8> german_sources{"Strom", "Hydraulik", "Druckluft",  "Schwerkraft",
                                                         "Feder", "Hitze",     "Kühlmittel", "Sonstiges"};

template <class E, std::size_t N>
std::string_view in_german(const std::array<std::string_view, N>& words, E value) {
  return words.at(static_cast<std::size_t>(value));
}

}  // namespace

const CardWords& words_of(CardLanguage language) { return language == CardLanguage::german ? german : english; }

std::string_view word_of(catalogue::WorkType work, CardLanguage language) {
  return language == CardLanguage::german ? in_german(german_work, work) : catalogue::word_of(work);
}

std::string_view word_of(catalogue::Skill skill, CardLanguage language) {
  return language == CardLanguage::german ? in_german(german_skills, skill) : catalogue::word_of(skill);
}

std::string_view word_of(catalogue::EnergyState energy, CardLanguage language) {
  return language == CardLanguage::german ? in_german(german_energy, energy) : catalogue::word_of(energy);
}

std::string_view word_of(catalogue::EnergySource source, CardLanguage language) {
  return language == CardLanguage::german ? in_german(german_sources, source) : catalogue::word_of(source);
}

}  // namespace hw::sheets
