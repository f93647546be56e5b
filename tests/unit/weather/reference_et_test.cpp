#include "model/weather/reference_et.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "model/weather/sun_path.hpp"

// What each fallback takes and flags. Expected values are worked out here with the C library.
namespace gley::model {
namespace {

using namespace std::chrono_literals;
using enum DayFlag;

constexpr std::chrono::sys_days july_6 = 2015y / 7 / 6;
constexpr std::chrono::sys_days december_15 = 2015y / 12 / 15;

/// FAO-56 Example 18 (p. 72), Uccle.
const Site uccle{.latitude_deg = 50.8, .elevation_m = 100.0, .wind_height_m = 10.0};

DailyWeather uccle_day() {
  DailyWeather day;
  day.tmin_c = 12.3;
  day.tmax_c = 21.5;
  day.rh_min_pct = 63.0;
  day.rh_max_pct = 84.0;
  day.wind_m_s = 10.0 / 3.6;
  day.sun_h = 9.25;
  return day;
}

double saturation_kpa(double t_c) {
  return 0.6108 * std::exp(17.27 * t_c / (t_c + 237.3));
}

ReferenceEt uccle_et(const DailyWeather& day) {
  return reference_et(uccle, july_6, day);
}

DailyWeather without_humidity() {
  DailyWeather day = uccle_day();
  day.rh_min_pct.reset();
  day.rh_max_pct.reset();
  return day;
}

}  // namespace

TEST_CASE("a day with all measured carries no flag") {
  CHECK(uccle_et(uccle_day()).flags == DayFlags{});
}

TEST_CASE("vapour pressure follows the order of FAO-56 Box 7") {
  DailyWeather day = without_humidity();
  day.rh_mean_pct = 70.0;
  const double es_kpa = (saturation_kpa(12.3) + saturation_kpa(21.5)) / 2.0;
  CHECK(uccle_et(day).ea_kpa == Approx(0.7 * es_kpa).epsilon(1e-12));  // Eq. 19
  day.rh_max_pct = 90.0;
  CHECK(uccle_et(day).ea_kpa == Approx(0.9 * saturation_kpa(12.3)).epsilon(1e-12));  // Eq. 18
  day.rh_min_pct = 50.0;
  CHECK(uccle_et(day).ea_kpa ==
        Approx((0.9 * saturation_kpa(12.3) + 0.5 * saturation_kpa(21.5)) / 2.0)
            .epsilon(1e-12));  // Eq. 17
  day.dew_point_c = 11.0;
  CHECK(uccle_et(day).ea_kpa == Approx(saturation_kpa(11.0)).epsilon(1e-12));  // Eq. 14
  CHECK(uccle_et(day).flags == DayFlags{});
}

TEST_CASE("without humidity the dew point is Tmin, flagged") {
  const ReferenceEt et = uccle_et(without_humidity());
  CHECK(et.ea_kpa == Approx(saturation_kpa(12.3)).epsilon(1e-12));
  CHECK(et.flags.has(humidity_estimated));
}

TEST_CASE("without humidity a known offset gives the dew point, above Tmin too, flagged") {
  Site site = uccle;
  site.dew_point_offset_c = -3.0;  // Tmean 16.9: dew point 13.9, Tmin 12.3
  const ReferenceEt et = reference_et(site, july_6, without_humidity());
  CHECK(et.ea_kpa == Approx(saturation_kpa(13.9)).epsilon(1e-12));
  CHECK(et.flags.has(humidity_estimated));
  CHECK_FALSE(reference_et(site, july_6, uccle_day()).flags.has(humidity_estimated));
}

TEST_CASE("a humidity sensor over 100 % counts as 100, one at 0 as absent") {
  DailyWeather day = without_humidity();
  day.rh_max_pct = 101.6;
  CHECK(uccle_et(day).ea_kpa == Approx(saturation_kpa(12.3)).epsilon(1e-12));
  CHECK_FALSE(uccle_et(day).flags.has(humidity_estimated));
  day.rh_max_pct = 0.0;
  CHECK(uccle_et(day).flags.has(humidity_estimated));
}

TEST_CASE("the least humidity is the measured one, else from the vapour pressure") {
  CHECK(uccle_et(uccle_day()).rh_min_pct == 63.0);
  DailyWeather day = without_humidity();
  day.dew_point_c = 10.0;
  CHECK(uccle_et(day).rh_min_pct ==
        Approx(100.0 * saturation_kpa(10.0) / saturation_kpa(21.5)).epsilon(1e-12));  // Eq. 63
  day.dew_point_c = 22.0;
  CHECK(uccle_et(day).rh_min_pct == 100.0);
}

TEST_CASE("wind is brought from its height to 2 m") {
  // Example 18, p. 72: 10 km/h at 10 m is 2.078 m/s at 2 m.
  CHECK(uccle_et(uccle_day()).u2_m_s == Approx(2.078).margin(0.0005));
  Site site = uccle;
  site.wind_height_m = 2.0;
  DailyWeather day = uccle_day();
  day.wind_m_s = 3.0;
  CHECK(reference_et(site, july_6, day).u2_m_s == 3.0);
}

TEST_CASE("without wind 2 m/s is taken and flagged, calm is at least 0.5 and is not") {
  DailyWeather day = uccle_day();
  day.wind_m_s.reset();
  CHECK(uccle_et(day).u2_m_s == 2.0);
  CHECK(uccle_et(day).flags.has(wind_estimated));
  day.wind_m_s = 0.1;
  CHECK(uccle_et(day).u2_m_s == 0.5);
  CHECK_FALSE(uccle_et(day).flags.has(wind_estimated));
}

TEST_CASE("radiation is measured, else from sunshine, else from temperatures and flagged") {
  DailyWeather day = uccle_day();
  day.solar_mj_m2 = 20.0;
  CHECK(uccle_et(day).rs_mj_m2 == 20.0);
  day.solar_mj_m2.reset();
  const ReferenceEt sunny = uccle_et(day);
  CHECK(sunny.rs_mj_m2 == Approx(22.07).margin(0.005));  // Example 18, p. 72
  CHECK(sunny.flags == DayFlags{});
  day.sun_h.reset();
  const ReferenceEt et = uccle_et(day);
  CHECK(et.rs_mj_m2 == Approx(0.16 * std::sqrt(9.2) * et.ra_mj_m2).epsilon(1e-12));  // Eq. 50
  CHECK(et.flags.has(radiation_estimated));
}

TEST_CASE("radiation from temperatures is not above a clear sky's") {
  DailyWeather day = uccle_day();
  day.sun_h.reset();
  day.tmin_c = 5.0;
  day.tmax_c = 35.0;  // 0.16 sqrt(30) = 0.88 of Ra
  const ReferenceEt et = uccle_et(day);
  CHECK(et.rs_mj_m2 == et.rso_mj_m2);
  CHECK(et.flags.has(radiation_estimated));
}

TEST_CASE("measured radiation well over a clear sky's is doubtful, and never above Ra") {
  DailyWeather day = uccle_day();
  const ReferenceEt clear = uccle_et(day);
  day.solar_mj_m2 = 1.09 * clear.rso_mj_m2;
  CHECK_FALSE(uccle_et(day).flags.has(radiation_doubtful));
  day.solar_mj_m2 = 1.2 * clear.rso_mj_m2;
  CHECK(uccle_et(day).flags.has(radiation_doubtful));
  CHECK(uccle_et(day).rs_mj_m2 == 1.2 * clear.rso_mj_m2);
  day.solar_mj_m2 = 250.0;  // W/m2 taken for MJ
  CHECK(uccle_et(day).flags.has(radiation_doubtful));
  CHECK(uccle_et(day).rs_mj_m2 == clear.ra_mj_m2);
}

TEST_CASE("half a megajoule over a winter's clear sky is not yet doubtful") {
  const Site north{.latitude_deg = 62.0};
  DailyWeather day = uccle_day();
  day.sun_h.reset();
  day.solar_mj_m2 = reference_et(north, december_15, day).rso_mj_m2 + 0.45;
  CHECK_FALSE(reference_et(north, december_15, day).flags.has(radiation_doubtful));
  *day.solar_mj_m2 += 0.1;
  CHECK(reference_et(north, december_15, day).flags.has(radiation_doubtful));
}

TEST_CASE("sunshine longer than the day is doubtful and taken as the whole day") {
  DailyWeather day = uccle_day();
  day.sun_h = 16.1;  // N is 16.1046
  CHECK_FALSE(uccle_et(day).flags.has(radiation_doubtful));
  day.sun_h = 17.0;
  const ReferenceEt et = uccle_et(day);
  CHECK(et.flags.has(radiation_doubtful));
  CHECK(et.rs_mj_m2 == Approx(0.75 * et.ra_mj_m2).epsilon(1e-12));
}

TEST_CASE("negative radiation, sunshine and wind count as not measured") {
  DailyWeather day = uccle_day();
  day.solar_mj_m2 = -1.0;
  day.sun_h = -0.1;
  day.wind_m_s = -2.0;
  CHECK(uccle_et(day).flags.has(radiation_estimated));
  CHECK(uccle_et(day).flags.has(wind_estimated));
}

TEST_CASE("net longwave radiation of a dull day is that of Rs/Rso 0.3") {
  DailyWeather day = uccle_day();
  day.solar_mj_m2 = 0.0;
  const ReferenceEt dull = uccle_et(day);
  day.solar_mj_m2 = dull.rso_mj_m2;
  const ReferenceEt clear = uccle_et(day);
  CHECK(dull.rnl_mj_m2 / clear.rnl_mj_m2 == Approx(1.35 * 0.3 - 0.35).epsilon(1e-9));
}

TEST_CASE("the polar night has no sun and a finite ET0") {
  const Site svalbard{.latitude_deg = 78.2};
  DailyWeather day = without_humidity();
  day.tmin_c = -20.0;
  day.tmax_c = -12.0;
  day.sun_h = 0.0;
  const ReferenceEt et = reference_et(svalbard, december_15, day);
  CHECK(et.ra_mj_m2 == 0.0);
  CHECK(et.daylight_h == 0.0);
  CHECK(et.rs_mj_m2 == 0.0);
  const double emitted = 4.903e-9 * (std::pow(253.16, 4) + std::pow(261.16, 4)) / 2.0;
  CHECK(et.rnl_mj_m2 ==  // Eq. 39 with Rs/Rso taken as 1
        Approx(emitted * (0.34 - 0.14 * std::sqrt(saturation_kpa(-20.0)))).epsilon(1e-12));
  CHECK(std::isfinite(et.penman_monteith_mm));
}

TEST_CASE("the polar day has 24 hours of sun") {
  const SunPath sun = sun_path({.latitude_deg = 78.2, .day_of_year = 172});
  CHECK(sun.daylight_h == 24.0);
  // Eq. 21 with the sunset angle at pi: 24 * 60 * 0.0820 dr sin(latitude) sin(declination).
  const double year_angle = 2.0 * M_PI * 172.0 / 365.0;
  const double dr = 1.0 + 0.033 * std::cos(year_angle);
  const double declination = 0.409 * std::sin(year_angle - 1.39);
  CHECK(sun.ra_mj_m2 ==
        Approx(24.0 * 60.0 * 0.0820 * dr * std::sin(78.2 * M_PI / 180.0) * std::sin(declination))
            .epsilon(1e-12));
}

TEST_CASE("every latitude and day has a finite sun") {
  for (int latitude = -90; latitude <= 90; latitude += 5) {
    for (int day = 1; day <= 366; ++day) {
      const SunPath sun = sun_path({.latitude_deg = double(latitude), .day_of_year = day});
      CAPTURE(latitude, day);
      REQUIRE(sun.ra_mj_m2 >= 0.0);
      REQUIRE(sun.ra_mj_m2 < 50.0);
      REQUIRE(sun.daylight_h >= 0.0);
      REQUIRE(sun.daylight_h <= 24.0);
    }
  }
}

TEST_CASE("the last day of a leap year is day 366") {
  const SunPath sun = sun_path({.latitude_deg = 50.8, .day_of_year = 366});
  CHECK(reference_et(uccle, 2016y / 12 / 31, uccle_day()).ra_mj_m2 == sun.ra_mj_m2);
}

TEST_CASE("a given ET0 is used and the other terms are still there") {
  DailyWeather day = uccle_day();
  day.et0_mm = 4.4;
  const ReferenceEt et = uccle_et(day);
  CHECK(et.et0_mm == 4.4);
  CHECK(et.flags.has(et0_given));
  CHECK(et.penman_monteith_mm == Approx(3.88).margin(0.005));  // Example 18, p. 73
}

TEST_CASE("a given ET0 needs no temperatures") {
  DailyWeather day;
  day.et0_mm = 3.0;
  const ReferenceEt bare = uccle_et(day);
  CHECK(bare.et0_mm == 3.0);
  CHECK(bare.rh_min_pct == 45.0);
  CHECK(bare.u2_m_s == 2.0);
  CHECK(bare.flags.has(temperature_missing));
  CHECK(bare.flags.has(wind_estimated));
  CHECK_FALSE(bare.flags.has(et0_missing));
  day.wind_m_s = 4.0;
  day.rh_min_pct = 35.0;
  CHECK(uccle_et(day).u2_m_s == Approx(4.0 * 0.748).margin(0.001));  // Table 2.9, p. 222
  CHECK(uccle_et(day).rh_min_pct == 35.0);
}

TEST_CASE("without temperatures and ET0 the day's ET0 is missing") {
  DailyWeather day;
  day.tmax_c = 20.0;
  const ReferenceEt et = uccle_et(day);
  CHECK(et.et0_mm == 0.0);
  CHECK(et.flags.has(et0_missing));
  CHECK(et.flags.has(temperature_missing));
}

TEST_CASE("a day that Eq. 6 calls negative loses nothing, flagged") {
  DailyWeather day;
  day.tmin_c = -1.0;
  day.tmax_c = 0.5;
  day.dew_point_c = 0.4;  // moist air over cold ground
  day.wind_m_s = 3.0;
  day.solar_mj_m2 = 0.3;
  const ReferenceEt et = reference_et({.latitude_deg = 60.0}, december_15, day);
  CHECK(et.penman_monteith_mm < 0.0);
  CHECK(et.et0_mm == 0.0);
  CHECK(et.flags.has(et0_negative));
}

}  // namespace gley::model
