#include "daemon/farm/settings.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <set>

#include "daemon/farm/config_reader.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "daemon/readings/told.hpp"
#include "daemon/text/number_text.hpp"
#include "model/soil/drainage.hpp"
#include "model/soil/profile.hpp"
#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::daemon;

namespace {

const std::string example = GLEY_SOURCE_DIR "/config/example.toml";

/// A key of the example: commented out or not, with its value as written.
struct ShownKey {
  std::string table;
  std::string key;
  std::string value;
  bool commented = false;
};

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// Keys of one `{ a = 1, b = 2 }` belong to the table of its own name.
void add_inline_keys(std::vector<ShownKey>& keys, const ShownKey& of) {
  const std::string table = of.table + "." + of.key;
  std::string rest = of.value.substr(1);
  for (auto comma = rest.find_first_of(",}"); comma != std::string::npos;
       comma = rest.find_first_of(",}")) {
    const std::string pair = rest.substr(0, comma);
    const auto equals = pair.find('=');
    if (equals != std::string::npos) {
      keys.push_back(
          {table, trimmed(pair.substr(0, equals)), trimmed(pair.substr(equals + 1)), of.commented});
    }
    rest = rest.substr(comma + 1);
  }
}

std::vector<ShownKey> shown_keys() {
  std::ifstream file(example);
  REQUIRE(file.is_open());
  std::vector<ShownKey> keys;
  std::string table;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with("[")) {
      table = line.substr(line.find_last_of('[', 1) + 1);
      table = table.substr(0, table.find(']'));
      const auto dot = table.find_last_of('.');
      keys.push_back({dot == std::string::npos ? "" : table.substr(0, dot),
                      dot == std::string::npos ? table : table.substr(dot + 1), "", false});
      continue;
    }
    const bool commented = line.starts_with("#") && line.size() > 1 && line[1] != ' ';
    const auto equals = line.find(" = ");
    if ((line.starts_with("#") && !commented) || equals == std::string::npos) continue;
    const std::string value = trimmed(line.substr(equals + 3, line.find(" # ") - equals - 3));
    const std::size_t start = commented ? 1 : 0;
    keys.push_back({table, line.substr(start, equals - start), value, commented});
    if (value.starts_with("{")) add_inline_keys(keys, ShownKey(keys.back()));
  }
  return keys;
}

const Setting* setting_of(const ShownKey& shown) {
  return find_setting(settings_of(shown.table), shown.key);
}

/// Every setting under its table and key.
std::map<std::string, const Setting*> settings_by_name() {
  std::map<std::string, const Setting*> by_name;
  for (const SettingsTable& table : all_settings())
    for (const Setting& setting : table.settings)
      CHECK(by_name.emplace(std::string(table.name) + " " + std::string(setting.key), &setting)
                .second);
  return by_name;
}

std::string in_quotes(std::string_view text) {
  return "\"" + std::string(text) + "\"";
}

}  // namespace

TEST_CASE("the example is a farm without a problem") {
  const ConfigResult result = read_config(example);
  for (const ConfigProblem& problem : result.problems) UNSCOPED_INFO(problem.to_line());
  REQUIRE(result.farm.has_value());
  CHECK(result.farm->fields.size() == 3);
}

TEST_CASE("the example with its defaults written out is the same sound farm") {
  std::set<std::string> defaults;
  for (const ShownKey& shown : shown_keys()) {
    const Setting* setting = setting_of(shown);
    if (shown.commented && setting != nullptr && !setting->facts.default_text.empty()) {
      defaults.insert("#" + shown.key + " = " + shown.value);
    }
  }
  std::ifstream file(example);
  std::string text;
  for (std::string line; std::getline(file, line);) {
    text += (defaults.contains(line) ? line.substr(1) : line) + "\n";
  }
  CHECK(defaults.size() > 10);
  CHECK(gley::test::problems_of(text).empty());
}

TEST_CASE("the example shows every setting") {
  std::set<std::string> shown;
  for (const ShownKey& key : shown_keys()) shown.insert(key.table + " " + key.key);
  for (const auto& [name, setting] : settings_by_name()) {
    INFO(name);
    CHECK(shown.contains(name));
  }
}

TEST_CASE("the example shows no key that is no setting, and each default as it is") {
  for (const ShownKey& shown : shown_keys()) {
    if (shown.table == "forecast.parameters") continue;
    INFO(shown.table << " " << shown.key);
    const Setting* setting = setting_of(shown);
    REQUIRE(setting != nullptr);
    if (shown.commented && !setting->facts.default_text.empty()) {
      CHECK(shown.value == setting->facts.default_text);
    }
  }
}

TEST_CASE("the stated defaults are those of the farm") {
  const auto hours_text = [](std::chrono::minutes time) {
    const std::string hours = std::to_string(time.count() / 60);
    return (hours.size() < 2 ? "0" : "") + hours + ":00";
  };
  const FarmConfig farm;
  const FieldConfig field;
  const StationConfig station;
  double depth_mm = 0.0;
  for (const double layer_mm : gley::model::default_thickness_mm) depth_mm += layer_mm;
  CHECK(farm.day_starts == std::chrono::minutes{0});
  const std::map<std::string, std::string> defaults{
      {"farm day_starts", in_quotes("00:00")},
      {"mqtt host", in_quotes(farm.mqtt.host)},
      {"mqtt port", std::to_string(farm.mqtt.port)},
      {"mqtt away_after_min", number_text(farm.mqtt.away_after_min)},
      {"http address", in_quotes(farm.http.address)},
      {"http port", std::to_string(farm.http.port)},
      {"forecast days", std::to_string(ForecastConfig{}.days)},
      {"forecast window_chance", number_text(ForecastConfig{}.window_chance)},
      {"forecast heavy_rain_mm", number_text(ForecastConfig{}.heavy_rain_mm)},
      {"forecast wind_height_m", number_text(ForecastConfig{}.wind_height_m)},
      {"alerts working_hours",
       in_quotes(hours_text(farm.alerts.working_from) + "-" + hours_text(farm.alerts.working_to))},
      {"alerts closed_days", std::to_string(farm.alerts.closed_days)},
      {"alerts open_days", std::to_string(farm.alerts.open_days)},
      {"alerts notice_h", std::to_string(farm.alerts.notice_h)},
      {"alerts fresh_dressing_days", std::to_string(farm.alerts.fresh_dressing_days)},
      {"readings oldest_days", std::to_string(farm.oldest_days)},
      {"readings silent_after_h", number_text(farm.silent_after_h)},
      {"store durability", in_quotes(to_word(farm.store.durability))},
      {"station wind_height_m", number_text(station.wind_height_m)},
      {"station krs", number_text(station.krs)},
      {"station.reading step", number_text(ReadingMap{}.step)},
      {"field drainage", in_quotes(to_word(field.drainage))},
      {"field textbook", field.textbook ? "true" : "false"},
      {"field slope_pct", number_text(field.slope_pct)},
      {"field soil_depth_mm", number_text(depth_mm)},
      {"field pipe_drains", field.pipe_drains ? "true" : "false"},
      {"field pipe_rate_mm_d", number_text(gley::model::default_pipe_rate_mm_d)},
      {"field.soil organic_pct", number_text(SoilByTexture{}.organic_pct)},
      {"machine runs_on", in_quotes(to_word(MachineConfig{}.tread))},
      {"machine cultivates", MachineConfig{}.cultivates ? "true" : "false"},
      {"watercourse buffer_m", number_text(WatercourseConfig{}.buffer_m)},
      {"spring buffer_m", number_text(SpringConfig{}.buffer_m)},
  };
  for (const auto& [name, setting] : settings_by_name()) {
    if (setting->facts.default_text.empty()) continue;
    INFO(name);
    REQUIRE(defaults.contains(name));
    CHECK(defaults.at(name) == setting->facts.default_text);
  }
}

TEST_CASE("every setting has a help text, a range if it is a number, and words if it is one") {
  for (const auto& [name, setting] : settings_by_name()) {
    INFO(name);
    CHECK_FALSE(setting->help.empty());
    const bool number =
        setting->type == ValueType::number || setting->type == ValueType::whole_number;
    CHECK(setting->facts.range.has_value() == number);
    CHECK(setting->facts.words.empty() == (setting->type != ValueType::word));
    CHECK_FALSE((setting->facts.required && !setting->facts.default_text.empty()));
  }
}

TEST_CASE("each enum with words has one for its last value, and none is read as another") {
  // The design's words. A value without a word, or a word too many, moves the last one.
  CHECK(to_word(Quantity::irrigation) == "irrigation");
  CHECK(to_word(ReadingForm::instant) == "instant");
  CHECK(to_word(DrainageClass::poor) == "poor");
  CHECK(to_word(MaterialKind::spray) == "spray");
  CHECK(to_word(gley::model::Tread::hooves) == "hooves");
  CHECK(to_word(Durability::process) == "process");
  CHECK(word_of(CropKind::cover) == "cover");
  CHECK(to_word(Rejection::too_large) == "too_large");
  CHECK(to_word(ReportKind::drains_running) == "drains running");
  CHECK(to_word(ToldVia::command) == "command");
  CHECK(to_word(TellFault::bad_name) == "bad_name");
  CHECK(from_word<Quantity>("dew_point") == Quantity::dew_point);
  CHECK(from_word<MaterialKind>("solid manure") == MaterialKind::solid_manure);
  CHECK_FALSE(from_word<Quantity>("snow"));
}
