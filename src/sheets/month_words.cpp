#include "src/sheets/month_words.h"

#include <array>

#include <fmt/format.h>

namespace hw::sheets {
namespace {

constexpr MonthWords english_month{
    .heading = "Month: {}",
    .until = "until {}",
    .page = "{} of {}",
    .continued = "goes on: {}",
    .figures = "Key figures",
    .figure = "Figure",
    .value = "Value",
    .before = "Month before",
    .range = "{} to {}",
    .from = "at least {}",
    .bound = "with {} % confidence the true one is at least {}",
    .sums = "What they rest on",
    .sum = "Sum",
    .planned = "Production planned (PBT)",
    .operating = "A program ran (APT)",
    .unknown = "Not known whether one ran",
    .powered = "Power was on",
    .powered_unknown = "Not known whether it was on",
    .between = "Between failures (sum of TBF)",
    .to_repair = "To repair (sum of TTR)",
    .corrective = "Stood for failures (CMT)",
    .stops_h = "Stood for agreed stops (PMT)",
    .work = "Hands-on work",
    .work_in_stops = "of it in agreed stops",
    .failures = "Failures",
    .tasks_done = "Tasks done",
    .in_time = "of them in time",
    .overdue_undone = "Became overdue and were not done",
    .turns = "Rounds that are over",
    .turns_walked = "of them walked",
    .care_cost = "Cost of care ({})",
    .failure_cost = "Cost of failures ({})",
    .machines = "Machines",
    .machine = "Machine",
    .stood = "Stood",
    .ran = "Operating",
    .not_known = "Unknown",
    .no_failures = "No finding stopped a machine.",
    .what = "What",
    .found = "Found",
    .goes_on = "not settled by the month's end",
    .earlier = "happened before the month",
    .note = "Note",
    .stops = "Stops",
    .no_stops = "No agreed stop was closed.",
    .day = "Day",
    .tasks = "Tasks",
    .done_of = "{} of {}",
    .works = "Tasks done",
    .no_work = "No task was marked done.",
    .task = "Task",
    .who = "Who",
    .minutes = "Minutes",
    .planned_minutes = "minutes as planned",
    .late = "after it was overdue",
    .overdue = "Overdue at the end",
    .no_overdue = "No task is overdue.",
    .since_before = "already before the month",
    .definitions = "What the figures mean",
    .means = "Means",
    .formula = "Formula",
    .source = "Source",
    .confirmed = "confirmed: {}",
    .memory = "from memory: {}",
    .check = "check in your own copy: {}",
};

constexpr MonthWords german_month{
    .heading = "Monat: {}",
    .until = "bis {}",
    .page = "{} von {}",
    .continued = "weiter: {}",
    .figures = "Kennzahlen",
    .figure = "Kennzahl",
    .value = "Wert",
    .before = "Vormonat",
    .range = "{} bis {}",
    .from = "mindestens {}",
    .bound = "mit {} % Vertrauen ist der wahre Wert mindestens {}",
    .sums = "Worauf sie beruhen",
    .sum = "Summe",
    .planned = "Fertigung geplant (PBT)",
    .operating = "Ein Programm lief (APT)",
    .unknown = "Unbekannt, ob eines lief",
    .powered = "Strom war an",
    .powered_unknown = "Unbekannt, ob er an war",
    .between = "Zwischen Ausfällen (Summe TBF)",
    .to_repair = "Bis zur Behebung (Summe TTR)",
    .corrective = "Stand wegen Ausfällen (CMT)",
    .stops_h = "Stand für vereinbarte Stillstände (PMT)",
    .work = "Arbeit mit der Hand",
    .work_in_stops = "davon in vereinbarten Stillständen",
    .failures = "Ausfälle",
    .tasks_done = "Aufgaben erledigt",
    .in_time = "davon rechtzeitig",
    .overdue_undone = "Wurden überfällig und nicht erledigt",
    .turns = "Rundgänge, die vorbei sind",
    .turns_walked = "davon gegangen",
    .care_cost = "Kosten der Pflege ({})",
    .failure_cost = "Kosten der Ausfälle ({})",
    .machines = "Maschinen",
    .machine = "Maschine",
    .stood = "Stand",
    .ran = "Im Betrieb",
    .not_known = "Unbekannt",
    .no_failures = "Kein Befund hielt eine Maschine an.",
    .what = "Was",
    .found = "Gefunden",
    .goes_on = "am Monatsende nicht erledigt",
    .earlier = "geschah vor dem Monat",
    .note = "Anmerkung",
    .stops = "Stillstände",
    .no_stops = "Kein vereinbarter Stillstand wurde abgeschlossen.",
    .day = "Tag",
    .tasks = "Aufgaben",
    .done_of = "{} von {}",
    .works = "Erledigte Aufgaben",
    .no_work = "Keine Aufgabe wurde als erledigt eingetragen.",
    .task = "Aufgabe",
    .who = "Wer",
    .minutes = "Minuten",
    .planned_minutes = "Minuten wie geplant",
    .late = "nachdem sie überfällig war",
    .overdue = "Am Ende überfällig",
    .no_overdue = "Keine Aufgabe ist überfällig.",
    .since_before = "schon vor dem Monat",
    .definitions = "Was die Kennzahlen bedeuten",
    .means = "Bedeutung",
    .formula = "Formel",
    .source = "Quelle",
    .confirmed = "bestätigt: {}",
    .memory = "aus dem Gedächtnis: {}",
    .check = "im eigenen Exemplar prüfen: {}",
};

constexpr condition::StandardNote german_iso{
    "ISO 22400-2:2014 (Norm)",
    "dass MTTR je Arbeitseinheit aus Ausfällen und Zeiten bis zur Behebung gebildet wird (öffentliche Ontologie der "
    "Norm "
    "von einer Universität); dass Verfügbarkeit APT / PBT ist (öffentlicher Text)",
    "die Formeln selbst, vor allem die Teilung durch FE + 1",
    "die Tabellen zu Verfügbarkeit, MTBF, MTTR und Anteil der Instandsetzung"};
constexpr condition::StandardNote german_practice{"übliche Praxis, keine Norm; die Grenze: NIST e-Handbook 8.4.5.1",
                                                  "die Grenze stimmt mit veröffentlichten Ergebnissen überein",
                                                  "dass die Praxis durch die Zahl der Ausfälle teilt",
                                                  "was die eigenen Verträge mit MTBF und MTTR meinen"};
constexpr condition::StandardNote german_en{
    "EN 15341 im Sinn ihrer technischen Verfügbarkeit (2007: T1; 2019 zählt die zeitbezogene Verfügbarkeit als M10)",
    "dass M10 auf Betriebszeit und Ausfallzeit in der geforderten Zeit beruht (öffentlicher Text)",
    "die Formel aus Betriebszeit und Zeit bis zur Behebung", "die Kennzahlen T1 und M10"};
constexpr condition::StandardNote german_own{"keine Norm: eigene Festlegung", "nichts zu bestätigen", "nichts",
                                             "ob der Betrieb dasselbe darunter versteht"};

struct GermanFigure {
  std::string_view title, definition, formula;
  const condition::StandardNote& note;
};

// In the order of FigureKey.
constexpr std::array<GermanFigure, month::figure_count> german_figures = {{
    {"Verfügbarkeit",
     "Von den Stunden, in denen Fertigung geplant war, die, in denen ein Programm lief. Geplant sind die Stunden der "
     "Schichten ohne die der vereinbarten Stillstände.",
     "APT : PBT", german_iso},
    {"Technische Verfügbarkeit", "Betriebszeit als Anteil von Betriebszeit und Zeit bis zur Behebung.",
     "Summe TBF : (Summe TBF + Summe TTR)", german_en},
    {"MTBF, je Ausfall",
     "Betriebszeit zwischen Ausfällen, geteilt durch die Zahl der Ausfälle. Ein Ausfall ist ein Befund, der die "
     "Maschine "
     "anhält.",
     "Summe TBF : FE", german_practice},
    {"MTBF, nach ISO 22400-2",
     "Dieselbe Betriebszeit, geteilt durch eins mehr als die Zahl der Ausfälle: die Zeiten davor, dazwischen und "
     "danach.",
     "Summe TBF : (FE + 1)", german_iso},
    {"MTTR, je Ausfall",
     "Zeit vom Befund bis zu seiner Erledigung nach der Uhr an der Wand, geteilt durch die Zahl der Ausfälle.",
     "Summe TTR : FE", german_practice},
    {"MTTR, nach ISO 22400-2", "Dieselbe Zeit, geteilt durch eins mehr als die Zahl der Ausfälle.",
     "Summe TTR : (FE + 1)", german_iso},
    {"Anteil der Instandsetzung",
     "Von den Stunden, die Maschinen wegen Ausfällen oder für vereinbarte Stillstände standen, die wegen Ausfällen.",
     "CMT : (CMT + PMT)", german_iso},
    {"Anteil geplanter Arbeit",
     "Von den Handstunden aller erledigten Aufgaben die der Aufgaben, die in vereinbarten Stillständen erledigt "
     "wurden. "
     "Arbeit an Befunden hat keine eigenen Stunden und zählt nicht mit, ebenso wenig Rundgänge.",
     "Stunden in Stillständen : alle Stunden", german_own},
    {"Aufgaben rechtzeitig",
     "Von den Aufgaben, die im Monat erledigt oder überfällig wurden, die vor der Überfälligkeit erledigten, nach "
     "ihren "
     "Intervallen, wie sie jetzt sind. Prüfpunkte von Rundgängen gehören nicht dazu.",
     "rechtzeitig : (erledigt + überfällig und nicht erledigt)", german_own},
    {"Rundgänge gegangen", "Von den Rundgängen, deren Zeit vorbei ist, die mit allen Prüfpunkten beantworteten.",
     "gegangen : alle", german_own},
    {"Anteil der Ausfälle an den Kosten",
     "Kosten der Ausfälle als Anteil der Kosten von Pflege und Ausfällen. Stehen kostet nur, solange Fertigung geplant "
     "war.",
     "Ausfälle : (Pflege + Ausfälle)", german_own},
}};

// In the order of NoValue.
constexpr std::array<std::string_view, 9> english_reasons = {
    "no production was planned", "programs ran for longer than was planned",
    "the hours are not known",   "no failure",
    "no machine stood for it",   "no work was done",
    "no task was due",           "no round is over",
    "nothing was spent"};
constexpr std::array<std::string_view, 9> german_reasons = {
    "es war keine Fertigung geplant", "Programme liefen länger als geplant",
    "die Stunden sind unbekannt",     "kein Ausfall",
    "keine Maschine stand dafür",     "keine Arbeit wurde gemacht",
    "keine Aufgabe war fällig",       "kein Rundgang ist vorbei",
    "nichts wurde ausgegeben"};

constexpr std::array<std::string_view, 12> english_month_names{"January",   "February", "March",    "April",
                                                               "May",       "June",     "July",     "August",
                                                               "September", "October",  "November", "December"};
constexpr std::array<std::string_view, 12> german_month_names{"Januar",    "Februar", "März",     "April",
                                                              "Mai",       "Juni",    "Juli",     "August",
                                                              "September", "Oktober", "November", "Dezember"};

}  // namespace

const MonthWords& month_words(CardLanguage language) {
  return language == CardLanguage::german ? german_month : english_month;
}

std::string print_month_name(std::string_view month, CardLanguage language) {
  const auto number = static_cast<std::size_t>(std::stoi(std::string(month.substr(5))) - 1);
  const auto& names = language == CardLanguage::german ? german_month_names : english_month_names;
  return fmt::format("{} {}", names.at(number), month.substr(0, 4));
}

month::FigureNote note_in(month::FigureKey key, CardLanguage language) {
  month::FigureNote note = month::note_of(key);
  if (language == CardLanguage::english) return note;
  const GermanFigure& german = german_figures.at(static_cast<std::size_t>(key));
  note.title = german.title;
  note.definition = german.definition;
  note.formula = german.formula;
  note.standard = german.note;
  return note;
}

std::string_view word_of(month::NoValue why, CardLanguage language) {
  const auto& reasons = language == CardLanguage::german ? german_reasons : english_reasons;
  return reasons.at(static_cast<std::size_t>(why));
}

}  // namespace hw::sheets
