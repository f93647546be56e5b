#pragma once
#include "model/water/field_step.hpp"

/// Fields of one class (soil, drains, stand of the day) side by side, 64 to a block, each quantity
/// in a row of its own: what the batch steps.
namespace gley::model {

inline constexpr int block_fields = 64;

/// One number of each field of a block.
struct alignas(64) Row {
  Row() : Row(0.0) {}
  explicit Row(double of_all) {
    for (double& value : by_field) value = of_all;
  }
  double by_field[block_fields];
};

/// The water of a block's fields. Lanes past the last field hold a field at field capacity.
using BlockWater = FieldWater<Row>;

/// A quantity of the weather: one number for all fields of a block, or one for each.
struct Given {
  double of_all = 0.0;
  const Row* by_field = nullptr;
};

using BlockForcing = DayForcing<Given>;

/// Where the day's fluxes go, by field; null where nobody asks.
using BlockFluxes = DayFluxes<Row*>;

/// One day of a block.
struct BlockDay {
  const ClassDay* today = nullptr;
  BlockForcing forcing;
  const BlockFluxes* fluxes = nullptr;  ///< null: only the water is kept
};

}  // namespace gley::model
