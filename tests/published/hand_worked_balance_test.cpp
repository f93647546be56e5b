// Twenty-four days of a textbook field, from its configuration through the daemon's own day,
// against the equations of FAO-56 (Allen et al. 1998) worked out apart: hand_worked_balance.csv,
// written by hand_worked_balance.py beside it, which names the equation of every column. A reader
// can follow the table line by line with a pocket calculator: a dry surface, rain, irrigation by
// furrows on a quarter of the ground, rain too small to wet it all, stress, percolation.
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>

#include "daemon/farm/field_setup.hpp"

using namespace gley;

namespace {

using Row = std::map<std::string, double>;

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> out;
  std::istringstream stream(line);
  for (std::string cell; std::getline(stream, cell, ',');) out.push_back(cell);
  return out;
}

std::vector<Row> hand_worked() {
  std::ifstream file(GLEY_SOURCE_DIR "/tests/published/hand_worked_balance.csv");
  REQUIRE(file.is_open());
  std::string line;
  std::getline(file, line);
  const std::vector<std::string> names = cells(line);
  std::vector<Row> rows;
  while (std::getline(file, line)) {
    const std::vector<std::string> values = cells(line);
    REQUIRE(values.size() == names.size());
    Row row;
    for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = std::stod(values[i]);
    rows.push_back(row);
  }
  return rows;
}

model::Field textbook_field() {
  daemon::FieldConfig field;
  field.soil = daemon::SoilByNumbers{
      .field_capacity = 0.32, .wilting_point = 0.15, .saturation = 0.46, .clay_pct = {}};
  field.crop = daemon::CropByNumbers{.kcb = 0.95,
                                     .cover = 0.70,
                                     .height_m = 0.4,
                                     .root_depth_mm = 600.0,
                                     .depletion_fraction = 0.50};
  field.textbook = true;
  field.rew_mm = 8.0;
  field.start_depletion_mm = 35.0;
  field.irrigation = daemon::IrrigationConfig{.method = "furrow", .wetted_fraction = 0.25};
  return daemon::field_of(field);
}

model::StationDay weather_of(const Row& row) {
  model::StationDay day;
  day.date = std::chrono::sys_days{std::chrono::year{2026} / 6 / 1} +
             std::chrono::days{static_cast<int>(row.at("day")) - 1};
  day.weather.rain_mm = row.at("rain_mm");
  day.weather.irrigation_mm = row.at("irrigation_mm");
  day.et.et0_mm = row.at("et0_mm");
  day.et.u2_m_s = 2.6;
  day.et.rh_min_pct = 55.0;
  return day;
}

}  // namespace

TEST_CASE("FAO-56 dual coefficient worked by hand over 24 days, by the field's own day") {
  const std::vector<Row> rows = hand_worked();
  REQUIRE(rows.size() == 24);
  const model::Field field = textbook_field();
  model::FieldState state = model::start_of(field, weather_of(rows.front()));
  for (const Row& row : rows) {
    const model::FieldDay day = model::step_field(field, weather_of(row), state);
    const auto want = [&](const char* column) {
      return Approx(row.at(column)).epsilon(0.0).margin(6e-5);  // four decimals are printed
    };
    INFO("day " << row.at("day"));
    CHECK(day.evening.water.wetted_fraction == want("fw"));
    CHECK(day.fluxes.few == want("few"));
    CHECK(day.fluxes.surface_depletion_start_mm == want("de_start_mm"));
    CHECK(day.fluxes.kr == want("kr"));
    CHECK(day.fluxes.ke == want("ke"));
    CHECK(day.fluxes.evaporation_mm == want("evaporation_mm"));
    CHECK(day.fluxes.depletion_fraction == want("p"));
    CHECK(day.fluxes.depletion_start_mm == want("dr_start_mm"));
    CHECK(day.fluxes.ks == want("ks"));
    CHECK(day.fluxes.transpiration_mm == want("transpiration_mm"));
    CHECK(day.fluxes.drainage_mm == want("percolation_mm"));
    CHECK(day.evening.water.surface_depletion_mm == want("de_mm"));
    CHECK(day.depletion_mm == want("dr_mm"));
    CHECK(day.fluxes.runoff_mm == 0.0);
  }
}
