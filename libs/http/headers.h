#pragma once
// The header fields of a message in the order in which they came. Names are compared without regard to letter case.

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace hw::http {

struct Header {
  std::string name;
  std::string value;
};

// The same letters, ASCII upper and lower case being one.
bool same_name(std::string_view a, std::string_view b);

class Headers {
 public:
  Headers() = default;
  Headers(std::initializer_list<Header> fields) : fields_(fields) {}

  // The first field of that name.
  std::optional<std::string_view> find(std::string_view name) const;
  // How many fields bear that name.
  std::size_t count(std::string_view name) const;
  // Whether one of the comma-separated words of the fields of that name is this word (letter case does not matter).
  bool lists(std::string_view name, std::string_view word) const;

  void add(std::string name, std::string value);
  // Takes the place of all fields of that name.
  void set(std::string name, std::string value);
  void remove(std::string_view name);

  std::vector<Header>::const_iterator begin() const { return fields_.begin(); }
  std::vector<Header>::const_iterator end() const { return fields_.end(); }
  bool empty() const { return fields_.empty(); }

 private:
  std::vector<Header> fields_;
};

}  // namespace hw::http
