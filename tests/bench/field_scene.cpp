#include "tests/bench/field_scene.hpp"

#include <array>
#include <random>

#include "model/soil/retention.hpp"
#include "model/water/runoff.hpp"

namespace gley::bench {

using namespace gley::model;

namespace {

constexpr std::array<Texture, 8> textures{{{.sand_pct = 85, .clay_pct = 5, .organic_pct = 3},
                                           {.sand_pct = 65, .clay_pct = 12, .organic_pct = 3},
                                           {.sand_pct = 40, .clay_pct = 20, .organic_pct = 3},
                                           {.sand_pct = 20, .clay_pct = 15, .organic_pct = 3},
                                           {.sand_pct = 30, .clay_pct = 30, .organic_pct = 3},
                                           {.sand_pct = 10, .clay_pct = 32, .organic_pct = 4},
                                           {.sand_pct = 15, .clay_pct = 42, .organic_pct = 4},
                                           {.sand_pct = 20, .clay_pct = 52, .organic_pct = 5}}};

Horizon horizon_of(const Texture& texture) {
  const Retention r = retention_from_texture(texture);
  return {.wilting_point = r.wilting_point,
          .field_capacity = r.theta_33 + 0.04,
          .saturation = greatest(r.saturation, r.theta_33 + 0.08),
          .retention_b = r.b,
          .saturated_conductivity_mm_h = r.saturated_conductivity_mm_h};
}

CropCourse crop_of(int kind) {
  CropCourse crop;
  const double kcb = kind == 0 ? 0.95 : 1.10;
  crop.kcb.coefficients = {.initial = kcb, .mid_season = kcb, .end = kcb};
  crop.height_m = kind == 0 ? 0.15 : 0.8;
  crop.root_max_mm = kind == 0 ? 500.0 : 1200.0;
  crop.depletion_fraction = kind == 0 ? 0.40 : 0.55;
  if (kind == 0) crop.cover = 0.9;
  const CurveNumbers numbers = curve_numbers(kind == 0 ? 69.0 : 76.0, 3.0);
  crop.storage_dry_mm = runoff_storage_mm(numbers.dry);
  crop.storage_wet_mm = runoff_storage_mm(numbers.wet);
  return crop;
}

void add_classes(const Texture& texture, double depth_mm, std::vector<FieldClass>& classes) {
  const Horizon top = horizon_of(texture);
  const SoilProfile soil = profile_of(top, subsoil_under(top), texture.clay_pct, depth_mm);
  for (int drainage = 0; drainage < 4; ++drainage)
    for (int crop = 0; crop < 2; ++crop) {
      FieldDescription description{.soil = soil, .drainage = static_cast<DrainageClass>(drainage)};
      if (drainage > 1 && crop == 1) description.pipes = PipeDrains{};
      const FieldParameters field = field_parameters(description);
      const StandDay stand = stand_day(crop_of(crop), 1, {}, soil);
      classes.push_back({field, stand, class_day(field, stand)});
    }
}

/// Rain of a wet month: many small falls, a few storms.
class Rain {
 public:
  double storm_mm() { return std::exponential_distribution<double>(1.0 / 5.0)(engine_); }
  double share() { return std::uniform_real_distribution<double>(0.3, 1.7)(engine_); }
  bool dry() { return std::bernoulli_distribution(0.55)(engine_); }

 private:
  std::mt19937 engine_{20260104};
};

}  // namespace

std::vector<FieldClass> field_classes(double soil_depth_mm) {
  std::vector<FieldClass> classes;
  for (const Texture& texture : textures) add_classes(texture, soil_depth_mm, classes);
  return classes;
}

FieldScene::FieldScene(int fields, Weather weather, double soil_depth_mm)
    : fields_(fields), classes_(field_classes(soil_depth_mm)) {
  const int blocks = (fields + block_fields - 1) / block_fields;
  water_.assign(static_cast<std::size_t>(blocks), BlockWater{});
  fill_with_weather(weather);
  line_up_runs();
}

int FieldScene::class_of_block(int block) const {
  const std::size_t blocks = water_.size();
  return static_cast<int>(static_cast<std::size_t>(block) * classes_.size() / blocks);
}

std::span<const BlockRun> FieldScene::day(int index) const {
  const std::size_t blocks = water_.size();
  return std::span(by_day_).subspan(static_cast<std::size_t>(index % days) * blocks, blocks);
}

int FieldScene::fields_in(std::size_t block) const {
  const int left = fields_ - static_cast<int>(block) * block_fields;
  return left < block_fields ? left : block_fields;
}

void FieldScene::fill_with_weather(Weather weather) {
  Rain rain;
  rain_.reserve(days * water_.size());
  day_by_day_.reserve(days * water_.size());
  for (std::size_t d = 0; d < days; ++d) {
    const bool dry = weather == Weather::mixed && rain.dry();
    const double fall_mm = rain.storm_mm();
    for (std::size_t b = 0; b < water_.size(); ++b) {
      BlockDay day;
      day.today = &classes_[static_cast<std::size_t>(class_of_block(static_cast<int>(b)))].today;
      day.forcing.et0_mm.of_all = dry ? 3.5 : 2.0;
      if (!dry) {
        Row& row = rain_.emplace_back();
        for (double& value : row.by_field) value = 0.1 + fall_mm * rain.share();
        day.forcing.water_mm.by_field = &row;
      }
      day_by_day_.push_back(day);
    }
  }
}

void FieldScene::line_up_runs() {
  const std::size_t blocks = water_.size();
  block_by_block_.reserve(many * blocks);
  for (std::size_t b = 0; b < blocks; ++b)
    for (std::size_t d = 0; d < many; ++d)
      block_by_block_.push_back(day_by_day_[d % days * blocks + b]);
  for (std::size_t d = 0; d < days; ++d)
    for (std::size_t b = 0; b < blocks; ++b)
      by_day_.push_back(
          {.water = &water_[b], .days = {&day_by_day_[d * blocks + b], 1}, .fields = fields_in(b)});
  for (std::size_t b = 0; b < blocks; ++b)
    many_days_.push_back(
        {.water = &water_[b], .days = {&block_by_block_[b * many], many}, .fields = fields_in(b)});
}

}  // namespace gley::bench
