#pragma once
#include <span>
#include <vector>

#include "model/water/block.hpp"

/// The field step over many fields. It runs field_step on as many fields at once as the processor's
/// registers hold; every path gives the bytes that field_step gives for each field alone.
namespace gley::model {

/// A block's days, in order.
struct BlockRun {
  BlockWater* water = nullptr;
  std::span<const BlockDay> days;
  int fields = block_fields;  ///< the first so many lanes; the rest may hold anything finite after
};

/// How the batch computes: one field at a time, or 2, 4 or 8 to a register.
enum class BatchPath { scalar, sse2, avx2, avx512 };

/// The paths this processor can run, the slowest first.
[[nodiscard]] std::vector<BatchPath> runnable_paths();

/// Steps each block through its days. `path` must be runnable.
void step_blocks(std::span<const BlockRun> runs, BatchPath path);

/// The same by the fastest path.
void step_blocks(std::span<const BlockRun> runs);

}  // namespace gley::model
