#include <catch2/catch.hpp>

#include "daemon/farm/field_setup.hpp"
#include "model/spreading/leaching.hpp"
#include "model/water/field_day.hpp"

using namespace gley;

namespace {

/// What left the field and how much of a dressing of 1 September went below 300 mm with it.
struct Autumn {
  double runoff_mm = 0.0;
  double drainage_mm = 0.0;
  double leached = 0.0;
};

/// September to November on one soil: mild days, rain on every `every`-th.
struct Rain {
  double mm = 0.0;
  int every = 1;
};
constexpr Rain storms{28.0, 6};
constexpr Rain gentle{7.0, 2};

Autumn autumn_under(const std::string& crop, const Rain& rain) {
  daemon::FieldConfig config;
  config.id = "top";
  config.soil = daemon::SoilByClass{"clay loam"};
  config.drainage = daemon::DrainageClass::moderate;
  config.crop = crop;
  config.start_depletion_mm = 30.0;
  const model::Field field = daemon::field_of(config);
  model::StationDays whole({.latitude_deg = 53.4, .elevation_m = 71.0});
  const std::chrono::sys_days first = std::chrono::year{2025} / 9 / 1;
  std::optional<model::FieldState> state;
  Autumn out;
  for (int n = 0; n < 91; ++n) {
    const model::StationDay day = whole.next(first + std::chrono::days{n},
                                             {.rain_mm = (n + 1) % rain.every == 0 ? rain.mm : 0.0,
                                              .tmin_c = 9.0 - n * 0.05,
                                              .tmax_c = 18.0 - n * 0.08});
    if (!state) state = model::start_of(field, day);
    const model::FieldDay done = model::step_field(field, day, *state);
    out.runoff_mm += done.fluxes.runoff_mm;
    out.drainage_mm += done.fluxes.drainage_mm + done.fluxes.pipe_drain_mm;
  }
  out.leached = model::share_leached_from_surface(
      {.drainage_mm = out.drainage_mm, .depth_mm = 300.0, .field_capacity = 0.352});
  return out;
}

}  // namespace

// Order of the covers: TR-55 (1986), Table 2-2.
TEST_CASE("what covers the ground changes what runs off it in storms") {
  const double bare = autumn_under("bare soil", storms).runoff_mm;
  const double stubble = autumn_under("stubble", storms).runoff_mm;
  const double cover = autumn_under("cover crop", storms).runoff_mm;
  const double grass = autumn_under("grass", storms).runoff_mm;
  INFO(bare << ' ' << stubble << ' ' << cover << ' ' << grass << " mm");
  CHECK(stubble < 0.7 * bare);
  CHECK(cover < 0.7 * bare);
  CHECK(grass < 0.7 * cover);
}

TEST_CASE("a cover crop leaves less to leach than the stubble it was sown into") {
  const Autumn stubble = autumn_under("stubble", gentle);
  const Autumn cover = autumn_under("cover crop", gentle);
  INFO("drained " << stubble.drainage_mm << ' ' << cover.drainage_mm << " mm; leached "
                  << stubble.leached << ' ' << cover.leached);
  CHECK(cover.drainage_mm < 0.9 * stubble.drainage_mm);
  CHECK(cover.leached < stubble.leached - 0.03);
}
