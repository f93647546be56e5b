#include "daemon/engine/judge/spreading_words.hpp"

#include <catch2/catch.hpp>

using namespace gley;
using daemon::words;
using Kind = model::SpreadingReasonKind;

TEST_CASE("reasons of an advice read as a farm manager would say them") {
  CHECK(words({.kind = Kind::no_forecast}) == "no forecast under 24 h old");
  CHECK(words({.kind = Kind::heavy_rain_coming, .found = 0.46, .needed = 0.3}) ==
        "heavy rain within 48 h about as likely as not, 5 in 10");
  CHECK(words({.kind = Kind::heavy_rain_coming, .found = 0.46, .needed = 0.3, .in_hours = 14.0}) ==
        "heavy rain within 48 h about as likely as not, 5 in 10, in about 14 h");
  CHECK(words({.kind = Kind::heavy_rain_coming, .found = 0.96, .needed = 0.3, .in_hours = 0.4}) ==
        "heavy rain within 48 h very likely, over 9 in 10, from now on");
  CHECK(words({.kind = Kind::nothing_against, .found = 0.02}) ==
        "no reason found to hold; heavy rain within 48 h very unlikely, under 1 in 10");
  CHECK(words({.kind = Kind::runoff_coming, .found = 0.3}) ==
        "under 1 mm expected to run off within 48 h");
  CHECK(words({.kind = Kind::runoff_coming, .found = 5.2}) ==
        "about 5 mm expected to run off within 48 h");
  CHECK(words({.kind = Kind::too_near_to_water, .found = 5.0, .needed = 10.0}) ==
        "water 5 m from the edge: keep 10 m off it");
  CHECK(
      words({.kind = Kind::too_near_to_spring, .found = 0.0, .needed = 50.0, .lost_ha = 0.3927}) ==
      "spring or well 0 m from the edge: keep 50 m off it, 0.39 ha left out");
  const model::GroundReason full{model::GroundReasonKind::topsoil_full, 1.0, 3.0};
  CHECK(words({.kind = Kind::ground_closed, .ground = full}) ==
        "closed to wheels: topsoil 1 mm below field capacity, needs 3");
}

TEST_CASE("every kind of reason of an advice has its words") {
  for (int kind = 0; kind <= static_cast<int>(Kind::nothing_against); ++kind) {
    INFO("kind " << kind);
    CHECK(!words({.kind = static_cast<Kind>(kind), .found = 1.0, .needed = 2.0}).empty());
  }
}

TEST_CASE("nitrogen at risk is told in whole kilograms, parts that add up, and never as none") {
  using Risk = model::NitrogenAtRisk;
  CHECK(words(Risk{50.0, 3.14, 1.06}) ==
        "up to 4 of 50 kg N/ha at risk: 3 leached within 7 days, 1 in runoff within 48 h");
  CHECK(words(Risk{50.0, 1.4, 1.4}) ==
        "up to 3 of 50 kg N/ha at risk: 1 leached within 7 days, 2 in runoff within 48 h");
  CHECK(words(Risk{50.0, 0.3, 34.1}) == "up to 34 of 50 kg N/ha at risk: 34 in runoff within 48 h");
  CHECK(words(Risk{50.0, 2.2, 0.0}) == "up to 2 of 50 kg N/ha at risk: 2 leached within 7 days");
  for (const double little : {0.0, 0.4})
    CHECK(words(Risk{50.0, little, 0.0}) == "under 1 of 50 kg N/ha at risk by leaching and runoff");
}

TEST_CASE("the rain around is told in hours, and in days beyond the second") {
  using Rain = daemon::RainAround;
  CHECK(words(Rain{.since_h = 12.0, .is_forecast = true, .until_h = 30.2}) ==
        "no rain for over 12 h; next in about 30 h");
  CHECK(words(Rain{.since_h = 2.9, .is_forecast = true, .until_h = 0.3}) ==
        "no rain for over 2 h; next within the hour");
  CHECK(words(Rain{.since_h = 0.0, .is_forecast = true, .until_h = {}}) ==
        "rain within the last hour; none in sight");
  CHECK(words(Rain{.since_h = 12.0, .is_forecast = true, .until_h = 117.4}) ==
        "no rain for over 12 h; next in about 5 days");
  CHECK(words(Rain{}) == "when it last rained is not known");
}
