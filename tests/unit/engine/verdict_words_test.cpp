#include "daemon/engine/judge/verdict_words.hpp"

#include <catch2/catch.hpp>

using namespace gley;
using daemon::words;
using Kind = model::GroundReasonKind;

namespace {
const model::GroundLimits limits;
const model::MachineLoad drill{.heaviest_wheel = {2.6, 1.0}, .mass_t = 8.0};

std::string said(Kind kind, double found, double needed) {
  return words({kind, found, needed}, drill, limits);
}
}  // namespace

TEST_CASE("reasons of a verdict read as a farm manager would say them") {
  CHECK(said(Kind::topsoil_full, 2.0, 3.0) == "topsoil 2 mm below field capacity, needs 3");
  CHECK(said(Kind::topsoil_full, 0.0, 3.0) == "topsoil full to field capacity, needs 3 mm of room");
  CHECK(said(Kind::presses_deep, 60.9, 52.2) ==
        "2.6 t on one wheel at 1 bar presses 61 kPa at half a metre, the soil stands 52");
  CHECK(said(Kind::presses_shallow, 80.2, 78.3) ==
        "2.6 t on one wheel at 1 bar presses 80 kPa at 35 cm, the soil stands 78");
  CHECK(said(Kind::rain, 14.4, 10.0) == "14 mm of rain in 24 h, 10 at most");
  CHECK(said(Kind::mass_needs_drier, 8.0, 10.2) ==
        "8 t in all at 1 bar asks for 10 kPa of suction in the subsoil, it has 8");
  CHECK(said(Kind::light_wheels_only, 14.0, 20.0) ==
        "topsoil suction 14 kPa: under 20 only wheels up to 2.5 t and 0.8 bar");
  CHECK(said(Kind::light_wheels_below, 11.0, 20.0) ==
        "subsoil still wet, suction 11 kPa: under 20 only wheels up to 2.5 t and 0.8 bar");
}

TEST_CASE("what tenths do not tell apart is just under or just over") {
  CHECK(said(Kind::subsoil_wet, 9.997, 10.0) ==
        "subsoil too wet: suction just under 10 kPa, needs 10");
  CHECK(said(Kind::subsoil_wet, 9.94, 10.0) == "subsoil too wet: suction 9.9 kPa, needs 10");
  CHECK(said(Kind::rain, 10.004, 10.0) == "just over 10 mm of rain in 24 h, 10 at most");
  CHECK(said(Kind::rain, 10.3, 10.0) == "10.3 mm of rain in 24 h, 10 at most");
}

TEST_CASE("a silent station is told in whole hours") {
  CHECK(daemon::gate_words({Kind::station_silent, 6.0002, 6.0}) ==
        "no reading for over 6 h, 6 at most");
  CHECK(daemon::gate_words({Kind::station_silent, 30.9, 6.0}) ==
        "no reading for over 30 h, 6 at most");
}

TEST_CASE(
    "two numbers that differ are never told as one, and tenths stand only where they matter") {
  CHECK(said(Kind::treads_topsoil, 22.24, 3.0) ==
        "topsoil 22 mm below field capacity, treading needs 3");
  CHECK(said(Kind::mass_needs_drier, 9.8, 10.2) ==
        "8 t in all at 1 bar asks for 10 kPa of suction in the subsoil, it has 9.8");
  CHECK(said(Kind::topsoil_full, 2.97, 3.0) ==
        "topsoil just under 3 mm below field capacity, needs 3");
  CHECK(said(Kind::presses_deep, 52.3, 52.2) ==
        "2.6 t on one wheel at 1 bar presses 52.3 kPa at half a metre, the soil stands 52.2");
}

TEST_CASE("every kind of reason of a verdict has its words") {
  for (int kind = 0; kind <= static_cast<int>(Kind::frost_carries); ++kind) {
    INFO("kind " << kind);
    CHECK(!said(static_cast<Kind>(kind), 1.0, 2.0).empty());
  }
}

TEST_CASE("remedies are said with their condition") {
  CHECK(daemon::pressure_words({.value = 0.6, .verdict = model::Verdict::carries}) ==
        "at 0.6 bar it would be carried, if the tyres allow that under this load");
  CHECK(daemon::load_words({.value = 0.7, .verdict = model::Verdict::with_care}, drill) ==
        "with 0.7 of the load it would be carried with care");
  model::MachineLoad tanker{.heaviest_wheel = {4.0, 1.5}, .mass_t = 16.0};
  tanker.empty_wheel_load_t = 1.6;
  CHECK(daemon::load_words({.value = 0.5, .verdict = model::Verdict::carries}, tanker) ==
        "half full it would be carried");
  CHECK(daemon::load_words({.value = 0.3, .verdict = model::Verdict::carries}, tanker) ==
        "30 % full it would be carried");
  CHECK(daemon::load_words({.value = 0.0, .verdict = model::Verdict::with_care}, tanker) ==
        "empty it would be carried with care");
}
