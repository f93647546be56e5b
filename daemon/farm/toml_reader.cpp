#include "daemon/farm/toml_reader.hpp"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "daemon/farm/calendar_text.hpp"

namespace gley::daemon {
namespace {

std::vector<std::string> keys_of(std::span<const Setting> settings) {
  std::vector<std::string> keys;
  keys.reserve(settings.size());
  for (const Setting& setting : settings) keys.emplace_back(setting.key);
  return keys;
}

std::optional<model::CalendarDay> day_of(const toml::node& value) {
  if (const auto text = value.value<std::string>()) return parse_calendar_day(*text);
  const auto date = value.value<toml::date>();
  if (!date) return std::nullopt;
  return model::CalendarDay{.year = std::chrono::year{date->year},
                            .day = std::chrono::month{date->month} / date->day};
}

/// Begins a path in the folder that systemd makes for a service's secrets (systemd.exec(5)).
constexpr std::string_view credentials = "$CREDENTIALS_DIRECTORY/";

/// Kept as written where there is no such folder, as for `gleyd check` at a terminal: whoever needs
/// the file then cannot open it and names it so.
std::filesystem::path credential(const std::string& name) {
  const char* folder = std::getenv("CREDENTIALS_DIRECTORY");
  if (folder == nullptr) return std::string(credentials) + name;
  return (std::filesystem::path(folder) / name).lexically_normal();
}

}  // namespace

TableReader::TableReader(const toml::table& table, Names names, const ConfigFile& file,
                         ProblemList& problems)
    : table_(&table),
      names_(std::move(names)),
      file_(&file),
      problems_(&problems),
      settings_(settings_of(names_.settings)) {
  check_keys();
  check_missing();
}

std::string TableReader::unknown_key(std::string_view key) const {
  if (key == "include") return "stands in a table; it must stand before the first table";
  if (key == "reading" && names_.settings.empty())
    return "stands in no station; write [[station.reading]], below its [[station]]";
  return "is an unknown key; " + suggestion(key, keys_of(settings_));
}

void TableReader::check_keys() {
  for (const auto& [key, value] : *table_) {
    const Setting* setting = find_setting(settings_, key.str());
    if (setting == nullptr) {
      problem(key.str(), unknown_key(key.str()));
      continue;
    }
    if (const auto wrong = problem_with(*setting, value)) {
      problem(key.str(), *wrong);
    } else {
      good_.emplace(key.str());
    }
  }
}

void TableReader::check_missing() const {
  for (const Setting& setting : settings_) {
    if (!setting.facts.required || table_->contains(setting.key)) continue;
    problem(setting.key, "is missing: " + wanted_text(setting));
  }
}

FilePlace TableReader::place() const {
  return {.file = file_->name, .line = std::max(table_->source().begin.line, 1U)};
}

FilePlace TableReader::place(std::string_view key) const {
  const auto found = table_->find(key);
  if (found == table_->end()) return place();
  return {.file = file_->name, .line = found->first.source().begin.line};
}

void TableReader::problem(std::string_view key, const std::string& message) const {
  const std::string before = names_.label.empty() ? "" : names_.label + ": ";
  problems_->add(place(key), before + std::string(key) + " " + message);
}

const toml::node* TableReader::node(std::string_view key) const {
  if (find_setting(settings_, key) == nullptr)
    throw std::logic_error(names_.settings + " has no setting " + std::string(key));
  return table_->get(key);
}

const toml::node* TableReader::good(std::string_view key) const {
  const toml::node* value = node(key);
  return good_.contains(key) ? value : nullptr;
}

std::vector<TextAt> TableReader::texts(std::string_view key) const {
  return good(key) == nullptr ? std::vector<TextAt>{} : texts_at(*table_, key);
}

std::vector<int> TableReader::whole_numbers(std::string_view key) const {
  std::vector<int> numbers;
  const toml::node* value = good(key);
  if (value == nullptr) return numbers;
  for (const toml::node& item : *value->as_array())
    numbers.push_back(item.value<int>().value_or(-1));
  return numbers;
}

std::optional<model::CalendarDay> TableReader::day(std::string_view key) const {
  const toml::node* value = good(key);
  return value == nullptr ? std::nullopt : day_of(*value);
}

std::vector<model::CalendarDay> TableReader::days(std::string_view key) const {
  std::vector<model::CalendarDay> days;
  const toml::node* value = good(key);
  if (value == nullptr) return days;
  for (const toml::node& item : *value->as_array()) {
    if (const auto day = day_of(item)) days.push_back(*day);
  }
  return days;
}

std::optional<std::filesystem::path> TableReader::path(std::string_view key) const {
  const auto written = text(key);
  if (!written) return std::nullopt;
  if (written->starts_with(credentials)) return credential(written->substr(credentials.size()));
  return (file_->directory / *written).lexically_normal();
}

std::optional<std::filesystem::path> TableReader::existing_file(std::string_view key) const {
  auto file = path(key);
  if (!file || file->string().starts_with(credentials)) return file;
  std::error_code error;
  if (std::filesystem::is_regular_file(*file, error)) return file;
  const bool is_absent = !error || error == std::errc::no_such_file_or_directory ||
                         error == std::errc::not_a_directory;
  problem(key, "is " + file->string() + "; " +
                   (is_absent ? "there is no such file"
                              : "this user cannot get at it: " + error.message()));
  return file;
}

TableReader TableReader::open(const toml::table& table, std::string_view key,
                              bool one_of_several) const {
  const std::string name(key);
  const std::string settings = names_.settings.empty() ? name : names_.settings + "." + name;
  std::string label = names_.label + ", " + name;
  if (names_.label.empty()) {
    label = one_of_several ? "[[" + name + "]]" : "[" + name + "]";
    const auto id = table["id"].value<std::string>();
    if (one_of_several && id) label += " '" + *id + "'";
  }
  return {table, {.settings = settings, .label = label}, *file_, *problems_};
}

std::optional<TableReader> TableReader::child(std::string_view key) const {
  const toml::node* value = good(key);
  if (value == nullptr || !value->is_table()) return std::nullopt;
  return open(*value->as_table(), key, false);
}

std::vector<TableReader> TableReader::children(std::string_view key) const {
  std::vector<TableReader> readers;
  const toml::node* value = good(key);
  if (value == nullptr || !value->is_array()) return readers;
  for (const toml::node& item : *value->as_array()) {
    if (item.is_table()) readers.push_back(open(*item.as_table(), key, true));
  }
  return readers;
}

}  // namespace gley::daemon
