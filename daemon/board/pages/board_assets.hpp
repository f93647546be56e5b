#pragma once
#include <string>
#include <string_view>

#include "daemon/board/pages/embedded_assets.hpp"

namespace gley::daemon {

/// A file that pages load from the daemon itself.
struct BoardAsset {
  std::string_view name;  ///< as pages ask for it: "board.css"
  std::string_view file;  ///< as the build embeds it
  std::string_view content_type;
};

/// Null if there is none of the name.
[[nodiscard]] const BoardAsset* find_asset(std::string_view name);

/// Stands for the asset's text, other for another text; for addresses that may be kept for good.
[[nodiscard]] const std::string& asset_version(const BoardAsset& asset);

/// "field.js?v=9c1f...", the address under which a browser may keep the asset for good.
[[nodiscard]] std::string asset_address(std::string_view name);

}  // namespace gley::daemon
