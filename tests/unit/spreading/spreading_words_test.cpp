#include "daemon/engine/spreading_words.hpp"

#include <catch2/catch.hpp>

using namespace gley;
using daemon::words;
using Kind = model::SpreadingReasonKind;

TEST_CASE("reasons of an advice read as a farm manager would say them") {
  CHECK(words({.kind = Kind::no_forecast}) == "no forecast under 24 h old");
  CHECK(words({.kind = Kind::heavy_rain_coming, .found = 0.45, .needed = 0.3}) ==
        "45 % chance of heavy rain within 48 h");
  CHECK(words({.kind = Kind::heavy_rain_coming, .found = 0.45, .needed = 0.3, .in_hours = 14.0}) ==
        "45 % chance of heavy rain within 48 h, from 14 h ahead");
  CHECK(words({.kind = Kind::too_near_to_water, .found = 5.0, .needed = 10.0}) ==
        "water 5 m from the edge, needs 10");
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
