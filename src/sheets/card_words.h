#pragma once
// What a job card says by itself, in each language; the words are those of the app's pages.

#include <string>
#include <string_view>

#include "src/catalogue/work_words.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// One text each; where it holds {}, something is put in.
struct CardWords {
  std::string_view job_card;
  std::string_view page;       // {} of {}
  std::string_view continued;  // {}: the task that goes on here
  std::string_view day, shift, energy, stands, agreed, note;
  std::string_view agreed_by;       // {}: who, {}: when
  std::string_view stands_for;      // {}: with one, {}: with two
  std::string_view scan;            // what the code is for
  std::string_view closed_already;  // a banner
  std::string_view withdrawn;       // a banner
  std::string_view caution;         // heading
  std::string_view not_isolated;    // nothing of it is done locked out
  std::string_view places;          // heading beside the plan
  std::string_view front;           // where the operator stands
  std::string_view kit, no_kit;     // heading; nothing to lay out
  std::string_view for_tasks;       // {}: numbers
  std::string_view findings;        // heading
  std::string_view step_of_phases;  // {} of {}: {}
  std::string_view shut_down;       // what to do
  std::string_view isolate;         // heading
  std::string_view no_isolation;    // nobody has written points down
  std::string_view wait;            // {}: minutes
  std::string_view off_at, not_before;
  std::string_view locks;  // heading of the table
  std::string_view lock_name, lock_number, lock_on, lock_off;
  std::string_view seen;      // how one sees that an energy is gone
  std::string_view way_back;  // heading
  std::string_view restart;   // what to do
  std::string_view person;    // {}: 1 or 2, {}: from when
  std::string_view alone;
  std::string_view after;  // {}: numbers
  std::string_view parts, reading, quantity;
  std::string_view as_found, good, worn, failed, left_undone;
  std::string_view who, time, minutes_taken, notes;
  std::string_view end;  // heading
  std::string_view began, ended, given_back;
  std::string_view defers;  // at the foot of each page
};

const CardWords& words_of(CardLanguage language);

std::string_view word_of(catalogue::WorkType, CardLanguage);
std::string_view word_of(catalogue::Skill, CardLanguage);
std::string_view word_of(catalogue::EnergyState, CardLanguage);
std::string_view word_of(catalogue::EnergySource, CardLanguage);

}  // namespace hw::sheets
