#pragma once
// The sections of a job card in their order, each adding its rows.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/sheets/card_rows.h"
#include "src/sheets/card_words.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

// What all sections look at.
struct CardContext {
  const JobCard& card;
  CardLanguage language = CardLanguage::english;
  const CardWords& words;
  std::map<std::string, int> numbers;  // task's key -> its number in the order of work, from 1
  bool is_isolated = false;            // one of its phases is worked locked out

  std::string in_language(const std::string& english, const std::string& german) const {
    return language == CardLanguage::german && !german.empty() ? german : english;
  }
  // "1, 4": the numbers of these tasks in rising order; those that are not on the card are left out.
  std::string numbers_of(const std::vector<std::string>& tasks) const;
};

// What it is, for whom, and the code; the banner of a stop that is over.
void add_head(CardRows& rows, const CardContext& context, const formats::QrCode& code);
// Cautions in a box.
void add_cautions(CardRows& rows, const CardContext& context);
// The plan with its numbered places.
void add_plan(CardRows& rows, const CardContext& context);
// Note, findings, kit.
void add_preparation(CardRows& rows, const CardContext& context);
// Something to do, one below the other at the left; at the right who did it and when.
struct SignedItem {
  std::string number;        // of a step; empty: a box to tick
  std::optional<int> place;  // on the plan
  std::string title;         // may be empty
  std::vector<std::string> says;
};
void add_signed(CardRows& rows, const CardContext& context, const SignedItem& item, RowTie tie);
// Steps, isolation points, stored energies and locks, with their blanks.
void add_isolation(CardRows& rows, const CardContext& context);
void add_way_back(CardRows& rows, const CardContext& context);
// All phases with their tasks.
void add_phases(CardRows& rows, const CardContext& context);
void add_task(CardRows& rows, const CardContext& context, const catalogue::Task& task, const CardWork& work);
// Who gives the machine back, and when.
void add_end(CardRows& rows, const CardContext& context);

}  // namespace hw::sheets
