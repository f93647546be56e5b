#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>
#include <sstream>

#include "daemon/board/documents/explanation_json.hpp"
#include "daemon/command/explanation_text.hpp"
#include "daemon/engine/explain/explanation_day.hpp"
#include "daemon/text/csv_rows.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"
#include "model/water/field_step.hpp"
#include "tests/unit/farm/config_fixture.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;
using Catch::Matchers::Contains;
using std::chrono::sys_days;

constexpr sys_days first_of_year = 2015y / 1 / 1;
constexpr sys_days july_6 = 2015y / 7 / 6;

/// The place of FAO-56 Example 18 (p. 72), Uccle, with fields that differ in all that is explained.
const std::string farm_text = R"([farm]
id = "alder"
name = "Alder Farm"
latitude = 50.8
longitude = 4.36
elevation_m = 100
time_zone = "UTC"
[[station]]
id = "yard"
wind_height_m = 10
[[station]]
id = "brook"
[[field]]
id = "grass"
station = "yard"
soil = "clay loam"
crop = "grass"
[[field]]
id = "wheat"
name = "A field with a name so long that it cannot stand on one line of a terminal, Páirc Mhór"
station = ["brook", "yard"]
soil = "clay"
drainage = "poor"
pipe_drains = true
slope_pct = 8
crop = "winter wheat"
[[field]]
id = "textbook"
station = "yard"
soil = { field_capacity = 0.36, wilting_point = 0.20, saturation = 0.48 }
crop = { kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, depletion_fraction = 0.5 }
textbook = true
start_depletion_mm = 40
[[field]]
id = "bare"
station = "yard"
soil = { sand_pct = 60, clay_pct = 12 }
drainage = "free"
crop = "bare soil"
[[field]]
id = "piped"
station = "yard"
soil = "sandy silt loam"
drainage = "slow"
pipe_drains = true
crop = "winter wheat"
[[field]]
id = "sand"
station = "yard"
soil = "sand"
drainage = "free"
crop = "grass"
[[machine]]
id = "drill"
name = "Tractor and drill"
wheel_load_t = 2.6
tyre_pressure_bar = 1.0
mass_t = 8.5
cultivates = true
[[machine]]
id = "quad"
name = "Quad bike"
wheel_load_t = 0.15
tyre_pressure_bar = 0.3
[[material]]
id = "n"
name = "Nitrogen"
kind = "mineral fertiliser"
)";

/// FAO-56 Example 18: Uccle, 6 July.
DayRecord uccle_day() {
  DayRecord record{.weather = {}, .flags = {}, .complete = true, .loaded = false};
  record.weather.rain_mm = 0.0;
  record.weather.tmin_c = 12.3;
  record.weather.tmax_c = 21.5;
  record.weather.rh_min_pct = 63.0;
  record.weather.rh_max_pct = 84.0;
  record.weather.wind_m_s = 10.0 / 3.6;
  record.weather.sun_h = 9.25;
  return record;
}

/// A year with frost, snow, storms, drought, irrigation and gaps, none of it random.
DayRecord plain_day(int day) {
  const double warmth = 9.0 - 11.0 * std::cos(2.0 * M_PI * (day - 20) / 365.0);
  DayRecord record{.weather = {}, .flags = {}, .complete = true, .loaded = true};
  record.weather.rain_mm = day % 3 == 0 ? 4.0 + day % 11 : 0.0;
  if (day % 40 == 0) record.weather.rain_mm = 60.0;
  if (day > 120 && day < 200) record.weather.rain_mm = day % 17 == 0 ? 6.5 : 0.0;
  if (day == 170) record.weather.irrigation_mm = 25.0;
  record.weather.tmin_c = warmth - 4.5 - day % 4;
  record.weather.tmax_c = warmth + 4.5 + day % 3;
  if (day % 5 != 1) record.weather.wind_m_s = 1.0 + day % 6;
  if (day % 4 == 0) record.weather.dew_point_c = warmth - 5.0;
  if (day % 4 == 1) record.weather.rh_mean_pct = 82.0;
  if (day % 4 == 2) record.weather.rh_max_pct = 97.0;
  if (day % 2 == 0) record.weather.solar_mj_m2 = 1.0 + std::fabs(warmth);
  if (day % 37 == 5) record.weather.rain_mm.reset();
  if (day % 37 == 6) record.weather.tmin_c.reset();
  return record;
}

class ExplainedFarm {
 public:
  ExplainedFarm() {
    for (int day = 0; day < 365; ++day) {
      const sys_days date = first_of_year + std::chrono::days{day};
      if (day == 60) continue;  // silent stations
      if (date == july_6) {
        book_.put("yard", date, uccle_day());
        continue;
      }
      book_.put("yard", date, plain_day(day));
      if (day % 2 == 0) book_.put("brook", date, only_rain(7.25));
    }
    book_.close(first_of_year + std::chrono::days{364});
  }

  [[nodiscard]] tl::expected<ExplainedDay, std::string> day(const std::string& field,
                                                            sys_days date) const {
    return ended_day(farm_, book_, *book_.index_of(field), date);
  }
  [[nodiscard]] Explanation explained(const std::string& field, sys_days date) const {
    return explain(day(field, date).value());
  }
  [[nodiscard]] const FieldBook& book() const { return book_; }

 private:
  static DayRecord only_rain(double rain_mm) {
    DayRecord record{.weather = {}, .flags = {}, .complete = true, .loaded = true};
    record.weather.rain_mm = rain_mm;
    return record;
  }

  FarmConfig farm_ = test::farm_of(farm_text);
  FieldBook book_{farm_};
};

const ExplainedFarm& farm() {
  static const ExplainedFarm farm;
  return farm;
}

const ExplanationLine& line_of(const Explanation& explanation, const std::string& key) {
  for (const ExplanationSection& section : explanation.sections)
    for (const ExplanationLine& line : section.lines)
      if (line.key == key) return line;
  throw std::logic_error("no line " + key);
}

double number_of(const Explanation& explanation, const std::string& key) {
  return std::get<double>(line_of(explanation, key).value);
}

std::string value_text(const ExplanationLine& line) {
  const auto* number = std::get_if<double>(&line.value);
  return number != nullptr ? number_text(*number) : std::get<std::string>(line.value);
}

const std::vector<std::string> fields{"grass", "wheat", "textbook", "bare"};

}  // namespace

TEST_CASE("an explained day shows the terms of FAO-56 Example 18 (p. 72-73)") {
  const Explanation day = farm().explained("grass", july_6);
  struct Printed {
    const char* key;
    double value;
    double tolerance;
    const char* source;
  };
  for (const Printed& printed : {Printed{"u2_m_s", 2.078, 5e-4, "Eq. 47"},
                                 {"tmean_c", 16.9, 1e-9, "Eq. 9"},
                                 {"pressure_kpa", 100.1, 0.05, "Eq. 7"},
                                 {"gamma_kpa_c", 0.0666, 1e-4, "Eq. 8"},
                                 {"delta_kpa_c", 0.122, 5e-4, "Eq. 13"},
                                 {"es_kpa", 1.997, 5e-4, "Eq. 12"},
                                 {"ea_kpa", 1.409, 5e-4, "Eq. 17"},
                                 {"ra_mj_m2", 41.09, 0.01, "Eq. 21"},
                                 {"daylight_h", 16.1, 0.05, "Eq. 34"},
                                 {"rs_mj_m2", 22.07, 0.01, "Eq. 35"},
                                 {"rso_mj_m2", 30.90, 0.01, "Eq. 37"},
                                 {"rns_mj_m2", 17.00, 0.01, "Eq. 38"},
                                 {"rnl_mj_m2", 3.71, 0.01, "Eq. 39"},
                                 {"rn_mj_m2", 13.28, 0.01, "Eq. 40"},
                                 {"penman_monteith_mm", 3.88, 0.005, "Eq. 6"}}) {
    INFO(printed.key);
    const ExplanationLine& line = line_of(day, printed.key);
    CHECK(std::get<double>(line.value) == Approx(printed.value).margin(printed.tolerance));
    CHECK_THAT(line.source, Contains(printed.source));
  }
  CHECK_THAT(line_of(day, "ea_kpa").equation, Contains("* 84") && Contains("* 63"));
}

TEST_CASE("every number of days.csv stands in the explanation to the digit") {
  std::size_t compared = 0;
  for (const std::string& field : fields) {
    const std::size_t index = *farm().book().index_of(field);
    const auto rows = csv_rows(farm().book().days_csv(index, {}));
    for (std::size_t row = 1; row < rows.size(); row += row < 100 ? 1 : 3) {
      const sys_days date = *date_from(rows[row].cells[0]);
      const Explanation day = farm().explained(field, date);
      for (std::size_t column = 2; column < rows[0].cells.size(); ++column) {
        const std::string& name = rows[0].cells[column];
        if (value_text(line_of(day, name)) == rows[row].cells[column]) {
          ++compared;
          continue;
        }
        FAIL(field + " " + rows[row].cells[0] + " " + name + ": shown " +
             value_text(line_of(day, name)) + ", days.csv has " + rows[row].cells[column]);
      }
    }
  }
  CHECK(compared > 20000);
}

TEST_CASE("shown inputs put into shown equations give the shown results") {
  for (const std::string& field : fields)
    for (int ahead = 0; ahead < 365; ahead += 9) {
      const Explanation day = farm().explained(field, first_of_year + std::chrono::days{ahead});
      const auto n = [&](const char* key) { return number_of(day, key); };
      INFO(field << ' ' << day.date);
      const double taw = n("taw_mm");
      const double p = n("depletion_fraction");
      const double ks =
          std::min(1.0, (taw - n("depletion_start_mm")) / ((1.0 - p) * taw));  // Eq. 84
      CHECK(n("ks") == Approx(ks).epsilon(1e-12));
      const double ke = std::min(n("kr") * (n("kc_max") - n("kcb")), n("few") * n("kc_max"));
      CHECK(n("ke") == Approx(ke).epsilon(1e-12));  // Eq. 71
      const double a = std::sqrt(9.81 * 2.6 / (100.0 * 1.0) / M_PI);
      const double edge = 0.5 / std::sqrt(0.5 * 0.5 + a * a);
      CHECK(n("drill.stress_0.5m_kpa") ==
            Approx(100.0 * (1.0 - std::pow(edge, n("drill.concentration")))));
      CHECK(std::fabs(n("balance_left_mm")) < 1e-9);
      CHECK(n("balance_in_mm") == Approx(n("balance_out_mm") + n("balance_held_mm")).margin(1e-9));
    }
}

TEST_CASE("what rounding leaves of the water on its way down is told as none") {
  for (const std::string& field : fields)
    for (int ahead = 0; ahead < 365; ahead += 5) {
      const Explanation day = farm().explained(field, first_of_year + std::chrono::days{ahead});
      for (const char* layer : {"theta_1", "theta_2", "theta_3", "theta_4"})
        REQUIRE_THAT(line_of(day, layer).note, !Contains("e-1"));
    }
}

TEST_CASE("pipes that take water held up over soil still short are said to, and no others") {
  int held_up = 0;
  int under_a_drying_topsoil = 0;
  for (int ahead = 0; ahead < 365; ++ahead) {
    const sys_days date = first_of_year + std::chrono::days{ahead};
    const ExplainedDay day = farm().day("piped", date).value();
    if (day.day.fluxes.pipe_drain_mm <= 0.0) continue;
    const bool said = !line_of(explain(day), "pipe_drain_mm").note.empty();
    const auto short_mm = [&](const model::FieldState& at, int first, int end) {
      return model::deficit_between_mm(first, end, at.water);
    };
    // Below the topsoil nothing becomes short before the pipes have drawn.
    const bool short_below = short_mm(day.morning, 2, day.field.parameters.piped_layers) > 1e-9;
    INFO(ahead);
    CHECK((!said || short_below));
    held_up += said ? 1 : 0;
    under_a_drying_topsoil += !short_below && short_mm(day.day.evening, 0, 2) > 0.0 ? 1 : 0;
  }
  CHECK(held_up > 0);
  CHECK(under_a_drying_topsoil > 0);
}

TEST_CASE("on sand the rule for heavy wheels is said to know suction alone") {
  const auto note = [](const char* field) {
    return line_of(farm().explained(field, july_6), "gate_heavy_wheels_kpa").note;
  };
  CHECK_THAT(note("sand"), Contains("sand may be firm sooner"));
  CHECK(note("bare").empty());  // 12 % clay
}

TEST_CASE("every input says where it came from") {
  const Explanation uccle = farm().explained("grass", july_6);
  CHECK_THAT(line_of(uccle, "tmax_c").source, Contains("measured at station yard"));
  CHECK_THAT(line_of(uccle, "crop").source, Contains("crops.toml, 'grass'"));
  CHECK_THAT(line_of(uccle, "taw_mm").source, Contains("soils.toml, 'clay loam'"));
  CHECK_THAT(line_of(uccle, "drill.wheel_load_t").source, Contains("configuration"));
  CHECK_THAT(line_of(uccle, "depletion_before_mm").source, Contains("carried over"));

  const Explanation wheat = farm().explained("wheat", first_of_year + std::chrono::days{10});
  CHECK(number_of(wheat, "rain_mm") == 7.25);
  CHECK_THAT(line_of(wheat, "rain_mm").source, Contains("station brook, from a weather file"));
  CHECK_THAT(line_of(wheat, "tmax_c").source, Contains("station yard"));
  CHECK_THAT(line_of(wheat, "wind_m_s").source, Contains("station yard"));

  const Explanation no_rain = farm().explained("grass", first_of_year + std::chrono::days{5});
  CHECK_THAT(line_of(no_rain, "rain_mm").source, Contains("rain_missing"));
  const Explanation no_tmin = farm().explained("grass", first_of_year + std::chrono::days{6});
  CHECK_THAT(line_of(no_tmin, "tmin_c").source, Contains("carried over from 2015-01-06"));
  const Explanation silent = farm().explained("grass", first_of_year + std::chrono::days{60});
  CHECK_THAT(line_of(silent, "tmax_c").source, Contains("carried over from 2015-03-01"));
  CHECK_THAT(value_text(line_of(silent, "weather")), Contains("nothing"));

  const Explanation start = farm().explained("textbook", first_of_year);
  CHECK(number_of(start, "depletion_before_mm") == Approx(40.0));
  CHECK_THAT(line_of(start, "depletion_before_mm").source, Contains("start_depletion_mm"));
  CHECK_THAT(line_of(start, "kcb").source, !Contains("Eq. 70"));
}

TEST_CASE("a day outside the record is named with the days there are") {
  const auto before = farm().day("grass", first_of_year - std::chrono::days{1});
  REQUIRE(!before);
  CHECK_THAT(before.error(), Contains("2014-12-31") && Contains("2015-01-01 to 2015-12-31"));
  CHECK(!farm().day("grass", 2016y / 1 / 1));
}

TEST_CASE("an explanation fits 80 columns") {
  for (const std::string& field : fields)
    for (int ahead = 0; ahead < 365; ahead += 20) {
      std::istringstream text(
          explanation_text(farm().explained(field, first_of_year + std::chrono::days{ahead})));
      for (std::string line; std::getline(text, line);) {
        INFO(line);
        REQUIRE(code_points(line) <= 80);
      }
    }
  const std::string text = explanation_text(farm().explained("grass", july_6));
  CHECK_THAT(text, Contains("[et0_mm]") && Contains("[suction_topsoil_kpa]") &&
                       Contains("FAO-56 Eq. 84") && Contains("Machine: Quad bike (quad)"));
}

TEST_CASE("an explanation as JSON has the same lines") {
  const Explanation day = farm().explained("grass", july_6);
  const auto json = nlohmann::json::parse(explanation_json(day));
  CHECK(json["field"] == "grass");
  CHECK(json["date"] == "2015-07-06");
  CHECK(json["so_far"] == false);
  REQUIRE(json["sections"].size() == day.sections.size());
  for (std::size_t s = 0; s < day.sections.size(); ++s) {
    REQUIRE(json["sections"][s]["lines"].size() == day.sections[s].lines.size());
    for (std::size_t l = 0; l < day.sections[s].lines.size(); ++l) {
      const ExplanationLine& line = day.sections[s].lines[l];
      const auto& shown = json["sections"][s]["lines"][l];
      CHECK(shown["key"] == line.key);
      if (const auto* number = std::get_if<double>(&line.value))
        CHECK(shown["value"].get<double>() == *number);
      CHECK(shown.contains("equation") == !line.equation.empty());
    }
  }
}

}  // namespace gley::daemon
