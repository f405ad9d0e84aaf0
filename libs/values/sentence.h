#pragma once
// A sentence for people, with what it says for whoever says it in another language.

#include <string>

#include "libs/values/result.h"
#include "libs/values/saying.h"

namespace hw {

struct Sentence {
  std::string text;
  Saying saying;
};

template <class... Args>
Sentence sentence(Saying saying, fmt::format_string<Args...> form, Args&&... args) {
  return {fmt::format(form, std::forward<Args>(args)...), std::move(saying)};
}

}  // namespace hw
