// What must hold of every verdict, over generated ground and machines. The generator is seeded, so
// a failure repeats.
#include <catch2/catch.hpp>
#include <random>

#include "model/ground/ground_margin.hpp"
#include "model/ground/ground_verdict.hpp"
#include "model/ground/remedy.hpp"
#include "model/soil/suction.hpp"

using namespace gley::model;

namespace {

constexpr int trials = 20000;

class GroundGenerator {
 public:
  explicit GroundGenerator(unsigned seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  bool chance(double probability) { return between(0.0, 1.0) < probability; }

  Horizon horizon() {
    const double wilting = between(0.03, 0.30);
    const double capacity = wilting + between(0.08, 0.25);
    return {.wilting_point = wilting,
            .field_capacity = capacity,
            .saturation = capacity + between(0.01, 0.35),
            .retention_b = between(2.0, 12.0),
            .saturated_conductivity_mm_h = 1.0};
  }

  MachineLoad machine() {
    MachineLoad out;
    // Often near the limits of the lightest and the light wheels, where a rule changes.
    out.heaviest_wheel.load_t = chance(0.3) ? between(0.1, 0.4) : between(0.2, 10.0);
    out.heaviest_wheel.pressure_bar = chance(0.3) ? between(0.2, 0.9) : between(0.3, 4.0);
    if (chance(0.7)) out.mass_t = out.heaviest_wheel.load_t * between(1.0, 6.0);
    return out;
  }

 private:
  std::mt19937 engine_;
};

/// A field's soil and its weather, apart from how wet it is.
struct Place {
  Horizon topsoil;
  Horizon subsoil;
  double clay_pct;
};

struct Water {
  double theta_topsoil;
  double theta_subsoil;
  double rain_mm;
};

GroundState<double> ground_at(const Place& place, const Water& water) {
  GroundState<double> ground;
  const double excess = 300.0 * (water.theta_topsoil - place.topsoil.field_capacity);
  const double room = 300.0 * (place.topsoil.saturation - place.topsoil.field_capacity);
  ground.suction_topsoil_kpa = suction_kpa(place.topsoil, water.theta_topsoil);
  ground.suction_subsoil_kpa = suction_kpa(place.subsoil, water.theta_subsoil);
  ground.subsoil_saturation = water.theta_subsoil / place.subsoil.saturation;
  ground.subsoil_saturation_at_capacity = place.subsoil.field_capacity / place.subsoil.saturation;
  ground.topsoil_deficit_mm = greatest(0.0, -excess);
  ground.waterlogged = excess >= 0.5 * room ? 1.0 : 0.0;
  ground.rain_24h_mm = water.rain_mm;
  ground.clay_pct = place.clay_pct;
  return ground;
}

Place place_of(GroundGenerator& make) {
  return {make.horizon(), make.horizon(), make.between(0.0, 60.0)};
}

Water water_of(GroundGenerator& make, const Place& place) {
  return {make.between(place.topsoil.wilting_point, place.topsoil.saturation),
          make.between(place.subsoil.wilting_point, place.subsoil.saturation),
          make.chance(0.7) ? 0.0 : make.between(0.0, 20.0)};
}

double margin_of(const MachineLoad& machine, const GroundState<double>& ground) {
  const GroundLimits limits;
  return machine_margin(machine_stress(machine, limits), ground_strength(ground, limits), limits);
}

/// `worsen` multiplies something of a machine by a factor over 1.
void check_never_safer(unsigned seed, void (*worsen)(MachineLoad& machine, double by)) {
  GroundGenerator make(seed);
  for (int i = 0; i < trials; ++i) {
    const Place place = place_of(make);
    const GroundState<double> ground = ground_at(place, water_of(make, place));
    const MachineLoad machine = make.machine();
    MachineLoad worse = machine;
    worsen(worse, make.between(1.0, 2.0));
    REQUIRE(margin_of(worse, ground) <= margin_of(machine, ground));
  }
}

/// Four fields side by side, to prove that the margins need no branch on a field.
struct FourLanes {
  std::array<double, 4> lane{};
  FourLanes() = default;
  explicit FourLanes(double value) { lane.fill(value); }
};
using FourMasks = std::array<bool, 4>;

template <class Operation>
FourLanes each(const FourLanes& a, const FourLanes& b, Operation operation) {
  FourLanes out;
  for (std::size_t i = 0; i < 4; ++i) out.lane[i] = operation(a.lane[i], b.lane[i]);
  return out;
}

FourLanes operator+(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return x + y; });
}
FourLanes operator-(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return x - y; });
}
FourLanes operator*(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return x * y; });
}
FourLanes operator/(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return x / y; });
}
FourMasks operator<(const FourLanes& a, const FourLanes& b) {
  FourMasks out{};
  for (std::size_t i = 0; i < 4; ++i) out[i] = a.lane[i] < b.lane[i];
  return out;
}
FourLanes select(const FourMasks& mask, const FourLanes& a, const FourLanes& b) {
  FourLanes out;
  for (std::size_t i = 0; i < 4; ++i) out.lane[i] = mask[i] ? a.lane[i] : b.lane[i];
  return out;
}
FourLanes least(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return gley::model::least(x, y); });
}
FourLanes greatest(const FourLanes& a, const FourLanes& b) {
  return each(a, b, [](double x, double y) { return gley::model::greatest(x, y); });
}

void put(const GroundState<double>& from, std::size_t i, GroundState<FourLanes>& to) {
  to.suction_topsoil_kpa.lane[i] = from.suction_topsoil_kpa;
  to.suction_subsoil_kpa.lane[i] = from.suction_subsoil_kpa;
  to.subsoil_saturation.lane[i] = from.subsoil_saturation;
  to.topsoil_deficit_mm.lane[i] = from.topsoil_deficit_mm;
  to.rain_24h_mm.lane[i] = from.rain_24h_mm;
  to.snow_mm.lane[i] = from.snow_mm;
  to.waterlogged.lane[i] = from.waterlogged;
  to.thaw.lane[i] = from.thaw;
  to.deep_frost.lane[i] = from.deep_frost;
}

}  // namespace

TEST_CASE("a heavier wheel is never safer") {
  check_never_safer(1,
                    [](MachineLoad& machine, double by) { machine.heaviest_wheel.load_t *= by; });
}

TEST_CASE("a higher tyre pressure is never safer") {
  check_never_safer(
      2, [](MachineLoad& machine, double by) { machine.heaviest_wheel.pressure_bar *= by; });
}

TEST_CASE("wetter ground never carries a machine better") {
  GroundGenerator make(3);
  for (int i = 0; i < trials; ++i) {
    const Place place = place_of(make);
    const Water water = water_of(make, place);
    const Water wetter{make.between(water.theta_topsoil, place.topsoil.saturation),
                       make.between(water.theta_subsoil, place.subsoil.saturation),
                       water.rain_mm + (make.chance(0.5) ? 0.0 : make.between(0.0, 10.0))};
    const MachineLoad machine = make.machine();
    REQUIRE(margin_of(machine, ground_at(place, wetter)) <=
            margin_of(machine, ground_at(place, water)));
  }
}

TEST_CASE("snow, thaw and a heavier whole never make ground safer") {
  GroundGenerator make(4);
  for (int i = 0; i < trials; ++i) {
    const Place place = place_of(make);
    const GroundState<double> ground = ground_at(place, water_of(make, place));
    GroundState<double> worse = ground;
    if (make.chance(0.5)) worse.snow_mm = make.between(0.0, 5.0);
    if (make.chance(0.5)) worse.thaw = 1.0;
    MachineLoad machine = make.machine();
    const double margin = margin_of(machine, ground);
    if (machine.mass_t) *machine.mass_t *= make.between(1.0, 2.0);
    REQUIRE(margin_of(machine, worse) <= margin);
  }
}

TEST_CASE(
    "the reasons of a verdict tell of a closed gate or a failed test just where it is 'keep off'") {
  GroundGenerator make(5);
  const GroundLimits limits;
  for (int i = 0; i < trials; ++i) {
    const Place place = place_of(make);
    GroundState<double> ground = ground_at(place, water_of(make, place));
    ground.deep_frost = make.chance(0.1) ? 1.0 : 0.0;
    MachineLoad machine = make.machine();
    machine.cultivates = make.chance(0.3);
    const GroundVerdict verdict = judge_machine(machine, ground, limits);
    REQUIRE(!verdict.reasons.empty());
    bool against = false;
    for (const GroundReason& reason : verdict.reasons) {
      using Kind = GroundReasonKind;
      if (reason.kind == Kind::presses_deep || reason.kind == Kind::presses_shallow)
        against = against || reason.found > reason.needed;
      else if (reason.kind == Kind::mass_needs_drier)
        against = against || reason.found < reason.needed;
      else
        against = against || (reason.kind != Kind::mass_unknown &&
                              reason.kind != Kind::frost_carries && reason.kind != Kind::may_blow);
    }
    REQUIRE((verdict.verdict == Verdict::keep_off) == against);
  }
}

TEST_CASE("many fields side by side have the margins of each alone, to the bit") {
  GroundGenerator make(6);
  const GroundLimits limits;
  for (int i = 0; i < trials / 4; ++i) {
    const Place place = place_of(make);
    const MachineStress machine = machine_stress(make.machine(), limits);
    GroundState<FourLanes> four;
    std::array<GroundState<double>, 4> one;
    for (std::size_t l = 0; l < 4; ++l) {
      one[l] = ground_at(place, water_of(make, place));
      one[l].thaw = make.chance(0.1) ? 1.0 : 0.0;
      one[l].deep_frost = make.chance(0.1) ? 1.0 : 0.0;
      put(one[l], l, four);
    }
    four.clay_pct = place.clay_pct;
    four.subsoil_saturation_at_capacity = one[0].subsoil_saturation_at_capacity;
    const FourLanes margins = machine_margin(machine, ground_strength(four, limits), limits);
    for (std::size_t l = 0; l < 4; ++l)
      REQUIRE(margins.lane[l] == machine_margin(machine, ground_strength(one[l], limits), limits));
  }
}

TEST_CASE("a remedy is real: the changed machine has the better verdict it promises") {
  GroundGenerator make(7);
  const GroundLimits limits;
  for (int i = 0; i < trials; ++i) {
    const Place place = place_of(make);
    const GroundState<double> ground = ground_at(place, water_of(make, place));
    const MachineLoad machine = make.machine();
    const Verdict now = judge_machine(machine, ground, limits).verdict;
    if (const auto remedy = pressure_that_carries_bar(machine, ground, limits)) {
      MachineLoad softer = machine;
      softer.heaviest_wheel.pressure_bar = remedy->value;
      REQUIRE(remedy->value < machine.heaviest_wheel.pressure_bar);
      REQUIRE(judge_machine(softer, ground, limits).verdict == remedy->verdict);
      REQUIRE(remedy->verdict < now);
    }
    if (const auto remedy = load_share_that_carries(machine, ground, limits)) {
      MachineLoad emptier = machine;
      emptier.heaviest_wheel.load_t *= remedy->value;
      if (emptier.mass_t) *emptier.mass_t *= remedy->value;
      REQUIRE(judge_machine(emptier, ground, limits).verdict == remedy->verdict);
      REQUIRE(remedy->verdict < now);
    }
  }
}
