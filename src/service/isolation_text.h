#pragma once
// Isolation of a kind of machine as text: in the database's rows and in the API. The words are those of the catalogue.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/catalogue/isolation.h"

namespace hw::service {

struct IsolationPointText {
  std::string key;
  std::string title;
  std::string title_de;
  std::string energy;
  std::string where;
  std::string where_de;
  std::string how;
  std::string how_de;
  std::optional<int> point;
  std::optional<double> wait_minutes;
};
BOOST_DESCRIBE_STRUCT(IsolationPointText, (),
                      (key, title, title_de, energy, where, where_de, how, how_de, point, wait_minutes))

struct StoredEnergyText {
  std::string energy;
  std::string title;
  std::string title_de;
  std::string release;
  std::string release_de;
  std::string verify;
  std::string verify_de;
  std::optional<double> wait_minutes;
};
BOOST_DESCRIBE_STRUCT(StoredEnergyText, (),
                      (energy, title, title_de, release, release_de, verify, verify_de, wait_minutes))

struct IsolationText {
  std::vector<IsolationPointText> points;
  std::vector<StoredEnergyText> stored;
};
BOOST_DESCRIBE_STRUCT(IsolationText, (), (points, stored))

// Refuses an unknown energy and what catalogue::check refuses; the message names the field.
Result<catalogue::Isolation> isolation_of(const IsolationText& text);
IsolationText text_of(const catalogue::Isolation& isolation);

}  // namespace hw::service
