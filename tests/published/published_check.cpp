#include "tests/published/published_check.hpp"

#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace gley::published {
namespace {

using nlohmann::json;

Series series(const json& value) {
  if (value.is_array()) return value.get<Series>();
  return {value.get<double>()};
}

Inputs inputs(const json& row) {
  std::map<std::string, Series> values;
  for (const auto& [name, value] : row.items()) values[name] = series(value);
  return Inputs{std::move(values)};
}

PrintedValue printed_value(const std::string& name, const json& row) {
  PrintedValue value{.name = name,
                     .unit = row.at("unit").get<std::string>(),
                     .printed = series(row.at("printed")),
                     .exact = series(row.at("exact")),
                     .tolerance = row.at("tolerance").get<double>(),
                     .print_is_wrong = {}};
  if (value.printed.size() != value.exact.size()) throw std::runtime_error(name + ": two lengths");
  value.print_is_wrong.resize(value.printed.size());
  if (row.contains("print_wrong_at")) {
    for (const std::size_t place : row.at("print_wrong_at").get<std::vector<std::size_t>>()) {
      value.print_is_wrong.at(place - 1) = true;
    }
  }
  return value;
}

std::string joined(const json& words) {
  std::string text;
  for (const auto& word : words) {
    if (!text.empty()) text += ", ";
    text += word.get<std::string>();
  }
  return text;
}

PublishedCheck check(const json& row) {
  PublishedCheck one{.id = row.at("id").get<std::string>(),
                     .what = row.at("what").get<std::string>(),
                     .page = row.at("page").get<std::string>(),
                     .equations = joined(row.at("equations")),
                     .inputs = inputs(row.at("inputs")),
                     .values = {}};
  for (const auto& [name, value] : row.at("values").items()) {
    one.values.push_back(printed_value(name, value));
  }
  return one;
}

}  // namespace

std::vector<PublishedCheck> read_checks(const std::string& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("cannot open " + path);
  std::vector<PublishedCheck> checks;
  const json whole = json::parse(file);
  for (const auto& row : whole.at("checks")) checks.push_back(check(row));
  return checks;
}

}  // namespace gley::published
