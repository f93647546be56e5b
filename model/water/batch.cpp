#include "model/water/batch.hpp"

#include "model/water/batch_kernel.hpp"

namespace gley::model {

std::vector<BatchPath> runnable_paths() {
  std::vector<BatchPath> paths{BatchPath::scalar, BatchPath::sse2};
  if (__builtin_cpu_supports("avx2")) paths.push_back(BatchPath::avx2);
  if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
    paths.push_back(BatchPath::avx512);
  return paths;
}

void step_blocks(std::span<const BlockRun> runs, BatchPath path) {
  switch (path) {
    case BatchPath::scalar:
      return batch::step_scalar(runs);
    case BatchPath::sse2:
      return batch::step_sse2(runs);
    case BatchPath::avx2:
      return batch::step_avx2(runs);
    case BatchPath::avx512:
      return batch::step_avx512(runs);
  }
}

void step_blocks(std::span<const BlockRun> runs) {
  static const BatchPath fastest = runnable_paths().back();
  step_blocks(runs, fastest);
}

}  // namespace gley::model
