#pragma once
#include <string_view>

namespace gley::daemon {

/// A mark of all the source that derived numbers come from: the same for builds of the same source.
[[nodiscard]] std::string_view build_fingerprint();

}  // namespace gley::daemon
