#include "model/spreading/spreading_advice.hpp"

#include <catch2/catch.hpp>
#include <limits>

using namespace gley::model;

namespace {

using Kind = SpreadingReasonKind;

const SpreadingRules rules;
constexpr MaterialKind kinds[] = {MaterialKind::mineral_fertiliser, MaterialKind::slurry,
                                  MaterialKind::solid_manure, MaterialKind::spray};

SpreadingField dry_field() {
  SpreadingField field;
  field.ground.suction_topsoil_kpa = 60.0;
  field.ground.suction_subsoil_kpa = 60.0;
  field.ground.subsoil_saturation = 0.6;
  field.ground.subsoil_saturation_at_capacity = 0.75;
  field.ground.topsoil_deficit_mm = 20.0;
  field.ground.clay_pct = 20.0;
  field.topsoil_field_capacity = 0.35;
  field.place.slope_pct = 2.0;
  return field;
}

SpreadingField field_with(void (*change)(SpreadingField&)) {
  SpreadingField field = dry_field();
  change(field);
  return field;
}

SpreadingAdvice in_dry_weather(MaterialKind kind, const SpreadingField& field) {
  return advise(kind, field, SpreadingOutlook{}, rules);
}

SpreadingAdvice on_dry_ground(MaterialKind kind, const SpreadingOutlook& outlook) {
  return advise(kind, dry_field(), outlook, rules);
}

void check_held(const SpreadingAdvice& advice, Kind first_reason) {
  CHECK(advice.advice == Advice::hold);
  CHECK(advice.reasons.front().kind == first_reason);
  CHECK(advice.reasons.front().holds);
}

bool warns_of(const SpreadingAdvice& advice, Kind kind) {
  for (const SpreadingReason& reason : advice.reasons)
    if (reason.kind == kind && !reason.holds) return true;
  return false;
}

}  // namespace

TEST_CASE("dry ground under a dry outlook is clear for every material") {
  for (const MaterialKind kind : kinds) {
    const SpreadingAdvice advice = in_dry_weather(kind, dry_field());
    CHECK(advice.advice == Advice::clear);
    CHECK(advice.reasons.front().kind == Kind::nothing_against);
  }
}

// Wind decides a spraying hour, and nothing here judges it.
TEST_CASE("a clear spray says that wind and drift are not judged, what does not drift does not") {
  for (const MaterialKind kind : kinds) {
    const SpreadingAdvice advice = in_dry_weather(kind, dry_field());
    CHECK(advice.advice == Advice::clear);
    CHECK(warns_of(advice, Kind::drift_not_judged) == (kind == MaterialKind::spray));
  }
}

TEST_CASE(
    "without a forecast spreading is not known, and the field's own reasons are still named") {
  const SpreadingField frozen = field_with([](SpreadingField& f) { f.frozen = true; });
  for (const MaterialKind kind : kinds) {
    const SpreadingAdvice advice = advise(kind, frozen, {}, rules);
    CHECK(advice.advice == Advice::not_known);
    CHECK(advice.reasons.at(0).kind == Kind::no_forecast);
    CHECK(advice.reasons.at(1).kind == Kind::frozen);
  }
}

TEST_CASE("what lies on or in the ground holds every material") {
  for (const MaterialKind kind : kinds) {
    const auto held = [kind](void (*change)(SpreadingField&), Kind reason) {
      check_held(in_dry_weather(kind, field_with(change)), reason);
    };
    held([](SpreadingField& f) { f.ground.waterlogged = 1.0; }, Kind::waterlogged);
    held([](SpreadingField& f) { f.ground.snow_mm = 1.0; }, Kind::snow);
    held([](SpreadingField& f) { f.frozen = true; }, Kind::frozen);
    held([](SpreadingField& f) { f.ground.topsoil_deficit_mm = 1.0; }, Kind::ground_closed);
    held([](SpreadingField& f) { f.ground.thaw = 1.0; }, Kind::ground_closed);
  }
}

TEST_CASE("a closed ground names what closed it") {
  const SpreadingAdvice advice =
      in_dry_weather(MaterialKind::slurry,
                     field_with([](SpreadingField& f) { f.ground.topsoil_deficit_mm = 1.0; }));
  REQUIRE(advice.reasons.front().ground);
  CHECK(*advice.reasons.front().ground == GroundReason{GroundReasonKind::topsoil_full, 1.0, 3.0});
}

TEST_CASE("running drains hold liquids on any soil and solids on a cracking clay") {
  const SpreadingField light = field_with([](SpreadingField& f) { f.drains_running = true; });
  SpreadingField clay = light;
  clay.ground.clay_pct = 31.0;
  check_held(in_dry_weather(MaterialKind::slurry, light), Kind::drains_running);
  check_held(in_dry_weather(MaterialKind::spray, light), Kind::drains_running);
  for (const MaterialKind kind : {MaterialKind::mineral_fertiliser, MaterialKind::solid_manure}) {
    const SpreadingAdvice on_light = in_dry_weather(kind, light);
    CHECK(on_light.advice == Advice::clear);
    CHECK(warns_of(on_light, Kind::drains_running));
    check_held(in_dry_weather(kind, clay), Kind::drains_running);
  }
}

TEST_CASE("a chance of heavy rain from 0.3 holds every material") {
  for (const MaterialKind kind : kinds) {
    CHECK(on_dry_ground(kind, {.chance_heavy_rain_48h = 0.29}).advice == Advice::clear);
    check_held(on_dry_ground(kind, {.chance_heavy_rain_48h = 0.3}), Kind::heavy_rain_coming);
  }
}

TEST_CASE("expected runoff holds from 1 mm and is a warning below") {
  const SpreadingAdvice little =
      on_dry_ground(MaterialKind::mineral_fertiliser, {.runoff_48h_mm = 0.4});
  CHECK(little.advice == Advice::clear);
  CHECK(warns_of(little, Kind::runoff_coming));
  check_held(on_dry_ground(MaterialKind::mineral_fertiliser, {.runoff_48h_mm = 1.0}),
             Kind::runoff_coming);
}

TEST_CASE("a dressing of which 2 % would leach in 7 days is held; a spray is not judged by it") {
  // exp(-300 * 0.35 / P) reaches 0.02 at P = 105 / ln 50 = 26.84 mm.
  const SpreadingOutlook less{.drainage_7d_mm = 26.8};
  const SpreadingOutlook more{.drainage_7d_mm = 26.9};
  for (const MaterialKind kind :
       {MaterialKind::mineral_fertiliser, MaterialKind::slurry, MaterialKind::solid_manure}) {
    CHECK(on_dry_ground(kind, less).advice == Advice::clear);
    check_held(on_dry_ground(kind, more), Kind::would_leach);
  }
  CHECK(on_dry_ground(MaterialKind::spray, more).advice == Advice::clear);
}

TEST_CASE("slope holds what would run off, and spares a spray") {
  SpreadingField field = dry_field();
  field.place.slope_pct = 22.0;
  check_held(in_dry_weather(MaterialKind::solid_manure, field), Kind::too_steep);
  CHECK(in_dry_weather(MaterialKind::spray, field).advice == Advice::clear);
}

TEST_CASE("a buffer leaves a strip out, and holds only where nothing else is left") {
  SpreadingField field = dry_field();
  field.place.area_ha = 4.0;
  field.place.water_distance_m = 5.0;
  field.place.water_edge_m = 200.0;
  field.place.spring_distance_m = 100.0;
  CHECK_FALSE(
      warns_of(in_dry_weather(MaterialKind::mineral_fertiliser, field), Kind::too_near_to_water));
  const SpreadingAdvice slurry = in_dry_weather(MaterialKind::slurry, field);
  CHECK(slurry.advice == Advice::clear);
  REQUIRE(warns_of(slurry, Kind::too_near_to_water));
  CHECK(slurry.reasons.back().lost_ha == Approx(0.1));
  field.place.area_ha = 0.1;
  check_held(in_dry_weather(MaterialKind::slurry, field), Kind::too_near_to_water);
  field.place.water_distance_m = 1.9;
  CHECK(warns_of(in_dry_weather(MaterialKind::mineral_fertiliser, field), Kind::too_near_to_water));
  field = dry_field();
  field.place.spring_distance_m = 40.0;
  CHECK(warns_of(in_dry_weather(MaterialKind::solid_manure, field), Kind::too_near_to_spring));
}

// English guidance keeps manures 10 m from water and 50 m from springs, fertiliser 2 m from water.
TEST_CASE("a distance that a rule asks for and that is not given is named, never taken as kept") {
  SpreadingField field = dry_field();
  for (const MaterialKind kind : {MaterialKind::slurry, MaterialKind::solid_manure}) {
    CHECK(warns_of(in_dry_weather(kind, field), Kind::water_not_given));
    CHECK(warns_of(in_dry_weather(kind, field), Kind::spring_not_given));
  }
  CHECK(warns_of(in_dry_weather(MaterialKind::mineral_fertiliser, field), Kind::water_not_given));
  CHECK_FALSE(
      warns_of(in_dry_weather(MaterialKind::mineral_fertiliser, field), Kind::spring_not_given));
  field.place.water_distance_m = 300.0;
  field.place.spring_distance_m = 300.0;
  CHECK_FALSE(warns_of(in_dry_weather(MaterialKind::slurry, field), Kind::water_not_given));
  CHECK_FALSE(warns_of(in_dry_weather(MaterialKind::slurry, field), Kind::spring_not_given));
}

TEST_CASE("an outlook or a field that is not all numbers is not known") {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  for (const MaterialKind kind : kinds) {
    const SpreadingAdvice advice = on_dry_ground(kind, {.chance_heavy_rain_48h = none});
    CHECK(advice.advice == Advice::not_known);
    CHECK(advice.reasons.front().kind == Kind::numbers_missing);
    SpreadingField field = dry_field();
    field.ground.topsoil_deficit_mm = none;
    CHECK(in_dry_weather(kind, field).advice == Advice::not_known);
  }
}

TEST_CASE("what would hold if rain that nobody measured had fallen holds") {
  const SpreadingAdvice clear = in_dry_weather(MaterialKind::slurry, dry_field());
  const SpreadingAdvice hold = in_dry_weather(
      MaterialKind::slurry, field_with([](SpreadingField& f) { f.drains_running = true; }));
  REQUIRE(clear.advice == Advice::clear);
  REQUIRE(hold.advice == Advice::hold);
  const SpreadingAdvice between = advice_between({clear, hold, 9.0});
  CHECK(between.advice == Advice::hold);
  CHECK(between.reasons.front().kind == Kind::rain_not_known);
  CHECK(between.reasons.front().found == 9.0);
  CHECK(between.reasons.size() == hold.reasons.size() + 1);
  CHECK(advice_between({clear, clear, 9.0}) == clear);
  CHECK(advice_between({hold, hold, 9.0}) == hold);
  CHECK(advice_between({hold, clear, 9.0}) == hold);
}
