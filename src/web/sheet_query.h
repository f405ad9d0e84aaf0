#pragma once
// In which language and on which paper a sheet is asked for.

#include "libs/formats/enum_words.h"
#include "libs/http/message.h"
#include "src/sheets/job_card.h"

namespace hw::web {

inline Result<sheets::CardLanguage> query_language(const http::Request& request) {
  const auto language = request.query_value("language").value_or("en");
  if (language == "en") return sheets::CardLanguage::english;
  if (language == "de") return sheets::CardLanguage::german;
  return refuse(ErrorCode::bad_input, "language: \"{}\" is none; right is en or de", language.substr(0, 40));
}

inline Result<sheets::CardPaper> query_paper(const http::Request& request) {
  const auto paper = request.query_value("paper").value_or("a4");
  if (const auto known = formats::parse_word<sheets::CardPaper>(paper)) return *known;
  return refuse(ErrorCode::bad_input, "paper: \"{}\" is none; right is a4 or letter", paper.substr(0, 40));
}

}  // namespace hw::web
