// Measured soil moisture of an arable field in Yorkshire (Spen Farm, 2016-11-24 to 2018-12-31):
// data supplied by the UK Centre for Ecology & Hydrology (COSMOS-UK; Cooper et al. 2021, Earth
// Syst. Sci. Data 13, 1737-1757). The file may not be passed on: it is read where it lies.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>

#include "daemon/farm/field_setup.hpp"
#include "tests/measured/model_run.hpp"
#include "tests/measured/score_table.hpp"

using namespace gley;
using namespace gley::measured;

namespace {

constexpr Place spen_farm{
    .latitude = 53.87, .longitude = -1.33, .elevation_m = 57.0, .wind_height_m = 2.0};
constexpr double probed_mm = 200.0;

struct Record {
  Weather weather;
  Series neutron;  ///< m3/m3, the top 13 to 22 cm of the whole field
  Series buried;   ///< m3/m3, mean of the two probes
  Series first_probe;
  Series second_probe;
};

Record read_record(const std::filesystem::path& file) {
  const Table table(file);
  Record record;
  for (const Date date : table.dates()) {
    model::DailyWeather& day = record.weather[date];
    day.rain_mm = table.at("rain_mm", date);
    day.tmin_c = table.at("tmin_c", date);
    day.tmax_c = table.at("tmax_c", date);
    day.rh_mean_pct = table.at("rh_mean_pct", date);
    day.wind_m_s = table.at("wind2m_ms", date);
    day.et0_mm = table.at("pe_mm", date);  // Penman-Monteith from measured net radiation
    if (table.at("snow_day", date).value_or(0.0) > 0.0) continue;  // moisture unreliable
    if (const auto pct = table.at("cosmos_vwc_pct", date)) record.neutron[date] = *pct / 100.0;
    const auto first = table.at("tdt1_vwc_pct", date);
    const auto second = table.at("tdt2_vwc_pct", date);
    if (first) record.first_probe[date] = *first / 100.0;
    if (second) record.second_probe[date] = *second / 100.0;
    if (first && second) record.buried[date] = (*first + *second) / 200.0;
  }
  return record;
}

/// A loam over limestone, which drains freely; arable with unknown crops: winter wheat every year,
/// the commonest arable crop of the region.
daemon::FieldConfig arable_field() {
  daemon::FieldConfig field;
  field.soil = daemon::SoilByClass{"clay loam"};  // where a loam of 20 % clay falls in our classes
  field.drainage = daemon::DrainageClass::free;
  field.crop = std::string("winter wheat");
  return field;
}

double topsoil_capacity(const daemon::FieldConfig& field) {
  return daemon::field_of(field).parameters.soil.horizon[0].field_capacity;
}

/// Plain FAO-56 in one bucket: the water content of the whole root zone.
Series plain_fao56(daemon::FieldConfig field, const Weather& weather) {
  field.textbook = true;
  Series out;
  for (const model::FieldDay& day : run_field(spen_farm, field, weather))
    out[day.date] = topsoil_capacity(field) - day.depletion_mm / day.stand.root_depth_mm;
  return out;
}

Series emptying_bucket(const daemon::FieldConfig& field, const Weather& weather) {
  constexpr double depth_mm = 1200.0;  // roots of winter wheat, config/crops.toml
  const model::Horizon soil = daemon::field_of(field).parameters.soil.horizon[0];
  Series out;
  const double capacity_mm = (soil.field_capacity - soil.wilting_point) * depth_mm;
  for (const auto& [date, deficit_mm] : single_bucket_mm(weather, capacity_mm))
    out[date] = soil.field_capacity - deficit_mm / depth_mm;
  return out;
}

/// `known` is what the climatology may learn from.
Scores judge(const std::string& name, const Series& measured, const Series& known,
             const daemon::FieldConfig& field, const Weather& weather) {
  print_heading(name + ", water content of 0-200 mm, m3/m3");
  const Series own = top_200_mm(field, run_field(spen_farm, field, weather));
  const Scores ours = scores(measured, own);
  print_scores("Gley", ours, Unit::m3_m3);
  const std::pair<const char*, Series> naive[] = {
      {"day-of-year climatology", climatology(known, measured)},
      {"one bucket, ET = PE until empty", emptying_bucket(field, weather)},
      {"plain FAO-56, one bucket", plain_fao56(field, weather)}};
  for (const auto& [model, series] : naive)
    print_scores(model, scores(measured, series), Unit::m3_m3);
  for (const auto& [model, series] : naive) print_losses(model, scores(measured, series), ours);
  return ours;
}

/// Field capacity as the first winter shows it, the median of December to February; wilting point
/// the lowest of the first year, or the class's available water below if it never got so dry.
daemon::FieldConfig field_read_from(const Series& first_year) {
  daemon::FieldConfig field = arable_field();
  const model::Horizon of_class = daemon::field_of(field).parameters.soil.horizon[0];
  std::vector<double> winter;
  double lowest = 1.0;
  for (const auto& [date, value] : first_year) {
    const unsigned month{std::chrono::year_month_day{date}.month()};
    if (month == 12 || month <= 2) winter.push_back(value);
    lowest = std::min(lowest, value);
  }
  std::sort(winter.begin(), winter.end());
  const double capacity = winter[winter.size() / 2];
  const double available = of_class.field_capacity - of_class.wilting_point;
  field.soil =
      daemon::SoilByNumbers{.field_capacity = capacity,
                            .wilting_point = std::min(lowest, capacity - available),
                            .saturation = capacity + of_class.saturation - of_class.field_capacity,
                            .clay_pct = 20.0};
  return field;
}

Series deficit_mm(const Series& water, double field_capacity) {
  Series out;
  for (const auto& [date, theta] : water) out[date] = (field_capacity - theta) * probed_mm;
  return out;
}

std::string to_3_digits(double value) {
  char text[16];
  std::snprintf(text, sizeof text, "%.3f", value);
  return text;
}

Scores judge_after_first_year(const std::string& name, const Series& measured,
                              const Weather& weather) {
  const Date turn = measured.begin()->first + std::chrono::days{365};
  const Series rest{measured.lower_bound(turn), measured.end()};
  const Series first_year{measured.begin(), measured.lower_bound(turn)};
  const daemon::FieldConfig field = field_read_from(first_year);
  const auto& soil = std::get<daemon::SoilByNumbers>(field.soil);
  const Scores ours = judge(name + ", after the first year, with its field capacity " +
                                to_3_digits(soil.field_capacity) + " and wilting point " +
                                to_3_digits(soil.wilting_point),
                            rest, first_year, field, weather);
  const Series own = top_200_mm(field, run_field(spen_farm, field, weather));
  const Series wanted_mm = deficit_mm(rest, soil.field_capacity);
  const Series own_mm = deficit_mm(own, soil.field_capacity);
  print_capacity("Gley", capacity_scores(wanted_mm, own_mm));
  print_turns(wanted_mm, own_mm);
  return ours;
}

}  // namespace

TEST_CASE("An arable field's water follows a neutron sensor and buried probes at Spen Farm") {
  const auto file = shared_file("spen-farm/spen-farm.csv");
  if (!file) return;
  const Record record = read_record(*file);
  REQUIRE(record.weather.size() == 768);

  const Scores neutron = judge("Spen Farm, neutron sensor", record.neutron, record.neutron,
                               arable_field(), record.weather);
  CHECK(neutron.r > 0.935);
  CHECK(neutron.ubrmse < 0.0215);
  const Scores buried = judge("Spen Farm, buried probes", record.buried, record.buried,
                              arable_field(), record.weather);
  CHECK(buried.r > 0.855);
  CHECK(buried.ubrmse < 0.0315);
  judge("Spen Farm, first buried probe", record.first_probe, record.first_probe, arable_field(),
        record.weather);
  judge("Spen Farm, second buried probe", record.second_probe, record.second_probe, arable_field(),
        record.weather);

  const Scores later_neutron =
      judge_after_first_year("Spen Farm, neutron sensor", record.neutron, record.weather);
  CHECK(later_neutron.r > 0.94);
  CHECK(later_neutron.ubrmse < 0.0230);
  const Scores later_buried =
      judge_after_first_year("Spen Farm, buried probes", record.buried, record.weather);
  CHECK(later_buried.r > 0.95);
  CHECK(later_buried.ubrmse < 0.0220);
}
