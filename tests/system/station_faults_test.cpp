#include <catch2/catch.hpp>

#include "daemon/store/schema.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/faults.hpp"
#include "tests/system/recent_weather.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using namespace std::chrono;

namespace {

/// The day's row of the field's days file.
std::string row_of(const Gleyd& gleyd, sys_days day) {
  const std::string date = gley::daemon::date_text(day);
  const std::string csv = gleyd.get("/api/field/top/days.csv?from=" + date + "&to=" + date).body;
  return csv.substr(csv.find('\n') + 1);
}

double rain_of(const Gleyd& gleyd, sys_days day) {
  const std::string row = row_of(gleyd, day);
  const std::string before = gley::daemon::date_text(day) + ",top,";
  if (!row.starts_with(before)) return -1.0;
  const std::string cells = row.substr(before.size());
  return gley::daemon::number_from(cells.substr(0, cells.find(','))).value_or(-1.0);
}

}  // namespace

TEST_CASE("a_counter_that_rolls_over_is_counted_through_by_the_whole_daemon") {
  const Broker broker;
  FarmText farm(broker.port());
  farm.station =
      "[[station]]\nid = \"yard\"\n[[station.reading]]\ntopic = \"weather/yard/pack\"\n"
      "name = \"rain\"\nquantity = \"rain\"\nunit = \"mm\"\nform = \"counter\"\nstep = 0.2\n"
      "rolls_over_at = 1000\n";
  Gleyd gleyd(farm);
  gleyd.start_online();
  const sys_days yesterday = today() - days{1};
  int hour = 10;
  for (const double count : {990.0, 995.0, 3.0, 8.0})
    broker.publish("weather/yard/pack", senml_pack({{"rain", yesterday + hours{hour++}, count}}));
  REQUIRE(gleyd.eventually_stored(4));
  // 18 tips of 0.2 mm, from 990 through 1000 to 8.
  CHECK(eventually([&] { return rain_of(gleyd, yesterday) == Approx(3.6); }));
}

TEST_CASE("a_station_whose_clock_is_an_hour_behind_is_named_and_its_readings_are_not_moved") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  Faults faults(gleyd);
  gleyd.start_online();
  const auto began = floor<seconds>(system_clock::now());
  constexpr int sent = 8;  // over more than the two hours that the daemon looks at
  for (int i = 0; i < sent; ++i) {
    faults.clock_ahead(minutes{20} * i);
    broker.publish("weather/yard/pack",
                   senml_pack({{"temperature", began + minutes{20} * i - hours{1}, 8.0 + i}}));
    REQUIRE(gleyd.eventually_stored(i + 1));
  }
  CHECK(gleyd.eventually_logs("station yard: its times are 60 min behind"));
  CHECK(eventually([&] {
    const double off =
        gleyd.metric("gley_station_clock_behind_seconds{station=\"yard\"}").value_or(0.0);
    return off >= 3600.0 && off < 3720.0;
  }));
  gley::daemon::Database store(gleyd.store(), gley::daemon::Durability::process);
  const sys_time<milliseconds> last = began + minutes{20} * (sent - 1) - hours{1};
  CHECK(store.number("SELECT max(time_ms) FROM reading") == last.time_since_epoch().count());
}

TEST_CASE("rain_that_comes_three_weeks_late_changes_its_day_and_the_soil_after_it") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start_online();
  const sys_days wet_day = today() - days{21};
  for (int ago = 25; ago > 0; --ago)
    if (ago != 21)
      broker.publish("weather/yard/pack",
                     senml_pack({{"rain", today() - days{ago} + hours{12}, 1.0}}));
  REQUIRE(gleyd.eventually_stored(24));
  REQUIRE(eventually([&] { return rain_of(gleyd, today() - days{1}) == 1.0; }));
  const std::string before = row_of(gleyd, wet_day - days{1});
  const std::string after = row_of(gleyd, wet_day + days{1});
  CHECK(rain_of(gleyd, wet_day) != 45.0);
  const auto delays_s = [&] {
    return gleyd.metric("gley_reading_delay_seconds_sum").value_or(0.0);
  };
  const double delays_before_s = delays_s();

  broker.publish("weather/yard/pack", senml_pack({{"rain", wet_day + hours{12}, 45.0}}));
  CHECK(eventually([&] { return rain_of(gleyd, wet_day) == 45.0; }));
  CHECK(row_of(gleyd, wet_day - days{1}) == before);
  CHECK(row_of(gleyd, wet_day + days{1}) != after);
  const double twenty_days_s = 20.0 * 86400.0;
  CHECK(delays_s() > delays_before_s + twenty_days_s);
}
