// The outlook of a farm, on one core: 500 fields, 10 machines, 50 members, 7 days; and the same
// with four kinds of material to spread.
#include <cstdio>
#include <string>
#include <vector>

#include "daemon/farm/field_setup.hpp"
#include "model/outlook/field_outlook.hpp"
#include "tests/bench/stopwatch.hpp"

namespace gley::bench {
namespace {

using namespace gley::model;
using std::chrono::days;

constexpr int field_count = 500;
constexpr int machine_count = 10;
constexpr int member_count = 50;
constexpr int day_count = 7;
constexpr int passes = 5;
const std::chrono::sys_days first_day = std::chrono::year{2026} / 4 / 6;

Field field(int number) {
  static const char* const soils[] = {"sandy loam", "sandy silt loam", "clay loam", "clay",
                                      "silt loam"};
  static const char* const crops[] = {"grass", "winter wheat", "spring barley", "grass"};
  static const daemon::DrainageClass drains[] = {
      daemon::DrainageClass::free, daemon::DrainageClass::moderate, daemon::DrainageClass::slow,
      daemon::DrainageClass::poor};
  daemon::FieldConfig config;
  config.id = std::to_string(number);
  config.soil = daemon::SoilByClass{soils[number % 5]};
  config.crop = std::string(crops[number % 4]);
  config.drainage = drains[number / 5 % 4];
  return daemon::field_of(config);
}

/// Showers that differ from member to member, without measured meaning.
DailyWeather weather(int member, int day) {
  const int turn = (member * 37 + day * 11) % 23;
  const double rain_mm = turn < 8 ? 0.0 : (turn - 7) * 0.8;
  return {.rain_mm = rain_mm,
          .tmin_c = 4.0 + member % 5,
          .tmax_c = 11.0 + (member + day) % 6,
          .rh_mean_pct = 78.0,
          .wind_m_s = 3.0};
}

WeatherAhead weather_ahead() {
  WeatherAhead ahead;
  for (int m = 0; m < member_count; ++m) {
    StationDays whole({.latitude_deg = 53.9, .elevation_m = 57.0});
    auto& member = ahead.members.emplace_back();
    for (int d = 0; d < day_count; ++d)
      member.push_back(whole.next(first_day + days{d}, weather(m, d)));
  }
  ahead.heavy_rain.assign(day_count - 1, std::vector<bool>(member_count, false));
  return ahead;
}

std::vector<MachineStress> machines(const GroundLimits& limits) {
  std::vector<MachineStress> out;
  for (int i = 0; i < machine_count; ++i)
    out.push_back(machine_stress({.heaviest_wheel = {0.2 + 0.5 * i, 0.3 + 0.15 * i},
                                  .mass_t = 0.5 + 1.8 * i,
                                  .cultivates = i % 5 == 4},
                                 limits));
  return out;
}

struct Farm {
  std::vector<Field> fields;
  std::vector<FieldState> evenings;
};

Farm farm() {
  Farm out;
  const WeatherAhead past = weather_ahead();
  for (int f = 0; f < field_count; ++f) {
    out.fields.push_back(field(f));
    FieldState state;
    for (const StationDay& day : past.members[static_cast<std::size_t>(f % member_count)])
      step_field(out.fields.back(), day, state);
    out.evenings.push_back(state);
  }
  return out;
}

double seconds(const Farm& farm, const OutlookQuestion& question) {
  double chances = 0.0;
  const double best = best_seconds(passes, [&] {
    const WeatherAhead ahead = weather_ahead();
    for (std::size_t f = 0; f < farm.fields.size(); ++f)
      chances += field_outlook({farm.fields[f], farm.evenings[f], false, {}}, ahead, question)
                     .chance_at_capacity_48h;
  });
  if (chances <= 0.0) std::fprintf(stderr, "the outlook found nothing\n");
  return best;
}

void run() {
  const Farm all = farm();
  OutlookQuestion question;
  question.machines = machines(question.rules.ground);
  std::printf("outlook: %.3f s\n", seconds(all, question));
  question.materials = {MaterialKind::mineral_fertiliser, MaterialKind::slurry,
                        MaterialKind::solid_manure, MaterialKind::spray};
  std::printf("outlook_with_spreading: %.3f s\n", seconds(all, question));
}

}  // namespace
}  // namespace gley::bench

int main() {
  gley::bench::run();
}
