#pragma once
#include <string_view>

#include "daemon/board/html.hpp"
#include "daemon/board/snapshot.hpp"

/// Small drawings whose shape carries the meaning. Words stand beside each, so they are hidden
/// from readers of the page by voice. Colours come from the style sheet by class.
namespace gley::daemon {

/// The field's soil in section: its layers as they lie, each filled from the left with its water
/// between wilting point and saturation, field capacity marked across, water standing on top.
[[nodiscard]] Html soil_column(const FieldView& field);

/// A wheel on the ground line: standing on it (carries), pressed in (with care), sunk (keep off),
/// broken lines where not known.
[[nodiscard]] Html wheel(std::string_view verdict);

/// Grains lying on the ground line (clear) or held above it (hold).
[[nodiscard]] Html grains(std::string_view advice);

}  // namespace gley::daemon
