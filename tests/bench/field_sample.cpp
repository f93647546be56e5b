#include "tests/bench/field_sample.hpp"

#include <cstdio>
#include <memory>

#include "tests/bench/field_scene.hpp"

namespace gley::bench {

using namespace gley::model;

namespace {

constexpr int sampled_days = 12;

/// Writes members of JSON objects; numbers read back to the same double.
class Json {
 public:
  explicit Json(std::FILE* file) : file_(file) {}

  void open(char bracket) {
    separate();
    std::fputc(bracket, file_);
    first_ = true;
  }
  void open(const char* key, char bracket) {
    name(key);
    std::fputc(bracket, file_);
    first_ = true;
  }
  void close(char bracket) {
    std::fputc(bracket, file_);
    first_ = false;
  }
  void number(double value) {
    separate();
    std::fprintf(file_, "%.17g", value);
  }
  void member(const char* key, double value) {
    name(key);
    std::fprintf(file_, "%.17g", value);
  }
  template <class Numbers>
  void member_list(const char* key, const Numbers& values) {
    open(key, '[');
    for (const double value : values) number(value);
    close(']');
  }

 private:
  void name(const char* key) {
    separate();
    std::fprintf(file_, "\"%s\":", key);
  }
  void separate() {
    if (!first_) std::fputc(',', file_);
    first_ = false;
  }

  std::FILE* file_;
  bool first_ = true;
};

void write_class(Json& json, const FieldClass& of) {
  json.open("class", '{');
  json.member_list("room_mm", of.field.room_mm);
  json.member_list("release_share", of.field.release_share);
  json.member_list("pass_limit_mm", of.field.pass_limit_mm);
  json.member("slow_layer", of.field.slow_layer);
  json.member("piped_layers", of.field.piped_layers);
  json.member("pipe_rate_mm", of.field.pipe_rate_mm);
  json.member("pond_limit_mm", of.field.pond_limit_mm);
  json.member("rew_mm", of.field.rew_mm);
  json.member("tew_mm", of.field.tew_mm);
  json.member("crack_share", of.field.crack_share);
  json.member("topsoil_available_mm", of.field.topsoil_available_mm);
  json.member("topsoil_room_mm", of.field.topsoil_room_mm);
  json.member("kcb", of.stand.kcb);
  json.member("kc_max", of.stand.kc_max);
  json.member("cover", of.stand.cover);
  json.member("depletion_fraction", of.stand.depletion_fraction);
  json.member("total_available_mm", of.stand.total_available_mm);
  json.member_list("rooted_share", of.stand.rooted_share);
  json.member_list("rooted_available_mm", of.stand.rooted_available_mm);
  json.member_list("root_share", of.stand.root_share);
  json.member("storage_dry_mm", of.stand.storage_dry_mm);
  json.member("storage_wet_mm", of.stand.storage_wet_mm);
  json.close('}');
}

void write_water(Json& json, const char* key, const BlockWater& water) {
  json.open(key, '{');
  json.open("excess_mm", '[');
  for (const Row& row : water.excess_mm) {
    json.open('[');
    for (const double value : row.by_field) json.number(value);
    json.close(']');
  }
  json.close(']');
  json.member_list("surface_depletion_mm", water.surface_depletion_mm.by_field);
  json.member_list("pond_mm", water.pond_mm.by_field);
  json.member_list("wetted_fraction", water.wetted_fraction.by_field);
  json.member_list("at_capacity", water.at_capacity.by_field);
  json.member_list("waterlogged", water.waterlogged.by_field);
  json.close('}');
}

void write_day(Json& json, FieldScene& scene, int block, const BlockRun& run) {
  DayFluxes<Row> rows;
  BlockFluxes wanted;
  wanted.evaporation_mm = &rows.evaporation_mm;
  wanted.transpiration_mm = &rows.transpiration_mm;
  wanted.runoff_mm = &rows.runoff_mm;
  wanted.drainage_mm = &rows.drainage_mm;
  wanted.pipe_drain_mm = &rows.pipe_drain_mm;
  BlockDay day = run.days.front();
  day.fluxes = &wanted;
  const BlockRun with_fluxes{.water = run.water, .days = {&day, 1}, .fields = run.fields};

  json.open('{');
  write_class(json, scene.classes()[static_cast<std::size_t>(scene.class_of_block(block))]);
  const Row* rain = day.forcing.water_mm.by_field;
  json.member_list("rain_mm", (rain ? *rain : Row(day.forcing.water_mm.of_all)).by_field);
  json.member("et0_mm", day.forcing.et0_mm.of_all);
  write_water(json, "before", *run.water);
  step_blocks({&with_fluxes, 1});
  write_water(json, "after", *run.water);
  json.open("fluxes", '{');
  json.member_list("evaporation_mm", rows.evaporation_mm.by_field);
  json.member_list("transpiration_mm", rows.transpiration_mm.by_field);
  json.member_list("runoff_mm", rows.runoff_mm.by_field);
  json.member_list("drainage_mm", rows.drainage_mm.by_field);
  json.member_list("pipe_drain_mm", rows.pipe_drain_mm.by_field);
  json.close('}');
  json.close('}');
}

}  // namespace

bool write_sample(const char* path) {
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path, "w"), &std::fclose);
  if (!file) {
    std::perror(path);
    return false;
  }
  FieldScene scene(static_cast<int>(field_classes().size()) * block_fields, Weather::mixed);
  for (int day = 0; day < 3 * FieldScene::days; ++day) step_blocks(scene.day(day));
  Json json(file.get());
  json.open('[');
  for (int day = 0; day < sampled_days; ++day) {
    const std::span<const BlockRun> runs = scene.day(day);
    for (std::size_t b = 0; b < runs.size(); ++b)
      write_day(json, scene, static_cast<int>(b), runs[b]);
  }
  json.close(']');
  return std::ferror(file.get()) == 0;
}

}  // namespace gley::bench
