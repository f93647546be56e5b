// ET0 from sun, wind and temperatures against the Penman-Monteith evaporation that Met Eireann
// publishes for Shannon and Dublin Airport (Copyright Met Eireann, CC BY 4.0), and against that of
// Spen Farm from measured net radiation (UK Centre for Ecology & Hydrology, not passed on).
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "daemon/readings/weather_csv.hpp"
#include "model/weather/reference_et.hpp"
#include "tests/measured/model_run.hpp"
#include "tests/measured/score_table.hpp"

using namespace gley;
using namespace gley::measured;

namespace {

struct Station {
  std::string name;
  model::Site site;
};

const Station shannon{"Shannon Airport",
                      {.latitude_deg = 52.690, .elevation_m = 15.0, .wind_height_m = 10.0}};
const Station dublin{"Dublin Airport",
                     {.latitude_deg = 53.428, .elevation_m = 71.0, .wind_height_m = 10.0}};

Series et0_of(const model::Site& site, const Weather& weather) {
  Series out;
  for (const auto& [date, day] : weather) out[date] = model::reference_et(site, date, day).et0_mm;
  return out;
}

double bias_share(const Scores& s) {
  return s.bias / s.mean;
}

Scores judge(const std::string& name, const Series& published, const Series& own) {
  const Scores ours = scores(published, own);
  print_scores(name, ours, Unit::mm);
  return ours;
}

/// The one number that stands for humidity where none is measured: the offset of the dew point from
/// the day's mean, to a tenth of a degree, by which a year's ET0 comes nearest to that published.
double learned_offset_c(const model::Site& site, const Weather& year, const Series& published) {
  double best_c = 0.0;
  double least_gap = INFINITY;
  for (int tenths = -60; tenths <= 0; ++tenths) {
    model::Site trial = site;
    trial.dew_point_offset_c = tenths / 10.0;
    const double gap = std::abs(scores(published, et0_of(trial, year)).bias);
    if (gap < least_gap) {
      least_gap = gap;
      best_c = tenths / 10.0;
    }
  }
  return best_c;
}

struct Judged {
  Scores by_tmin;
  Scores by_offset;  ///< learned from the first year, scored on the rest
};

Judged judge_station(const Station& station, const Weather& weather, const Series& published) {
  print_heading(station.name + ", ET0 by sun, wind and temperatures, mm/day");
  Judged judged;
  judged.by_tmin = judge("Gley, Tmin for the dew point", published, et0_of(station.site, weather));
  judge("day-of-year climatology", published, climatology(published, published));

  const Date turn = weather.begin()->first + std::chrono::days{365};
  const Weather first_year{weather.begin(), weather.lower_bound(turn)};
  const Series rest{published.lower_bound(turn), published.end()};
  model::Site learned = station.site;
  learned.dew_point_offset_c =
      learned_offset_c(station.site, first_year, {published.begin(), published.lower_bound(turn)});
  judge("Gley, the same, after the first year", rest, et0_of(station.site, weather));
  judged.by_offset =
      judge("Gley, learned offset " + std::to_string(*learned.dew_point_offset_c).substr(0, 4),
            rest, et0_of(learned, weather));
  std::printf("    bias %+.1f %% of the mean, with the learned offset %+.1f %%\n",
              100.0 * bias_share(judged.by_tmin), 100.0 * bias_share(judged.by_offset));
  return judged;
}

Judged ten_years(const Station& station, const std::string& file) {
  const std::string stem = GLEY_TEST_DATA "/met-eireann/" + file + "-2010-2019";
  return judge_station(station, daemon::read_weather_csv(stem + ".csv").days,
                       Table(stem + "-published.csv").column("pe_mm"));
}

Judged all_years(const Station& station, const std::filesystem::path& file) {
  const Table table(file);
  Weather weather;
  for (const Date date : table.dates()) {
    model::DailyWeather& day = weather[date];
    day.tmin_c = table.at("tmin_c", date);
    day.tmax_c = table.at("tmax_c", date);
    day.wind_m_s = table.at("wind10m_ms", date);
    day.sun_h = table.at("sun_h", date);
    day.solar_mj_m2 = table.at("globrad_mj_m2", date);
  }
  return judge_station(station, weather, table.column("pe_mm"));
}

void check_shannon(const Judged& judged) {
  CHECK(judged.by_tmin.r > 0.94);
  CHECK(judged.by_tmin.rmse < 0.40);
  CHECK(std::abs(bias_share(judged.by_tmin)) < 0.12);
  CHECK(judged.by_offset.r > 0.96);
  CHECK(judged.by_offset.rmse < 0.33);
  CHECK(std::abs(bias_share(judged.by_offset)) < 0.03);
}

void check_dublin(const Judged& judged) {
  CHECK(judged.by_tmin.r > 0.92);
  CHECK(judged.by_tmin.rmse < 0.53);
  CHECK(judged.by_offset.r > 0.95);
  CHECK(judged.by_offset.rmse < 0.35);
  CHECK(std::abs(bias_share(judged.by_offset)) < 0.05);
}

}  // namespace

TEST_CASE("ET0 follows the published Penman-Monteith at Shannon and Dublin over ten years") {
  check_shannon(ten_years(shannon, "shannon-airport"));
  check_dublin(ten_years(dublin, "dublin-airport"));
}

TEST_CASE("ET0 follows the published Penman-Monteith at Shannon and Dublin since 1979") {
  const auto at_shannon = shared_file("met-eireann/shannon-airport.csv");
  const auto at_dublin = shared_file("met-eireann/dublin-airport.csv");
  if (at_shannon) check_shannon(all_years(shannon, *at_shannon));
  if (at_dublin) check_dublin(all_years(dublin, *at_dublin));
}

TEST_CASE("ET0 without radiation follows that from measured net radiation at Spen Farm") {
  const auto file = shared_file("spen-farm/spen-farm.csv");
  if (!file) return;
  const Table table(*file);
  Weather weather;
  for (const Date date : table.dates()) {
    model::DailyWeather& day = weather[date];
    day.tmin_c = table.at("tmin_c", date);
    day.tmax_c = table.at("tmax_c", date);
    day.rh_mean_pct = table.at("rh_mean_pct", date);
    day.wind_m_s = table.at("wind2m_ms", date);
  }
  const model::Site site{.latitude_deg = 53.87, .elevation_m = 57.0, .wind_height_m = 2.0};
  const Series& published = table.column("pe_mm");
  print_heading("Spen Farm, ET0 by temperatures, humidity and wind, mm/day");
  const Scores ours = judge("Gley, radiation by Tmin and Tmax", published, et0_of(site, weather));
  judge("day-of-year climatology", published, climatology(published, published));
  CHECK(ours.r > 0.95);
  CHECK(ours.rmse < 0.38);
}
