// A textbook field against the plain FAO-56 bucket, written here on its own from the paper's
// equations, over ten years of the record of Dublin Airport (Met Eireann, CC BY 4.0).
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>

#include "daemon/engine/fields/field_book.hpp"
#include "daemon/readings/weather_csv.hpp"

using namespace gley;
using namespace gley::daemon;

namespace {

struct BucketDay {
  double evaporation_mm, transpiration_mm, percolation_mm, depletion_mm, surface_depletion_mm;
};

/// FAO-56 chapters 7 and 8 in one store: Eq. 71-79 for the surface, 80-88 for the root zone.
struct Bucket {
  double taw, p_table, kcb, cover, height, tew, rew;
  double dr = 0.0, de = 0.0;

  BucketDay step(double rain, double et0, double u2, double rh_min) {
    const double climate = 0.04 * (std::max(0.5, u2) - 2.0) - 0.004 * (rh_min - 45.0);
    const double kc_max = std::max(1.2 + climate * std::pow(height / 3.0, 0.3), kcb + 0.05);
    const double few = std::min(1.0 - cover, 1.0);
    const double de_start = std::max(de - rain, 0.0);
    const double kr = de_start <= rew ? 1.0 : (tew - de_start) / (tew - rew);
    const double ke = std::min(kr * (kc_max - kcb), few * kc_max);
    const double p = std::clamp(p_table + 0.04 * (5.0 - (kcb + ke) * et0), 0.1, 0.8);
    const double dr_start = std::max(dr - rain, 0.0);
    const double ks = dr_start > p * taw ? (taw - dr_start) / ((1.0 - p) * taw) : 1.0;
    double e = ke * et0;
    double t = ks * kcb * et0;
    const double over = std::max(0.0, dr - rain + e + t - taw);
    e -= std::min(e, over);
    t -= std::max(0.0, over - ke * et0);
    const double dp = std::max(0.0, rain - e - t - dr);
    dr = dr - rain + e + t + dp;
    const double dpe = std::max(0.0, rain - de);
    de = std::clamp(de - rain + e / few + dpe, 0.0, tew);
    return {e, t, dp, dr, de};
  }
};

FarmConfig dublin() {
  FarmConfig farm;
  farm.id = "textbook";
  farm.latitude = 53.428;
  farm.longitude = -6.241;
  farm.elevation_m = 71.0;
  farm.time_zone = "Europe/Dublin";
  StationConfig station;
  station.id = "airport";
  station.wind_height_m = 10.0;
  farm.stations.push_back(station);
  return farm;
}

FieldConfig textbook_field(double root_depth_mm) {
  FieldConfig field;
  field.id = "plain";
  field.stations = {"airport"};
  field.soil = SoilByNumbers{
      .field_capacity = 0.36, .wilting_point = 0.20, .saturation = 0.48, .clay_pct = {}};
  field.crop = CropByNumbers{.kcb = 0.95,
                             .cover = 0.9,
                             .height_m = 0.12,
                             .root_depth_mm = root_depth_mm,
                             .depletion_fraction = 0.5};
  field.textbook = true;
  field.rew_mm = 9.0;
  field.tew_mm = 26.0;
  return field;
}

}  // namespace

TEST_CASE("A textbook field equals a plain FAO-56 bucket over ten years at Dublin Airport") {
  // Root depths on a layer's edge, inside a layer, and below the default profile.
  const double root_depth_mm = GENERATE(700.0, 640.0, 330.0, 1500.0);
  CAPTURE(root_depth_mm);
  FarmConfig farm = dublin();
  farm.fields.push_back(textbook_field(root_depth_mm));
  const WeatherFile weather =
      read_weather_csv(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019.csv");
  REQUIRE(weather.problems.empty());
  REQUIRE(weather.days.size() == 3652);

  FieldBook book(farm);
  for (const auto& [date, day] : weather.days)
    book.put("airport", date, {.weather = day, .flags = {}, .complete = true, .loaded = true});
  book.close(weather.days.rbegin()->first);

  Bucket bucket{.taw = 1000.0 * (0.36 - 0.20) * root_depth_mm / 1000.0,
                .p_table = 0.5,
                .kcb = 0.95,
                .cover = 0.9,
                .height = 0.12,
                .tew = 26.0,
                .rew = 9.0};
  double largest = 0.0;
  double driest_mm = 0.0;
  std::size_t i = 0;
  const auto& days = book.weather(0).days();
  book.history(0).each(
      days, {days.front().date, days.back().date}, [&](const model::FieldDay& day) {
        const model::StationDay& met = days[i++];
        const BucketDay want =
            bucket.step(*met.weather.rain_mm, met.et.et0_mm, met.et.u2_m_s, met.et.rh_min_pct);
        for (const double gap :
             {day.fluxes.evaporation_mm - want.evaporation_mm,
              day.fluxes.transpiration_mm - want.transpiration_mm,
              day.fluxes.drainage_mm - want.percolation_mm, day.depletion_mm - want.depletion_mm,
              day.evening.water.surface_depletion_mm - want.surface_depletion_mm})
          largest = std::max(largest, std::abs(gap));
        driest_mm = std::max(driest_mm, want.depletion_mm);
      });
  CHECK(i == 3652);
  CHECK(largest < 1e-9);
  CHECK(driest_mm > 0.5 * bucket.taw);  // the record dries the soil far enough to test the stress
}
