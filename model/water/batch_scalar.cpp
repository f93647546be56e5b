#include "model/water/batch_kernel.hpp"

namespace gley::model::batch {

void step_scalar(std::span<const BlockRun> runs) {
  step_runs<double>(runs);
}

}  // namespace gley::model::batch
