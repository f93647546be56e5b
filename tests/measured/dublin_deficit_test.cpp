// The deficits that Met Eireann computes for grass at Dublin Airport, by drainage class (Schulte et
// al. 2005, Irish J. Agric. Food Res. 44:95-110): another calculation, not a measurement. Copyright
// Met Eireann, CC BY 4.0.
#include <catch2/catch.hpp>

#include "daemon/farm/field_setup.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "tests/measured/model_run.hpp"
#include "tests/measured/score_table.hpp"

using namespace gley;
using namespace gley::measured;

namespace {

constexpr Place dublin_airport{
    .latitude = 53.428, .longitude = -6.241, .elevation_m = 71.0, .wind_height_m = 10.0};

struct Record {
  Weather weather;
  Table published;
};

/// Ten years that may be passed on, with the service's own Penman-Monteith as ET0.
Record ten_years() {
  const daemon::WeatherFile file =
      daemon::read_weather_csv(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019.csv");
  Record record{file.days,
                Table(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019-published.csv")};
  for (auto& [date, day] : record.weather) day.et0_mm = record.published.at("pe_mm", date);
  return record;
}

Record all_years(const std::filesystem::path& file) {
  Record record{{}, Table(file)};
  for (const Date date : record.published.dates()) {
    model::DailyWeather& day = record.weather[date];
    day.rain_mm = record.published.at("rain_mm", date);
    day.tmin_c = record.published.at("tmin_c", date);
    day.tmax_c = record.published.at("tmax_c", date);
    day.wind_m_s = record.published.at("wind10m_ms", date);
    day.sun_h = record.published.at("sun_h", date);
    day.et0_mm = record.published.at("pe_mm", date);
  }
  return record;
}

/// The station's lawn on the fine loamy till of the region (from general knowledge).
daemon::FieldConfig lawn(daemon::DrainageClass drainage) {
  daemon::FieldConfig field;
  field.soil = daemon::SoilByClass{"clay loam"};
  field.drainage = drainage;
  field.crop = std::string("grass");
  return field;
}

struct Judged {
  Scores scores;
  CapacityScores capacity;
};

Judged judge_one(const std::string& name, const Series& published, const Series& net_mm,
                 const Series& short_mm) {
  Judged judged{scores(published, net_mm), capacity_scores(published, short_mm)};
  print_scores(name, judged.scores, Unit::mm);
  print_capacity(name, judged.capacity);
  return judged;
}

Judged judge(const std::string& name, const Series& published, const daemon::FieldConfig& field,
             const Weather& weather) {
  print_heading(name + ", mm below field capacity");
  const auto days = run_field(dublin_airport, field, weather);
  const Series short_mm = depletion_mm(days);
  const Judged ours = judge_one("Gley", published, net_deficit_mm(days), short_mm);
  const Series seasonal = climatology(published, published);
  judge_one("day-of-year climatology", published, seasonal, seasonal);
  const Series bucket = single_bucket_mm(weather, days.front().stand.total_available_mm);
  const Judged empty = judge_one("one bucket, ET = PE until empty", published, bucket, bucket);
  daemon::FieldConfig plain = field;
  plain.textbook = true;
  const Series one_store = depletion_mm(run_field(dublin_airport, plain, weather));
  const Judged fao56 = judge_one("plain FAO-56, one bucket", published, one_store, one_store);
  print_losses("one bucket", empty.scores, ours.scores);
  print_losses("plain FAO-56", fao56.scores, ours.scores);
  if (days.size() < 4000) print_turns(published, short_mm);
  return ours;
}

struct ByClass {
  Judged well;
  Judged moderate;
  Judged poor;
};

/// The three published classes. A poorly drained soil has little room over field capacity, as a
/// clay.
ByClass judge_all(const std::string& years, const Record& record) {
  using daemon::DrainageClass;
  const Table& table = record.published;
  const std::string place = "Dublin Airport " + years + ", ";
  ByClass judged;
  judged.well = judge(place + "well drained", table.column("smd_wd_mm"), lawn(DrainageClass::free),
                      record.weather);
  daemon::FieldConfig poor = lawn(DrainageClass::poor);
  poor.soil = daemon::SoilByClass{"clay"};
  judged.poor =
      judge(place + "poorly drained, clay", table.column("smd_pd_mm"), poor, record.weather);
  judged.moderate = judge(place + "moderately drained", table.column("smd_md_mm"),
                          lawn(DrainageClass::moderate), record.weather);
  return judged;
}

void check_floors(const ByClass& judged) {
  const auto& [well, moderate, poor] = judged;
  CHECK(moderate.scores.r > 0.94);
  CHECK(moderate.scores.rmse < 9.4);
  CHECK(moderate.capacity.hit_rate > 0.93);
  CHECK(moderate.capacity.false_alarm_rate < 0.01);
  CHECK(moderate.capacity.false_alarm_ratio < 0.02);
  CHECK(well.scores.r > 0.94);
  CHECK(well.capacity.hit_rate > 0.93);
  CHECK(well.capacity.false_alarm_rate < 0.01);
  CHECK(poor.scores.r > 0.95);
  CHECK(poor.capacity.hit_rate > 0.94);
  CHECK(poor.capacity.false_alarm_rate < 0.095);
}

}  // namespace

TEST_CASE("A lawn's deficit follows the one published for Dublin Airport over ten years") {
  check_floors(judge_all("2010-2019", ten_years()));
}

TEST_CASE("A lawn's deficit follows the one published for Dublin Airport since 1979") {
  const auto file = shared_file("met-eireann/dublin-airport.csv");
  if (file) check_floors(judge_all("1979-2025", all_years(*file)));
}
