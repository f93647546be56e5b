#include <catch2/catch.hpp>

#include "daemon/text/date_text.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using gley::daemon::date_text;
using namespace std::chrono;

namespace {

constexpr int days_sent = 6;

std::string station_text(const std::string& id) {
  std::string text = "[[station]]\nid = \"" + id + "\"\n";
  for (const auto& [quantity, unit, form] :
       {std::tuple{"rain", "mm", "interval"}, {"temperature", "Cel", "instant"}})
    text += "[[station.reading]]\ntopic = \"weather/" + id + "/pack\"\nname = \"" + quantity +
            "\"\nquantity = \"" + quantity + "\"\nunit = \"" + unit + "\"\nform = \"" + form +
            "\"\n";
  return text;
}

/// A day by the hour: rain in the afternoon, air that is warmest at 14 h.
std::string day_pack(sys_days day, double rain_mm, bool thermometer_stuck) {
  std::vector<SenmlValue> values;
  for (int hour = 0; hour < 24; ++hour) {
    const double warmth = thermometer_stuck ? 7.3 : 10.0 - std::abs(hour - 14) * 0.5;
    values.push_back({"temperature", day + hours{hour}, warmth});
    values.push_back({"rain", day + hours{hour + 1}, hour == 15 ? rain_mm : 0.0});
  }
  return senml_pack(values);
}

/// Yard's gauge is blocked while it rains 8 mm a day at the brook; its thermometer got stuck
/// yesterday.
struct Farm {
  Farm()
      : gleyd([&] {
          FarmText farm(broker.port());
          farm.station = station_text("yard") + station_text("brook");
          farm.fields =
              "[[field]]\nid = \"top\"\nname = \"Top\"\nstation = [\"yard\", \"brook\"]\n"
              "soil = \"clay loam\"\ndrainage = \"moderate\"\ncrop = \"grass\"\n";
          return farm;
        }()) {
    gleyd.start_online();
    for (int ago = days_sent; ago > 0; --ago) {
      const sys_days day = today() - days{ago};
      broker.publish("weather/yard/pack", day_pack(day, 0.0, ago == 1));
      broker.publish("weather/brook/pack", day_pack(day, 8.0, false));
    }
  }
  [[nodiscard]] std::string row_of(int ago) const {
    const std::string date = date_text(today() - days{ago});
    const std::string csv = gleyd.get("/api/field/top/days.csv?from=" + date + "&to=" + date).body;
    return csv.substr(csv.find('\n') + 1);
  }
  [[nodiscard]] bool eventually_shows(int ago, const std::string& words) const {
    return eventually([&] { return row_of(ago).find(words) != std::string::npos; });
  }

  Broker broker;
  Gleyd gleyd;
};

bool has_event(const nlohmann::json& board, const std::string& event) {
  for (const auto& alert : board["alerts"])
    if (alert["event"] == event) return true;
  return false;
}

}  // namespace

TEST_CASE("a_blocked_gauge_and_a_stuck_thermometer_are_named_not_used_and_can_be_accepted") {
  using Catch::Matchers::Contains;
  const Farm farm;
  const std::string blocked_day = date_text(today() - days{4});
  REQUIRE(farm.eventually_shows(4, "rain_doubtful;rain_borrowed"));
  CHECK_THAT(farm.row_of(4), Contains(blocked_day + ",top,8,"));
  CHECK(farm.eventually_shows(1, "temperature_doubtful;temperature_borrowed"));

  REQUIRE(eventually([&] { return farm.gleyd.json("/api/board")["doubts"].size() == 2; }));
  const nlohmann::json board = farm.gleyd.json("/api/board");
  CHECK(has_event(board, "rain gauge blocked"));
  CHECK(has_event(board, "readings doubted"));
  CHECK(farm.gleyd.metric("gley_station_doubts{station=\"yard\"}") == 2.0);
  CHECK(farm.gleyd.metric("gley_station_doubts{station=\"brook\"}") == 0.0);
  CHECK(farm.gleyd.eventually_logs("station yard: rain blocked since"));
  CHECK(farm.gleyd.eventually_logs("station yard: temperature stuck since"));

  const Said explained = farm.gleyd.command("explain", {"--field", "top", "--date", blocked_day});
  CHECK_THAT(explained.out, Contains("doubted at station yard") && Contains("rain blocked"));

  const std::string first = date_text(today() - days{days_sent});
  const std::vector<std::string> rain_was_right{"--station", "yard", "--quantity", "rain",
                                                "--from",    first,  "--to",       blocked_day};
  CHECK(farm.gleyd.command("accept", rain_was_right).code == 0);
  CHECK_THAT(farm.gleyd.command("doubts").out,
             Contains(blocked_day + " yard rain blocked; accepted by a person and used"));
  // The next reading has the daemon look; without one it does so within a minute.
  farm.broker.publish("weather/brook/pack", senml_pack({{"temperature", today() + 1s, 6.0}}));
  CHECK(eventually(
      [&] { return farm.row_of(4).find(blocked_day + ",top,0,") != std::string::npos; }));
  CHECK_THAT(farm.row_of(3), Contains("rain_doubtful;rain_borrowed"));
}

TEST_CASE("accept_names_what_is_wrong_with_its_options") {
  using Catch::Matchers::Contains;
  const Gleyd gleyd{FarmText()};
  const Said said =
      gleyd.command("accept", {"--station", "yrd", "--quantity", "rian", "--from", "2026-13-01"});
  CHECK(said.code == 2);
  CHECK_THAT(said.err, Contains("did you mean 'yard'") && Contains("did you mean 'rain'") &&
                           Contains("--from: '2026-13-01' is not a date"));
  CHECK(gleyd.command("doubts").out == "Nothing is doubted.\n");
}
