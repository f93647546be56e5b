// Properties of the field step, over generated fields and weather. The generator is seeded, so a
// failure repeats.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "model/soil/suction.hpp"
#include "tests/properties/field_bounds.hpp"

using namespace gley::model;

namespace {

/// Soils, stands and weather of a temperate farm. FAO-56's own day is not smooth beyond it: where
/// ET0 Kcmax comes near TEW - REW, or ET0 Kcb near (1 - p) TAW, a millimetre more of rain can raise
/// that day's ET by more than a millimetre (Eq. 74 and 84 have those slopes).
class Generator {
 public:
  explicit Generator(unsigned seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  int pick(int count) { return std::uniform_int_distribution<int>(0, count - 1)(engine_); }
  bool chance(double probability) { return between(0.0, 1.0) < probability; }

  Horizon horizon() {
    const double wilting = between(0.03, 0.30);
    const double capacity = wilting + between(0.08, 0.25);
    const double saturation = capacity + between(0.01, 0.30);
    return {.wilting_point = wilting,
            .field_capacity = capacity,
            .saturation = saturation,
            .retention_b = between(2.0, 12.0),
            .saturated_conductivity_mm_h = between(0.01, 200.0)};
  }

  Field field() {
    FieldDescription description;
    description.soil = profile_of(horizon(), horizon(), between(0.0, 60.0), between(600.0, 1800.0));
    description.drainage = static_cast<DrainageClass>(pick(4));
    if (chance(0.4)) description.pipes = PipeDrains{.rate_mm_d = between(0.5, 15.0)};
    description.slope_pct = between(0.0, 15.0);
    description.rew_mm = between(2.0, 12.0);  // FAO-56 Table 19
    description.tew_mm = description.rew_mm + between(10.0, 17.0);
    Field out;
    out.parameters = field_parameters(description);
    CropCourse course;
    const double kcb = between(0.4, 1.2);
    course.kcb.coefficients = {.initial = kcb, .mid_season = kcb, .end = kcb};
    course.height_m = between(0.05, 2.0);
    course.root_min_mm = course.root_max_mm = between(600.0, 1600.0);
    course.depletion_fraction = between(0.2, 0.6);
    course.climate_adjusted = kcb > 0.0;
    course.storage_dry_mm = between(50.0, 300.0);
    course.storage_wet_mm = between(5.0, 50.0);
    out.crops = CropCalendar::permanent(course);
    return out;
  }

  StationDay day(std::chrono::sys_days date) {
    StationDay out;
    out.date = date;
    out.weather.rain_mm = chance(0.5) ? 0.0 : std::pow(between(0.0, 1.0), 4.0) * 150.0;
    if (chance(0.05)) out.weather.irrigation_mm = between(0.0, 50.0);
    const double low = between(-20.0, 20.0);
    out.weather.tmin_c = low;
    out.weather.tmax_c = low + between(0.0, 15.0);
    out.et.et0_mm = between(0.0, 6.0);
    out.et.u2_m_s = between(0.0, 5.0);
    out.et.rh_min_pct = between(30.0, 100.0);
    return out;
  }

 private:
  std::mt19937 engine_;
};

}  // namespace

TEST_CASE("The water of any field closes to 1e-9 mm on every day, within its bounds") {
  Generator generator(20260101);
  for (int run = 0; run < 200; ++run) {
    const Field field = generator.field();
    const std::chrono::sys_days start{std::chrono::year{2024} / 1 / 1};
    FieldState state;
    for (int i = 0; i < 400; ++i) {
      const StationDay met = generator.day(start + std::chrono::days{i});
      const FieldState before = state;
      const FieldDay day = step_field(field, met, state);
      INFO("run " << run << " day " << i);
      REQUIRE(std::abs(unaccounted_mm(field.parameters, before, day)) < 1e-9);
      REQUIRE(out_of_bounds(field.parameters, day) == std::string());
      REQUIRE(day.depletion_mm <= day.stand.total_available_mm + 1e-9);
    }
  }
}

TEST_CASE("More rain on a day never leaves less water in the soil that evening") {
  Generator generator(20260102);
  for (int run = 0; run < 300; ++run) {
    const Field field = generator.field();
    const std::chrono::sys_days start{std::chrono::year{2024} / 1 / 1};
    FieldState state;
    for (int i = 0; i < 120; ++i) {
      StationDay met = generator.day(start + std::chrono::days{i});
      met.weather.tmin_c.reset();  // snow would hold the rain back
      met.weather.tmax_c.reset();
      StationDay wetter = met;
      wetter.weather.rain_mm = *met.weather.rain_mm + generator.between(0.0, 40.0);
      FieldState wet = state;
      step_field(field, wetter, wet);
      step_field(field, met, state);
      INFO("run " << run << " day " << i);
      REQUIRE(stored_mm(field.parameters, wet) >= stored_mm(field.parameters, state) - 1e-9);
    }
  }
}

TEST_CASE("A deeper deficit never has a lower suction") {
  Generator generator(20260103);
  for (int run = 0; run < 500; ++run) {
    const Horizon soil = generator.horizon();
    double last = 1e300;
    for (int i = 0; i <= 100; ++i) {
      const double theta = soil.wilting_point + (soil.saturation - soil.wilting_point) * i / 100.0;
      const double suction = suction_kpa(soil, theta);
      REQUIRE(suction <= last);
      last = suction;
    }
  }
}
