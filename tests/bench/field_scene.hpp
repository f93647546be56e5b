#pragma once
#include <memory>
#include <vector>

#include "model/water/batch.hpp"

namespace gley::bench {

/// A soil, its drains and its crop on an early summer day.
struct FieldClass {
  model::FieldParameters field;
  model::StandDay stand;
  model::ClassDay today;
};

/// Eight textures, four drainage classes, grass and cereals; the slow and poor ones also with
/// pipes.
[[nodiscard]] std::vector<FieldClass> field_classes(double soil_depth_mm = 1300.0);

enum class Weather { rain_every_day, mixed };

/// Many fields in blocks, and weather to step them through. The generator is seeded.
class FieldScene {
 public:
  FieldScene(int fields, Weather weather, double soil_depth_mm = 1300.0);

  [[nodiscard]] int fields() const { return fields_; }
  /// One run of each block for a day; days repeat after `days`.
  [[nodiscard]] std::span<const model::BlockRun> day(int index) const;
  /// One run of each block through `many` days.
  [[nodiscard]] std::span<const model::BlockRun> many_days() const { return many_days_; }
  static constexpr int days = 10;
  static constexpr int many = 3 * days;

  [[nodiscard]] const std::vector<FieldClass>& classes() const { return classes_; }
  [[nodiscard]] int class_of_block(int block) const;

 private:
  void fill_with_weather(Weather weather);
  void line_up_runs();
  [[nodiscard]] int fields_in(std::size_t block) const;

  int fields_;
  std::vector<FieldClass> classes_;
  std::vector<model::BlockWater> water_;
  std::vector<model::Row> rain_;                 // day by day, in each block by block
  std::vector<model::BlockDay> day_by_day_;      // the same
  std::vector<model::BlockDay> block_by_block_;  // block by block, in each day by day
  std::vector<model::BlockRun> by_day_;
  std::vector<model::BlockRun> many_days_;
};

}  // namespace gley::bench
