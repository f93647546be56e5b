// Snow and frost against the papers' own forms.
#include "model/water/snow_and_frost.hpp"

#include <array>
#include <catch2/catch.hpp>

using namespace gley::model;

TEST_CASE("Molnau and Bissell (1983): six days of the frost index, worked by hand") {
  const std::array tmean_c{-5.0, -8.0, -8.0, -2.0, 3.0, 6.0};
  const std::array depth_cm{0.0, 0.0, 10.0, 10.0, 2.0, 0.0};
  const std::array want{5.000, 12.850, 18.274, 19.178, 16.591, 10.094};
  double index = 0.0;
  for (std::size_t i = 0; i < want.size(); ++i) {
    index =
        frost_index({.index_before = index, .tmean_c = tmean_c[i], .snow_depth_cm = depth_cm[i]});
    INFO("day " << i + 1);
    CHECK(index == Approx(want[i]).margin(5e-4));
  }
}

TEST_CASE("Kuusisto (1980): 3.5 mm of melt a degree and day, and the heat of the rain") {
  CHECK(melt_potential_mm({.tmean_c = 2.0, .rain_mm = 0.0}) == Approx(7.0));
  CHECK(melt_potential_mm({.tmean_c = -2.0, .rain_mm = 0.0}) == 0.0);
  // 10 mm of rain at 4 degC: 4.19 kJ/kg/K over 334 kJ/kg.
  CHECK(melt_potential_mm({.tmean_c = 4.0, .rain_mm = 10.0}) - 14.0 ==
        Approx(10.0 * 4.0 * 4.19 / 334.0).epsilon(5e-3));
}

TEST_CASE("Snow comes, lies and goes, and its water closes (degree-day method, by hand)") {
  SnowPack pack;
  const auto day = [&](double precipitation_mm, double tmean_c) {
    return step_snow(pack, {.precipitation_mm = precipitation_mm,
                            .et0_mm = 0.0,
                            .temperature = TemperatureRange{tmean_c - 1.0, tmean_c + 1.0}});
  };
  CHECK(day(6.0, -1.0).water_mm == 0.0);
  CHECK(pack.snow_mm == Approx(6.0));
  CHECK(day(4.0, 0.0).covered);
  CHECK(pack.snow_mm == Approx(10.0));
  CHECK(day(0.0, 1.0).water_mm == Approx(3.5));
  CHECK(pack.snow_mm == Approx(6.5));
  CHECK(day(3.0, 3.0).water_mm == Approx(9.5));
  CHECK(pack.snow_mm == Approx(0.0).margin(1e-12));
}

TEST_CASE("FAO-56 p. 209: snow gives off 0.4 mm a day, and no more than ET0") {
  SnowPack pack{.snow_mm = 20.0, .frost_index_c_d = 0.0};
  const auto off = [&](double et0_mm) {
    return step_snow(pack, {.precipitation_mm = 0.0,
                            .et0_mm = et0_mm,
                            .temperature = TemperatureRange{-6.0, -2.0}})
        .snow_evaporation_mm;
  };
  CHECK(off(1.5) == 0.4);
  CHECK(off(0.1) == 0.1);
}

TEST_CASE("English guidance, frozen over 12 of 24 hours: our proxy from the day's extremes") {
  CHECK(counts_as_frozen({.tmin_c = -6.0, .tmax_c = 2.0}));        // mean -2
  CHECK(counts_as_frozen({.tmin_c = -3.5, .tmax_c = 1.0}));        // never over 1, a hard night
  CHECK_FALSE(counts_as_frozen({.tmin_c = -3.0, .tmax_c = 6.0}));  // a morning frost that thaws
}
