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

/// September to November on one soil: mild days, a storm of 28 mm every sixth.
Autumn autumn_under(const std::string& crop) {
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
    const model::StationDay day = whole.next(
        first + std::chrono::days{n},
        {.rain_mm = n % 6 == 5 ? 28.0 : 0.0, .tmin_c = 9.0 - n * 0.05, .tmax_c = 18.0 - n * 0.08});
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

TEST_CASE("what covers the ground changes what runs off it and what leaches from it") {
  const Autumn bare = autumn_under("bare soil");
  const Autumn stubble = autumn_under("stubble");
  const Autumn cover = autumn_under("cover crop");
  const Autumn grass = autumn_under("grass");
  INFO("runoff " << bare.runoff_mm << ' ' << stubble.runoff_mm << ' ' << cover.runoff_mm << ' '
                 << grass.runoff_mm << " mm; leached " << bare.leached << ' ' << stubble.leached
                 << ' ' << cover.leached << ' ' << grass.leached);
  // Visibly: by a fifth and more between neighbours in the order of TR-55 (1986), Table 2-2.
  CHECK(bare.runoff_mm > 1.2 * stubble.runoff_mm);
  CHECK(stubble.runoff_mm > 1.2 * cover.runoff_mm);
  CHECK(cover.runoff_mm > grass.runoff_mm);
  CHECK(grass.leached < bare.leached);
  CHECK(cover.leached < bare.leached);
}
