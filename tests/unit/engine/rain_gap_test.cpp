#include "daemon/engine/fields/rain_gap.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace gley;
using daemon::rain_gap;
using std::chrono::days;

namespace {

constexpr std::chrono::sys_days first = std::chrono::year{2026} / 1 / 1;

/// Rain of 0 and 4 mm by turns, mean 2, deviation 2; none known on the last `unknown` days.
std::vector<model::StationDay> record(int count, int unknown) {
  model::StationDays whole({.latitude_deg = 53.4, .elevation_m = 71.0});
  std::vector<model::StationDay> out;
  for (int n = 0; n < count; ++n) {
    model::DailyWeather weather{.tmin_c = 2.0, .tmax_c = 8.0};
    if (n < count - unknown) weather.rain_mm = n % 2 == 0 ? 0.0 : 4.0;
    out.push_back(whole.next(first + days{n}, weather));
  }
  return out;
}

}  // namespace

TEST_CASE("a record without gaps leaves nothing uncertain") {
  CHECK(rain_gap(record(100, 0)).days == 0);
  CHECK(rain_gap({}).days == 0);
}

TEST_CASE("the longer rain is not known, the more may have fallen") {
  double before_mm = 0.0;
  for (const int unknown : {1, 7, 30}) {
    const auto gap = rain_gap(record(130, unknown));
    CHECK(gap.days == unknown);
    CHECK(gap.from == first + days{130 - unknown});
    CHECK(gap.rain_mm == Approx(2.0 * unknown + 2.0 * std::sqrt(unknown)).epsilon(0.02));
    CHECK(gap.rain_mm > before_mm);
    before_mm = gap.rain_mm;
  }
}

TEST_CASE("a gap over 60 days past no longer counts, and a short record has a stated rain") {
  auto days_on_record = record(130, 1);
  const auto dry = record(190, 0);
  days_on_record.insert(days_on_record.end(), dry.begin() + 130, dry.end());
  REQUIRE(days_on_record.back().date == first + days{189});
  CHECK(rain_gap(days_on_record).days == 0);
  days_on_record.pop_back();
  CHECK(rain_gap(days_on_record).days == 1);
  CHECK(rain_gap(record(5, 4)).rain_mm == Approx(4 * 2.2 + 2 * 4.5));
}

TEST_CASE("only the days of the gap are made wetter, each by its share") {
  const auto whole = record(10, 4);
  const daemon::RainGap gap{.from = first + days{7}, .days = 3, .rain_mm = 12.0};
  for (const auto& day : whole) {
    const double rain_mm = *daemon::as_if_it_rained(gap, day).weather.rain_mm;
    CHECK(rain_mm == (day.date >= gap.from ? 4.0 : *day.weather.rain_mm));
  }
}

TEST_CASE("a gap is said in words") {
  CHECK(daemon::words(daemon::RainGap{.from = first, .days = 3, .rain_mm = 20.0}, 14.4) ==
        "rain of 3 days of the last 60 is not known and counts as none: the soil may be 14 mm "
        "wetter than said");
}
