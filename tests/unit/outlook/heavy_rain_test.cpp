#include "model/outlook/heavy_rain.hpp"

#include <catch2/catch.hpp>

using namespace gley::model;

namespace {

/// Rain of two members in steps of 6 hours.
class Rain {
 public:
  void add(double first_mm, double second_mm) { amounts_.push_back({first_mm, second_mm}); }
  [[nodiscard]] HeavyRain look() const {
    std::vector<RainAhead> steps;
    double from_h = 0.0;
    for (const auto& amount : amounts_) {
      steps.push_back({.time = {from_h, from_h + 6.0}, .by_member_mm = amount});
      from_h += 6.0;
    }
    return heavy_rain_within_48h(steps, 10.0);
  }

 private:
  std::vector<std::vector<double>> amounts_;
};

}  // namespace

TEST_CASE("rain is heavy that comes to its amount within a day") {
  Rain rain;
  rain.add(0.0, 0.0);
  for (int i = 0; i < 4; ++i) rain.add(2.5, 2.0);
  const HeavyRain heavy = rain.look();
  CHECK(heavy.chance == Approx(2.0 / 4.0));  // one of two members, by the rule of succession
  CHECK(heavy.in_hours == 6.0);
}

TEST_CASE("the same rain over two days is not heavy") {
  Rain rain;
  for (int i = 0; i < 8; ++i) rain.add(2.0, 1.25);
  CHECK(rain.look().chance == Approx(1.0 / 4.0));
  CHECK_FALSE(rain.look().in_hours.has_value());
}

TEST_CASE("rain after 48 hours is not looked at") {
  Rain rain;
  for (int i = 0; i < 8; ++i) rain.add(0.0, 0.0);
  rain.add(50.0, 50.0);
  CHECK(rain.look().chance == Approx(1.0 / 4.0));
}

TEST_CASE("rain comes when half of the members have had its amount") {
  const std::vector<double> dry{0.0, 0.0};
  const std::vector<double> drizzle{0.6, 0.0};
  const std::vector<RainAhead> steps{
      {{0.0, 6.0}, drizzle}, {{6.0, 12.0}, dry}, {{12.0, 18.0}, drizzle}};
  CHECK(hours_until_rain(steps, 1.0) == 12.0);
  CHECK(hours_until_rain(steps, 0.5) == 0.0);
  CHECK_FALSE(hours_until_rain(steps, 5.0));
  CHECK_FALSE(hours_until_rain({}, 1.0));
}

TEST_CASE("a night's rain is heavy whole, on whichever side of midnight it falls") {
  const std::vector<double> half{6.0};
  const std::vector<double> dry{0.0};
  const std::vector<RainAhead> steps{
      {{0.0, 18.0}, dry}, {{18.0, 24.0}, half}, {{24.0, 30.0}, half}, {{30.0, 72.0}, dry}};
  const auto heavy = [&](double from_h, double until_h) {
    return brings_heavy_rain(steps, {from_h, until_h}, 10.0) == std::vector{true};
  };
  CHECK(heavy(0.0, 48.0));
  CHECK_FALSE(heavy(24.0, 72.0));  // the first half is past by then
  CHECK_FALSE(heavy(0.0, 27.0));   // half of the second is 3 mm
  CHECK(heavy(0.0, 28.0));         // 4 of its 6 hours: 4 mm
  CHECK_FALSE(heavy(48.0, 72.0));
}
