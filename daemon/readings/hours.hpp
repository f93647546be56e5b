#pragma once
#include <chrono>

namespace gley::daemon {

/// Hours with their parts, as people and equations count them.
using Hours = std::chrono::duration<double, std::ratio<3600>>;

}  // namespace gley::daemon
