#pragma once
// Numbers as people and offices write them into sheets: "1.234,50 €", "1 234.5", "12'000", "14 days".

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "src/catalogue/sheet_headings.h"

namespace hw::catalogue {

bool holds_number(SheetField field);

// A number and the word before or behind it.
struct NumberText {
  std::string
      digits;        // digits with at most a sign, points, commas and an exponent; blanks and ' between thousands gone
  std::string word;  // small letters: "€", "days"; empty without one
};

// Nothing where it is no number with at most one word.
std::optional<NumberText> split_number(std::string_view text);

enum class DecimalSign { untold, point, comma };

// What a number tells by itself. The last of both signs is the decimal one; a sign that stands twice parts thousands;
// one with three digits behind it and one to three before it, none of them a leading 0, can be either: untold, as is a
// number without a sign.
DecimalSign sign_told_by(std::string_view digits);
// What the numbers of a column tell together; untold where none tells it, or where they tell different ones.
DecimalSign sign_told_by(std::span<const std::string> numbers);
// Whether the number can be read in two ways.
bool has_two_ways(std::string_view digits);

// Nothing for what is no number in that way: thousands that are not three digits, two decimal signs.
std::optional<double> read_digits(std::string_view digits, DecimalSign sign);

// In digits that can be read in one way only, also by split_number: 1.234 is 1.2340.
std::string print_digits(double number, DecimalSign sign);

// Whether they are the same to the 15 digits that sheets keep.
bool is_same_number(double a, double b);

}  // namespace hw::catalogue
