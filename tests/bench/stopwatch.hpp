#pragma once
#include <ctime>
#include <utility>

namespace gley::bench {

/// Processor time of this thread, s: other work on the machine does not count into it, though it
/// still takes cache and memory from us, so the best of several passes is what we print.
[[nodiscard]] inline double thread_seconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

/// Least seconds that `work` took in `passes` calls.
template <class Work>
[[nodiscard]] double best_seconds(int passes, Work&& work) {
  double best = 1e300;
  for (int i = 0; i < passes; ++i) {
    const double began = thread_seconds();
    work();
    const double took = thread_seconds() - began;
    if (took < best) best = took;
  }
  return best;
}

}  // namespace gley::bench
