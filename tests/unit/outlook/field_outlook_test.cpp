#include "model/outlook/field_outlook.hpp"

#include <catch2/catch.hpp>

#include "model/ground/ground_verdict.hpp"
#include "tests/unit/engine/past_days.hpp"

using namespace gley::model;
using gley::daemon::clay_field;
using std::chrono::days;

namespace {

constexpr std::size_t days_ahead = 7;
constexpr std::size_t spreading_days = days_ahead - 1;
const std::chrono::sys_days monday = std::chrono::year{2026} / 4 / 6;
const MachineLoad tractor{.heaviest_wheel = {1.2, 0.6}, .mass_t = 5.0, .cultivates = false};

std::vector<StationDay> member(double rain_mm) {
  StationDays whole({.latitude_deg = 53.4, .elevation_m = 71.0});
  std::vector<StationDay> out;
  for (std::size_t d = 0; d < days_ahead; ++d)
    out.push_back(whole.next(monday + days{static_cast<int>(d)},
                             {.rain_mm = rain_mm, .tmin_c = 5.0, .tmax_c = 14.0}));
  return out;
}

struct Scene {
  Field field = clay_field();
  FieldState evening;
  OutlookQuestion question;
  WeatherAhead weather;
  SpreadingPlace place;

  Scene() {
    question.machines = {machine_stress(tractor, question.rules.ground)};
    question.materials = {MaterialKind::slurry, MaterialKind::slurry};
    evening.water.excess_mm[0] = evening.water.excess_mm[1] = -4.0;
  }
  void members(std::vector<std::vector<StationDay>> members) {
    weather.heavy_rain.assign(spreading_days, std::vector<bool>(members.size(), false));
    weather.members = std::move(members);
  }
  [[nodiscard]] FieldOutlook look() const {
    return field_outlook({field, evening, false, place}, weather, question);
  }
};

}  // namespace

TEST_CASE("one member's outlook is the field step and verdict of each day") {
  Scene scene;
  scene.members({member(3.0)});
  const FieldOutlook outlook = scene.look();
  FieldState state = scene.evening;
  bool frozen = false;
  for (std::size_t d = 0; d < days_ahead; ++d) {
    const FieldDay day = step_field(scene.field, scene.weather.members[0][d], state);
    const GroundVerdict verdict = judge_machine(
        tractor, ground_state(scene.field, day, {.frozen = frozen}), scene.question.rules.ground);
    frozen = day.ground.frozen;
    const double expected = verdict.verdict == Verdict::carries ? 2.0 / 3.0 : 1.0 / 3.0;
    CHECK(outlook.machine_chance[0][d] == Approx(expected));
  }
}

TEST_CASE("where rain is not known every second member begins from the wetter evening") {
  Scene scene;
  scene.members({member(0.0), member(0.0)});
  FieldState wetter = scene.evening;
  wetter.water.excess_mm[0] = wetter.water.excess_mm[1] = 0.0;
  const auto look = [&](const FieldState& evening, const FieldState* if_wetter) {
    return field_outlook({scene.field, evening, false, {}, if_wetter}, scene.weather,
                         scene.question);
  };
  const FieldOutlook both = look(scene.evening, &wetter);
  const FieldOutlook dry = look(scene.evening, nullptr);
  const FieldOutlook wet = look(wetter, nullptr);
  REQUIRE(wet.days[0].topsoil_deficit_mm.middle < dry.days[0].topsoil_deficit_mm.middle - 5.0);
  for (std::size_t d = 0; d < days_ahead; ++d)
    CHECK(both.machine_chance[0][d] ==
          Approx((dry.machine_chance[0][d] + wet.machine_chance[0][d]) / 2.0));
  CHECK(both.days[0].topsoil_deficit_mm.low < dry.days[0].topsoil_deficit_mm.low - 1.0);
}

TEST_CASE("a wetter member never makes a machine likelier") {
  Scene drier;
  drier.members({member(0.0), member(1.0), member(2.0)});
  Scene wetter;
  wetter.members({member(0.0), member(1.0), member(15.0)});
  const FieldOutlook dry = drier.look();
  const FieldOutlook wet = wetter.look();
  for (std::size_t d = 0; d < days_ahead; ++d)
    CHECK(wet.machine_chance[0][d] <= dry.machine_chance[0][d]);
  CHECK(wet.water.drainage_48h_mm >= dry.water.drainage_48h_mm);
  CHECK(wet.chance_at_capacity_48h >= dry.chance_at_capacity_48h);
}

TEST_CASE("rain that fills the soil within two days is counted, later rain is not") {
  Scene scene;
  std::vector<StationDay> late = member(0.0);
  late[2] = member(60.0)[2];
  scene.members({late});
  CHECK(scene.look().chance_at_capacity_48h == Approx(1.0 / 3.0));
  std::vector<StationDay> soon = member(0.0);
  soon[1] = member(60.0)[1];
  scene.members({soon});
  CHECK(scene.look().chance_at_capacity_48h == Approx(2.0 / 3.0));
}

TEST_CASE("water still to leave today counts by the time that is left") {
  Scene scene;
  std::vector<StationDay> rain_today = member(0.0);
  rain_today[0] = member(60.0)[0];
  scene.members({rain_today});
  const FieldOutlook morning = scene.look();
  scene.weather.share_of_today_left = 0.0;
  const FieldOutlook evening = scene.look();
  CHECK(evening.water.runoff_48h_mm < morning.water.runoff_48h_mm);
}

TEST_CASE("materials of one kind have one answer, and no window on the last day") {
  Scene scene;
  scene.members({member(0.0), member(0.0), member(0.0)});
  const FieldOutlook outlook = scene.look();
  REQUIRE(outlook.materials.size() == 2);
  CHECK(outlook.materials[0] == outlook.materials[1]);
  for (const DayWindow& window : outlook.materials[0]) CHECK(window.end <= days_ahead - 1);
}

TEST_CASE("no day is clear to spread that heavy rain follows") {
  Scene scene;
  scene.evening.water.excess_mm[0] = scene.evening.water.excess_mm[1] = -20.0;
  scene.members({member(0.0), member(0.0), member(0.0)});
  REQUIRE(scene.look().materials[0].front().first == 0);
  scene.weather.heavy_rain[0] = scene.weather.heavy_rain[1] = {true, true, true};
  CHECK(scene.look().materials[0].front().first == 2);
}

TEST_CASE("a field that lies within a buffer to water as a whole has no window to spread") {
  Scene scene;
  scene.evening.water.excess_mm[0] = scene.evening.water.excess_mm[1] = -20.0;
  scene.members({member(0.0), member(0.0), member(0.0)});
  // 5 m of the 10 m that slurry keeps from water, along 200 m of edge: 0.1 ha.
  scene.place = {.water_distance_m = 5.0, .water_edge_m = 200.0, .area_ha = 4.0};
  CHECK_FALSE(scene.look().materials[0].empty());
  scene.place.area_ha = 0.1;
  CHECK(scene.look().materials[0].empty());
}

TEST_CASE("without members there is no outlook") {
  CHECK(Scene{}.look().machines.empty());
}

TEST_CASE("each coming day tells where the members' water lies") {
  Scene scene;
  scene.members({member(0.0), member(0.0), member(0.0), member(40.0)});
  const FieldOutlook outlook = scene.look();
  REQUIRE(outlook.days.size() == days_ahead);
  CHECK(outlook.days[0].rain_mm.middle == 0.0);
  CHECK(outlook.days[0].rain_mm.high == Approx(28.0));  // place 0.9 * 3 = 2.7 of 0, 0, 0, 40
  for (const DaySpread& day : outlook.days) {
    CHECK(day.depletion_mm.low <= day.depletion_mm.middle);
    CHECK(day.depletion_mm.middle <= day.depletion_mm.high);
    CHECK(day.chance_at_capacity == Approx(2.0 / 6.0));
  }
}
