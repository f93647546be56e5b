#include "model/numeric/lanes.hpp"
#include "model/water/batch_kernel.hpp"

namespace gley::model::batch {

namespace {

struct ThisFile {};
using Pair = Lanes<Avx512Vector<ThisFile>, 2>;

}  // namespace

void step_avx512(std::span<const BlockRun> runs) {
  step_runs<Pair>(runs);
}

}  // namespace gley::model::batch
