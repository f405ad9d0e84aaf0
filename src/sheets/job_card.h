#pragma once
// The job card of a stop as PDF, for a clipboard: what is done in which order, where, with what; what has to be cut off
// and let off before hands go in; and blanks for what is found, read and signed. Nothing on it says that a machine is
// safe.

#include <string>
#include <vector>

#include <boost/describe/enum.hpp>

#include "libs/formats/pdf_canvas.h"
#include "libs/values/local_date.h"
#include "libs/values/result.h"
#include "src/catalogue/isolation.h"
#include "src/catalogue/shop.h"

namespace hw::sheets {

enum class CardPaper { a4, letter };  // ISO 216 and ANSI
BOOST_DESCRIBE_ENUM(CardPaper, a4, letter)
formats::MmSize size_of(CardPaper paper);
enum class CardLanguage { english, german };

enum class CardState { agreed, closed, withdrawn };
BOOST_DESCRIBE_ENUM(CardState, agreed, closed, withdrawn)

// How a phase is reached from the one before it.
enum class StateChange { none, shut_down, isolate, release, restart };
BOOST_DESCRIBE_ENUM(StateChange, none, shut_down, isolate, release, restart)

struct CardWork {
  std::string task;  // its key
  int person = 1;    // of two
  double begin_minutes = 0;
  bool is_alone = false;           // nobody else works at the machine meanwhile
  std::vector<std::string> after;  // keys of tasks of this card that come first
};

struct CardPhase {
  catalogue::EnergyState energy = catalogue::EnergyState::powered_at_rest;
  StateChange change = StateChange::none;
  std::vector<CardWork> works;  // may be none
};

struct CardPart {
  std::string name;
  double quantity = 0;
  std::string unit;
  std::vector<std::string> tasks;  // keys of tasks of this card
  std::string shelf = {};          // its number and where it lies, where the stores keep it: "F-104, A2-1"
};

struct CardFinding {
  std::string what;
  std::string where;  // assembly or point in words; may be empty
};

// From when to when the shift goes, by the clock on the wall: "06:00".
struct CardShift {
  std::string name;  // empty in a plant without shifts
  std::string begins;
  std::string ends;
};

// Texts are in the shop's own words; of isolation the card takes those of its language.
struct JobCard {
  std::string stop;     // its id
  std::string address;  // of its page as phones reach it, for the code: "http://shop.example:8470/stop/..."
  std::string plant;
  catalogue::Machine machine;
  std::string kind;          // in words
  std::string cell;          // in words
  std::string service = {};  // that is done in it, in words; may be empty
  std::vector<catalogue::Assembly> assemblies;
  std::vector<catalogue::Point> points;
  LocalDate on;
  CardShift shift;
  CardState state = CardState::agreed;
  std::string agreed_by;
  LocalDate agreed_on;
  std::string note;
  double minutes_one = 0;  // standing, with one person and with two, set-up of the states included
  double minutes_two = 0;
  std::vector<catalogue::Task> tasks;
  std::vector<CardPhase> phases;  // from production and back to it; each task in one of them
  std::vector<CardPart> kit;
  catalogue::Isolation isolation;
  std::vector<CardFinding> findings;
};

// The same card gives the same bytes. Refuses (bad_input) an address that is none or too long for its code, a work that
// names no task of the card, and a card without works.
Result<std::string> print_job_card(const JobCard& card, CardPaper paper, CardLanguage language);

}  // namespace hw::sheets
