#pragma once
#include <toml++/toml.h>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/farm/config_files.hpp"
#include "daemon/farm/settings.hpp"
#include "daemon/farm/value_check.hpp"
#include "daemon/farm/word.hpp"
#include "model/crop/calendar_day.hpp"

namespace gley::daemon {

/// One table of a configuration file, checked whole against its settings when it is made: unknown
/// and missing keys, wrong types, values out of range. What it then hands out is good; what had a
/// problem, or is not there, is absent. To ask for a key that is no setting is our mistake
/// (std::logic_error).
class TableReader {
 public:
  struct Names {
    std::string settings;  ///< name of the table in the settings: "station.reading"
    std::string label;     ///< for messages: "[[station]] 'yard', reading"
  };

  TableReader(const toml::table& table, Names names, const ConfigFile& file, ProblemList& problems);

  [[nodiscard]] std::optional<std::string> text(std::string_view key) const {
    return value<std::string>(key);
  }
  [[nodiscard]] std::vector<TextAt> texts(std::string_view key) const;
  [[nodiscard]] std::optional<double> number(std::string_view key) const {
    return value<double>(key);
  }
  [[nodiscard]] std::optional<int> whole_number(std::string_view key) const {
    return value<int>(key);
  }
  [[nodiscard]] std::vector<int> whole_numbers(std::string_view key) const;
  [[nodiscard]] std::optional<bool> truth(std::string_view key) const { return value<bool>(key); }
  /// What a word stands for, of an enum with words.
  template <HasWords Enum>
  [[nodiscard]] std::optional<Enum> word(std::string_view key) const {
    const auto written = text(key);
    return written ? from_word<Enum>(*written) : std::nullopt;
  }
  [[nodiscard]] std::optional<model::CalendarDay> day(std::string_view key) const;
  [[nodiscard]] std::vector<model::CalendarDay> days(std::string_view key) const;
  /// A path, resolved against the file's directory.
  [[nodiscard]] std::optional<std::filesystem::path> path(std::string_view key) const;
  /// The same; a problem if there is no such file.
  [[nodiscard]] std::optional<std::filesystem::path> existing_file(std::string_view key) const;
  [[nodiscard]] std::optional<TableReader> child(std::string_view key) const;
  [[nodiscard]] std::vector<TableReader> children(std::string_view key) const;
  /// The value as it stands, good or not.
  [[nodiscard]] const toml::node* node(std::string_view key) const;

  template <class T, class Value>
  void assign(T& target, const std::optional<Value>& value) const {
    if (value) target = *value;
  }

  [[nodiscard]] bool has(std::string_view key) const { return node(key) != nullptr; }
  [[nodiscard]] bool is_good(std::string_view key) const { return good(key) != nullptr; }
  [[nodiscard]] FilePlace place() const;
  [[nodiscard]] FilePlace place(std::string_view key) const;
  [[nodiscard]] const std::string& label() const { return names_.label; }
  /// Reports a problem at a key, or at the table if the key is not there.
  void problem(std::string_view key, const std::string& message) const;
  [[nodiscard]] ProblemList& problems() const { return *problems_; }

 private:
  [[nodiscard]] const toml::node* good(std::string_view key) const;
  template <class Value>
  [[nodiscard]] std::optional<Value> value(std::string_view key) const {
    const toml::node* node = good(key);
    return node == nullptr ? std::nullopt : node->value<Value>();
  }
  [[nodiscard]] TableReader open(const toml::table& table, std::string_view key,
                                 bool one_of_several) const;
  [[nodiscard]] std::string unknown_key(std::string_view key) const;
  void check_keys();
  void check_missing() const;

  const toml::table* table_;
  Names names_;
  const ConfigFile* file_;
  ProblemList* problems_;
  std::span<const Setting> settings_;
  std::set<std::string, std::less<>> good_;
};

}  // namespace gley::daemon
