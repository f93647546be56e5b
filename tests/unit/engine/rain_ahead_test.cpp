#include "daemon/engine/weather/rain_ahead.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using std::chrono::hours;

constexpr Instant noon{std::chrono::sys_days{std::chrono::year{2026} / 11 / 25} + hours{12}};

/// Eleven members with 0, 1, ... 10 mm in each of two steps of a day's length.
ForecastDays eleven_members() {
  ForecastDays ahead;
  ahead.now = noon;
  ahead.first = std::chrono::sys_days{std::chrono::year{2026} / 11 / 25};
  ahead.members = 11;
  ahead.days = 1;
  ahead.rain = {{noon, noon + hours{24}, {}}, {noon + hours{24}, noon + hours{72}, {}}};
  for (int m = 0; m < 11; ++m) {
    ahead.weather.push_back({model::DailyWeather{}});
    ahead.weather.back().front().rain_mm = m;
    for (RainStep& step : ahead.rain) step.by_member_mm.push_back(m);
  }
  return ahead;
}

TEST_CASE("the range leaves one in ten members on either side") {
  const auto days = rain_by_day(eleven_members(), FarmCalendar("UTC", std::chrono::minutes{0}));
  REQUIRE(days.size() == 1);
  CHECK(days.front().low_mm == Approx(1.0));
  CHECK(days.front().high_mm == Approx(9.0));
  CHECK(days.front().from == noon);
  CHECK(days.front().until == noon + hours{12});
  // Ten of eleven bring 1 mm: (10 + 1) / (11 + 2), Laplace's rule of succession.
  CHECK(days.front().chance == Approx(11.0 / 13.0));
}

TEST_CASE("of a step that reaches beyond 48 hours its share counts") {
  const auto rain = rain_within_48h(eleven_members());
  REQUIRE(rain);
  CHECK(rain->high_mm == Approx(9.0 * 1.5));
}

TEST_CASE("a forecast that stops short of 48 hours gives no amount for them") {
  ForecastDays ahead = eleven_members();
  ahead.rain.pop_back();
  CHECK_FALSE(rain_within_48h(ahead));
}

}  // namespace
}  // namespace gley::daemon
