#include "model/ground/ground_verdict.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "model/ground/ground_margin.hpp"
#include "model/ground/remedy.hpp"

using namespace gley::model;

namespace {

using Kind = GroundReasonKind;

const GroundLimits limits;
const MachineLoad drill{.heaviest_wheel = {2.6, 1.0}, .mass_t = 8.0};
const MachineLoad sprayer{.heaviest_wheel = {1.3, 0.8}, .mass_t = 4.5};
const MachineLoad quad{.heaviest_wheel = {0.15, 0.3}, .mass_t = 0.45};

/// A loam dry enough for any of the machines above.
GroundState<double> dry_ground() {
  GroundState<double> ground;
  ground.suction_topsoil_kpa = 60.0;
  ground.suction_subsoil_kpa = 60.0;
  ground.subsoil_saturation = 0.6;
  ground.subsoil_saturation_at_capacity = 0.75;
  ground.topsoil_deficit_mm = 20.0;
  ground.clay_pct = 20.0;
  return ground;
}

GroundState<double> ground_with(void (*change)(GroundState<double>&)) {
  GroundState<double> ground = dry_ground();
  change(ground);
  return ground;
}

void check_closed(const GroundVerdict& verdict, Kind first_reason) {
  CHECK(verdict.verdict == Verdict::keep_off);
  CHECK(verdict.margin.value() < 0.0);
  CHECK(verdict.reasons.front().kind == first_reason);
}

}  // namespace

TEST_CASE("dry ground carries, and says what came nearest to its limit") {
  const GroundVerdict verdict = judge_machine(drill, dry_ground(), limits);
  CHECK(verdict.verdict == Verdict::carries);
  CHECK(verdict.margin.value() >= 0.2);
  CHECK(verdict.reasons.size() == 1);
  CHECK(verdict.reasons.front().kind == Kind::presses_deep);
}

TEST_CASE("each condition of the soil gate closes it, and is the first reason") {
  using State = GroundState<double>;
  const auto closed = [](void (*change)(State&), Kind reason) {
    check_closed(judge_machine(drill, ground_with(change), limits), reason);
  };
  closed([](State& g) { g.topsoil_deficit_mm = 2.9; }, Kind::topsoil_full);
  closed([](State& g) { g.suction_subsoil_kpa = 9.9; }, Kind::subsoil_wet);
  closed([](State& g) { g.rain_24h_mm = 10.1; }, Kind::rain);
  closed([](State& g) { g.thaw = 1.0; }, Kind::thaw);
  closed([](State& g) { g.snow_mm = 1.0; }, Kind::snow);
  closed([](State& g) { g.waterlogged = 1.0; }, Kind::waterlogged);
  closed([](State& g) { g.waterlogged = 1.0, g.pond_mm = 2.0; }, Kind::ponded);
}

TEST_CASE("the soil gate stands open at its own limits") {
  GroundState<double> ground = dry_ground();
  ground.topsoil_deficit_mm = 3.0;
  ground.rain_24h_mm = 10.0;
  ground.snow_mm = 0.99;
  CHECK(gate_reasons(ground, limits).empty());
  CHECK(judge_machine(sprayer, ground, limits).verdict == Verdict::carries);
}

TEST_CASE("a closed gate's margin tells how far the field is from opening it") {
  GroundState<double> ground = dry_ground();
  ground.topsoil_deficit_mm = 1.5;
  CHECK(judge_machine(sprayer, ground, limits).margin.value() == -0.5);
  ground.topsoil_deficit_mm = std::nextafter(3.0, 0.0);
  CHECK(judge_machine(sprayer, ground, limits).margin.value() < 0.0);
  ground.topsoil_deficit_mm = 0.0;
  CHECK(judge_machine(sprayer, ground, limits).margin.value() == -1.0);
}

TEST_CASE("between 10 and 20 kPa only light wheels at low pressure pass") {
  GroundState<double> ground = dry_ground();
  ground.suction_topsoil_kpa = 15.0;
  check_closed(judge_machine(drill, ground, limits), Kind::light_wheels_only);
  CHECK(judge_machine(sprayer, ground, limits).verdict == Verdict::carries);
  const MachineLoad light_but_hard{.heaviest_wheel = {1.3, 0.9}, .mass_t = 4.5};
  check_closed(judge_machine(light_but_hard, ground, limits), Kind::light_wheels_only);
  ground.suction_topsoil_kpa = 20.0;
  CHECK(judge_machine(light_but_hard, ground, limits).verdict == Verdict::carries);
}

TEST_CASE("heavy clay stays closed to 20 kPa and to heavy wheels to 30, and asks 10 kPa more") {
  GroundState<double> ground = dry_ground();
  ground.clay_pct = 30.1;
  ground.suction_topsoil_kpa = 19.9;
  check_closed(judge_machine(sprayer, ground, limits), Kind::heavy_clay_wet);
  ground.suction_topsoil_kpa = 25.0;
  CHECK(judge_machine(sprayer, ground, limits).verdict == Verdict::carries);
  check_closed(judge_machine(drill, ground, limits), Kind::light_wheels_only);
  ground.suction_topsoil_kpa = 60.0;
  ground.suction_subsoil_kpa = 22.0;
  const MachineLoad heavy_whole{.heaviest_wheel = {1.3, 0.8}, .mass_t = 13.0};
  GroundState<double> lighter_soil = ground;
  lighter_soil.clay_pct = 30.0;
  CHECK(judge_machine(heavy_whole, lighter_soil, limits).verdict != Verdict::keep_off);
  check_closed(judge_machine(heavy_whole, ground, limits), Kind::mass_needs_drier);
}

TEST_CASE("the lightest wheels stop only for waterlogging, ponding and thaw") {
  GroundState<double> ground = dry_ground();
  ground.topsoil_deficit_mm = 0.0;
  ground.suction_topsoil_kpa = 9.0;
  ground.suction_subsoil_kpa = 0.0;
  ground.subsoil_saturation = 1.0;
  ground.rain_24h_mm = 30.0;
  ground.snow_mm = 20.0;
  ground.clay_pct = 48.0;
  CHECK(judge_machine(quad, ground, limits).verdict == Verdict::carries);
  const MachineLoad at_the_limits{.heaviest_wheel = {0.3, 0.5}, .mass_t = 1.2};
  CHECK(judge_machine(at_the_limits, ground, limits).verdict == Verdict::carries);
  const MachineLoad over{.heaviest_wheel = {0.31, 0.5}, .mass_t = 1.2};
  CHECK(judge_machine(over, ground, limits).verdict == Verdict::keep_off);
  ground.thaw = 1.0;
  check_closed(judge_machine(quad, ground, limits), Kind::thaw);
  ground.thaw = 0.0;
  ground.waterlogged = 1.0;
  check_closed(judge_machine(quad, ground, limits), Kind::waterlogged);
}

TEST_CASE("without a mass its screen is skipped, and said so") {
  MachineLoad machine = drill;
  machine.mass_t.reset();
  const GroundVerdict verdict = judge_machine(machine, dry_ground(), limits);
  CHECK(verdict.verdict == Verdict::carries);
  CHECK(verdict.reasons.back().kind == Kind::mass_unknown);
}

TEST_CASE("a machine that cultivates needs a topsoil that crumbles") {
  MachineLoad cultivator = sprayer;
  cultivator.cultivates = true;
  GroundState<double> ground = dry_ground();
  CHECK(judge_machine(cultivator, ground, limits).verdict == Verdict::carries);
  ground.suction_topsoil_kpa = 19.0;
  check_closed(judge_machine(cultivator, ground, limits), Kind::too_wet_to_crumble);
  ground.suction_topsoil_kpa = 201.0;
  check_closed(judge_machine(cultivator, ground, limits), Kind::too_dry_to_crumble);
  ground.clay_pct = 9.9;  // sand has no clods
  const GroundVerdict on_sand = judge_machine(cultivator, ground, limits);
  CHECK(on_sand.verdict == Verdict::carries);
  CHECK(on_sand.reasons.back().kind == Kind::may_blow);
  CHECK(judge_machine(sprayer, ground, limits).reasons.back().kind != Kind::may_blow);
  CHECK(judge_machine(sprayer, ground, limits).verdict == Verdict::carries);
}

TEST_CASE("deep frost opens the gate to wheels, not to tines; the machine test stays") {
  GroundState<double> ground = dry_ground();
  ground.topsoil_deficit_mm = 0.0;
  ground.suction_topsoil_kpa = ground.suction_subsoil_kpa = 9.0;
  ground.waterlogged = 1.0;
  check_closed(judge_machine(sprayer, ground, limits), Kind::waterlogged);
  ground.deep_frost = 1.0;
  const GroundVerdict frozen = judge_machine(sprayer, ground, limits);
  CHECK(frozen.verdict != Verdict::keep_off);
  CHECK(frozen.reasons.back().kind == Kind::frost_carries);
  MachineLoad cultivator = sprayer;
  cultivator.cultivates = true;
  check_closed(judge_machine(cultivator, ground, limits), Kind::too_frozen_to_till);
  const MachineLoad tanker{.heaviest_wheel = {6.0, 2.0}, .mass_t = 30.0};
  CHECK(judge_machine(tanker, ground, limits).verdict == Verdict::keep_off);
}

TEST_CASE("what is not a number is not known, and never carries") {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  GroundState<double> ground = dry_ground();
  ground.rain_24h_mm = none;
  GroundVerdict verdict = judge_machine(quad, ground, limits);
  CHECK(verdict.verdict == Verdict::not_known);
  CHECK(!verdict.margin);
  CHECK(verdict.reasons.front().kind == Kind::numbers_missing);
  const MachineLoad weightless{.heaviest_wheel = {0.0, 1.0}};
  verdict = judge_machine(weightless, dry_ground(), limits);
  CHECK(verdict.verdict == Verdict::not_known);
  CHECK(verdict_of(none, limits) == Verdict::not_known);
}

TEST_CASE("a silent station leaves the verdict not known") {
  const GroundVerdict verdict = verdict_in_silence({.silent_h = 7.5, .allowed_h = 6.0});
  CHECK(verdict.verdict == Verdict::not_known);
  CHECK(!verdict.margin);
  CHECK(verdict.reasons.front() == GroundReason{Kind::station_silent, 7.5, 6.0});
}

TEST_CASE("softer tyres or half a load are offered where they help, and only there") {
  const MachineLoad trailer{.heaviest_wheel = {2.4, 3.0}};
  GroundState<double> ground = dry_ground();
  ground.suction_topsoil_kpa = ground.suction_subsoil_kpa = 24.0;
  ground.subsoil_saturation = 0.7;
  REQUIRE(judge_machine(trailer, ground, limits).verdict == Verdict::keep_off);
  const auto pressure = pressure_that_carries_bar(trailer, ground, limits);
  REQUIRE(pressure);
  CHECK(pressure->verdict == Verdict::with_care);
  MachineLoad a_tenth_harder = trailer;
  a_tenth_harder.heaviest_wheel.pressure_bar = pressure->value + 0.1;
  CHECK(judge_machine(a_tenth_harder, ground, limits).verdict == Verdict::keep_off);
  REQUIRE(load_share_that_carries(trailer, ground, limits));
  ground.thaw = 1.0;
  CHECK(!pressure_that_carries_bar(trailer, ground, limits));
  CHECK(!load_share_that_carries(trailer, ground, limits));
  CHECK(!pressure_that_carries_bar(sprayer, dry_ground(), limits));
}

TEST_CASE("a machine of known empty weight is told how full it may be") {
  MachineLoad tanker{.heaviest_wheel = {4.0, 1.5}, .mass_t = 16.0};
  tanker.empty_wheel_load_t = 1.2;
  tanker.empty_mass_t = 8.0;
  GroundState<double> ground = dry_ground();
  ground.suction_topsoil_kpa = ground.suction_subsoil_kpa = 24.0;
  ground.subsoil_saturation = 0.7;
  REQUIRE(judge_machine(tanker, ground, limits).verdict == Verdict::keep_off);
  const auto fill = load_share_that_carries(tanker, ground, limits);
  REQUIRE(fill);
  const auto filled = [&](double share) {
    return MachineLoad{.heaviest_wheel = {1.2 + share * 2.8, 1.5}, .mass_t = 8.0 + share * 8.0};
  };
  CHECK(judge_machine(filled(fill->value), ground, limits).verdict == fill->verdict);
  CHECK(judge_machine(filled(fill->value + 0.1), ground, limits).verdict == Verdict::keep_off);
}

TEST_CASE("stock treads by the topsoil's deficit: Laurenson and Houlbrooke's 3 mm (2016)") {
  const MachineLoad cattle{.heaviest_wheel = {0.36, 1.4}, .mass_t = 0.6, .tread = Tread::hooves};
  GroundState<double> ground = dry_ground();
  ground.suction_topsoil_kpa = ground.suction_subsoil_kpa = 12.0;  // under what wheels need
  ground.topsoil_deficit_mm = 2.9;
  CHECK(judge_machine(cattle, ground, limits).verdict == Verdict::keep_off);
  ground.topsoil_deficit_mm = 3.2;
  const GroundVerdict near = judge_machine(cattle, ground, limits);
  CHECK(near.verdict == Verdict::with_care);
  CHECK(near.reasons == std::vector<GroundReason>{{GroundReasonKind::treads_topsoil, 3.2, 3.0}});
  ground.topsoil_deficit_mm = 4.0;
  CHECK(judge_machine(cattle, ground, limits).verdict == Verdict::carries);
  ground.topsoil_deficit_mm = 2.0;
  CHECK(!pressure_that_carries_bar(cattle, ground, limits));
  CHECK(!load_share_that_carries(cattle, ground, limits));
}

// Damage by hooves lies within 50 to 150 mm: Greenwood and McKenzie (2001), Aust. J. Exp. Agric.
// 41:1231-1250.
TEST_CASE("a wet subsoil under a dry topsoil keeps wheels off heavy clay, and not stock") {
  const MachineLoad cattle{.heaviest_wheel = {0.36, 1.4}, .mass_t = 0.6, .tread = Tread::hooves};
  GroundState<double> ground = dry_ground();
  ground.clay_pct = 48.0;
  ground.suction_subsoil_kpa = 9.0;
  CHECK(judge_machine(sprayer, ground, limits).verdict == Verdict::keep_off);
  const GroundVerdict grazed = judge_machine(cattle, ground, limits);
  CHECK(grazed.verdict == Verdict::carries);
  CHECK(grazed.reasons == std::vector<GroundReason>{{Kind::treads_topsoil, 20.0, 3.0}});
  ground.topsoil_deficit_mm = 6.0;
  ground.suction_topsoil_kpa = 16.0;  // heavy clay: closed under 20
  check_closed(judge_machine(cattle, ground, limits), Kind::heavy_clay_wet);
}

TEST_CASE("what wets the top of the ground keeps stock off as it does wheels") {
  const MachineLoad cattle{.heaviest_wheel = {0.36, 1.4}, .mass_t = 0.6, .tread = Tread::hooves};
  using State = GroundState<double>;
  const auto closed = [&](void (*change)(State&), Kind reason) {
    check_closed(judge_machine(cattle, ground_with(change), limits), reason);
  };
  closed([](State& g) { g.topsoil_deficit_mm = 2.9; }, Kind::topsoil_full);
  closed([](State& g) { g.rain_24h_mm = 10.1; }, Kind::rain);
  closed([](State& g) { g.thaw = 1.0; }, Kind::thaw);
  closed([](State& g) { g.snow_mm = 1.0; }, Kind::snow);
  closed([](State& g) { g.waterlogged = 1.0; }, Kind::waterlogged);
}

// 7 t at 0.6 bar would stand on 7 * 9.81 / 60 = 1.14 m2.
TEST_CASE("no pressure is offered at which a wheel would stand on more ground than a tyre can") {
  const MachineLoad combine{.heaviest_wheel = {7.0, 2.0}};
  GroundState<double> ground = dry_ground();
  ground.suction_topsoil_kpa = ground.suction_subsoil_kpa = 27.0;
  REQUIRE(judge_machine(combine, ground, limits).verdict == Verdict::keep_off);
  MachineLoad softer = combine;
  softer.heaviest_wheel.pressure_bar = 0.6;
  REQUIRE(judge_machine(softer, ground, limits).verdict == Verdict::with_care);
  CHECK(!pressure_that_carries_bar(combine, ground, limits));
}

TEST_CASE(
    "soil that may be wetter than said is judged by the worse, and not known between extremes") {
  const auto verdict = [](Verdict word, double margin) {
    return GroundVerdict{word, margin, {{Kind::presses_deep, 50.0, 60.0}}};
  };
  const GroundVerdict carries = verdict(Verdict::carries, 0.3);
  const GroundVerdict with_care = verdict(Verdict::with_care, 0.1);
  const GroundVerdict keep_off = verdict(Verdict::keep_off, -0.4);
  const GroundVerdict not_known{Verdict::not_known, {}, {{Kind::numbers_missing}}};

  CHECK(verdict_between({carries, carries, 14.0}) == carries);
  CHECK(verdict_between({not_known, keep_off, 14.0}) == not_known);
  const GroundVerdict careful = verdict_between({carries, with_care, 14.0});
  CHECK(careful.verdict == Verdict::with_care);
  CHECK(careful.margin == 0.1);
  CHECK(careful.reasons.front() == GroundReason{Kind::rain_not_known, 14.0, 0.0});
  CHECK(careful.reasons.size() == 2);
  CHECK(verdict_between({with_care, keep_off, 14.0}).verdict == Verdict::keep_off);
  // Too dry to crumble as said, just right if it rained.
  CHECK(verdict_between({keep_off, with_care, 14.0}).verdict == Verdict::keep_off);
  for (const GroundVerdict& between :
       {verdict_between({carries, keep_off, 14.0}), verdict_between({keep_off, carries, 14.0})}) {
    CHECK(between.verdict == Verdict::not_known);
    CHECK_FALSE(between.margin.has_value());
    CHECK(between.reasons.front().kind == Kind::rain_not_known);
  }
}
