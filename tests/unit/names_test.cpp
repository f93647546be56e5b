// Every name a user meets stands in DEVELOPERS.md's table with where it comes from.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "daemon/alerts/alert.hpp"
#include "daemon/command/command_line.hpp"
#include "daemon/engine/fields/days_csv.hpp"
#include "daemon/farm/settings.hpp"

using namespace gley::daemon;

namespace {

using Names = std::set<std::string>;

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts;
  std::istringstream stream(text);
  for (std::string part; std::getline(stream, part, at);) parts.push_back(part);
  return parts;
}

std::string table_of_names() {
  std::ifstream file(GLEY_SOURCE_DIR "/DEVELOPERS.md");
  const std::string all{std::istreambuf_iterator<char>(file), {}};
  const auto begin = all.find("## Names a user meets");
  REQUIRE(begin != std::string::npos);
  return all.substr(begin, all.find("\n## ", begin) - begin);
}

/// What stands between back-ticks: every second part.
const Names& named() {
  static const Names names = [] {
    Names in_ticks;
    const auto parts = split(table_of_names(), '`');
    for (std::size_t i = 1; i < parts.size(); i += 2) in_ticks.insert(parts[i]);
    return in_ticks;
  }();
  return names;
}

void add_properties(const nlohmann::json& schema, Names& names) {
  if (schema.contains("properties"))
    for (const auto& [name, own] : schema["properties"].items()) names.insert(name);
  if (schema.is_structured())
    for (const nlohmann::json& part : schema) add_properties(part, names);
}

Names without_place(const Names& names) {
  Names missing;
  for (const std::string& name : names)
    if (!named().contains(name)) missing.insert(name);
  return missing;
}

}  // namespace

TEST_CASE("every command and option stands in the table of names") {
  Names names;
  for (const CommandWords& command : program_words().commands) {
    names.insert(command.name);
    for (const OptionWords& option : command.options) names.insert(option.name);
  }
  CHECK(without_place(names) == Names{});
}

TEST_CASE("every key of the configuration and its words stand in the table of names") {
  Names names;
  for (const SettingsTable& table : all_settings())
    for (const Setting& setting : table.settings) {
      names.emplace(setting.key);
      for (const std::string& word : words_of(setting)) names.insert(word);
    }
  CHECK(without_place(names) == Names{});
}

TEST_CASE("every member of a topic and column of a day stands in the table of names") {
  Names names;
  for (const auto& file : std::filesystem::directory_iterator(GLEY_SOURCE_DIR "/config/schema"))
    add_properties(nlohmann::json::parse(std::ifstream(file.path())), names);
  std::string header = days_csv_header(0);
  header.pop_back();
  for (const std::string& column : split(header, ',')) names.insert(column);
  CHECK(without_place(names) == Names{});
}

TEST_CASE("every alert stands in the table of names") {
  Names names;
  for (const AlertEvent event : alert_events) names.emplace(words_of(event).event);
  CHECK(without_place(names) == Names{});
}

TEST_CASE("every row of the table of names says where they come from") {
  std::size_t rows = 0;
  for (const std::string& line : split(table_of_names(), '\n')) {
    if (!line.starts_with("| ") || line.starts_with("| where") || line.starts_with("| ---"))
      continue;
    INFO(line);
    const auto cells = split(line, '|');
    REQUIRE(cells.size() == 4);
    CHECK((cells[3].starts_with(" trade") || cells[3].starts_with(" standard: ") ||
           cells[3].starts_with(" ours")));
    ++rows;
  }
  CHECK(rows > 0);
}
