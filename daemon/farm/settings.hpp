#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// What may stand at a key.
enum class ValueType {
  text,
  id,    ///< letters, digits, - and _: part of topics and addresses
  word,  ///< one of SettingFacts::words
  number,
  whole_number,
  truth,
  text_or_list,  ///< one text, or a list of them
  numbers,       ///< a list of whole numbers
  day,           ///< 2026-03-20, with or without quotation marks, or "03-20" for every year
  days,          ///< a list of them
  path,          ///< of a file, relative to the file it stands in
  topic_filter,  ///< MQTT, wildcards allowed
  topic,         ///< MQTT, without wildcards
  pointer,       ///< RFC 6901
  table,         ///< [key]
  free_table,    ///< [key] whose keys the farm chooses
  tables,        ///< [[key]]
  several_forms  ///< checked by its reader
};

struct NumberRange {
  double low = 0.0;
  double high = 0.0;
  bool above_low = false;  ///< low itself is out
};
[[nodiscard]] constexpr NumberRange above(double low, double high) {
  return {.low = low, .high = high, .above_low = true};
}

/// What holds for a setting beside its type.
struct SettingFacts {
  bool required = false;
  std::string_view unit = {};
  std::string_view default_text = {};  ///< as it would be written; empty: none, or said in help
  std::optional<NumberRange> range = std::nullopt;
  std::span<const std::string_view> words = {};
  bool reread = true;  ///< takes effect on reload; otherwise at the next start
};

/// One key of the configuration. The parser knows no other keys than these; the manual and the
/// commented example are tested against them.
struct Setting {
  constexpr Setting(std::string_view its_key, ValueType its_type, std::string_view its_help,
                    const SettingFacts& its_facts = {})
      : key(its_key), type(its_type), help(its_help), facts(its_facts) {}

  std::string_view key;
  ValueType type;
  std::string_view help;
  SettingFacts facts;
};

struct SettingsTable {
  std::string_view name;  ///< "" for the file itself, "station.reading" for [[station.reading]]
  std::span<const Setting> settings;
};

/// Of the farm, its connections and stations; of fields, machines and materials; of what grows on
/// fields; and of water on the land.
[[nodiscard]] std::span<const SettingsTable> farm_settings();
[[nodiscard]] std::span<const SettingsTable> field_settings();
[[nodiscard]] std::span<const SettingsTable> crop_settings();
[[nodiscard]] std::span<const SettingsTable> land_settings();

[[nodiscard]] std::vector<SettingsTable> all_settings();
/// None if there is no such table.
[[nodiscard]] std::span<const Setting> settings_of(std::string_view table);
/// Null if there is no such key.
[[nodiscard]] const Setting* find_setting(std::span<const Setting> settings, std::string_view key);

/// The words a setting may take, in order.
[[nodiscard]] inline std::vector<std::string> words_of(const Setting& setting) {
  return {setting.facts.words.begin(), setting.facts.words.end()};
}

}  // namespace gley::daemon
