#include "daemon/board/pages/board_assets.hpp"

#include <algorithm>
#include <array>

#include "daemon/board/http/http_policy.hpp"

namespace gley::daemon {

namespace {

constexpr std::string_view css = "text/css; charset=utf-8";
constexpr std::string_view script = "text/javascript; charset=utf-8";

constexpr std::array assets{
    BoardAsset{.name = "board.css", .file = "board.css", .content_type = css},
    BoardAsset{.name = "board.js", .file = "board.js", .content_type = script},
    BoardAsset{.name = "keep.js", .file = "keep.js", .content_type = script},
    BoardAsset{.name = "favicon.ico", .file = "favicon.svg", .content_type = "image/svg+xml"},
    BoardAsset{.name = "field.css", .file = "field.css", .content_type = css},
    BoardAsset{.name = "field.js", .file = "field.js", .content_type = script},
    BoardAsset{.name = "seen.js", .file = "seen.js", .content_type = script},
    BoardAsset{.name = "near.js", .file = "near.js", .content_type = script},
    BoardAsset{.name = "chart.js", .file = "chart.min.js", .content_type = script},
};

std::array<std::string, assets.size()> all_versions() {
  std::array<std::string, assets.size()> versions;
  std::transform(assets.begin(), assets.end(), versions.begin(), [](const BoardAsset& asset) {
    const std::string tag = entity_tag(embedded_asset(asset.file));
    const std::size_t begins = tag.find('"') + 1;
    return tag.substr(begins, tag.size() - begins - 1);
  });
  return versions;
}

}  // namespace

const BoardAsset* find_asset(std::string_view name) {
  const auto* const at = std::find_if(assets.begin(), assets.end(),
                                      [&](const BoardAsset& asset) { return asset.name == name; });
  return at == assets.end() ? nullptr : at;
}

const std::string& asset_version(const BoardAsset& asset) {
  static const auto versions = all_versions();
  return versions[static_cast<std::size_t>(&asset - assets.data())];
}

std::string asset_address(std::string_view name) {
  const BoardAsset* asset = find_asset(name);
  return asset == nullptr ? std::string(name) : std::string(name) + "?v=" + asset_version(*asset);
}

}  // namespace gley::daemon
