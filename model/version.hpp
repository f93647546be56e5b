#pragma once
#include <string_view>

namespace gley::model {

/// Raised with every change that moves a derived number by more than 1e-9: what was derived under
/// another version is derived again.
inline constexpr std::string_view version = "1";

}  // namespace gley::model
