#pragma once
#include <string_view>

#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

/// Small drawings whose shape carries the meaning. Words stand beside each, so they are hidden
/// from readers of the page by voice. Sizes and colours come from board.css by class ("column",
/// "wheel", "grains"). Every page of framed() holds sign_shapes() once; wheel() and grains() only
/// point at it, so that a board of many signs stays small.
namespace gley::daemon {

/// The field's soil in section: its layers as they lie, each filled from the left with its water
/// between wilting point and saturation, field capacity marked down through it, what stands above
/// that hatched, water on the ground as waves, running drains as drops below, snow as a cap.
[[nodiscard]] Html soil_column(const FieldView& field);

/// A wheel and the ground line: standing on it (carries), pressed in (with care), sunk (keep off),
/// broken lines where not known.
[[nodiscard]] Html wheel(std::string_view verdict);

/// Grains lying on the ground line (clear), or held in a shut hopper above it (hold).
[[nodiscard]] Html grains(std::string_view advice);

/// One list item of a machine and its verdict, or of a material and its advice.
[[nodiscard]] Html machine_item(const MachineView& machine, Markup begins = "<li>");
[[nodiscard]] Html spreading_item(const SpreadingView& spreading);

/// The shapes that wheel() and grains() point at; once in a page, before the first of them.
[[nodiscard]] Html sign_shapes();

}  // namespace gley::daemon
