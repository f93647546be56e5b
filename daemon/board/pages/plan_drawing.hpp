#pragma once
#include <string>

#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/plan.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// What a field says to a machine; to an empty id, its sign.
[[nodiscard]] std::string verdict_for(const FieldView& field, const std::string& machine);

/// The plan as one SVG: each field by pattern and word, a link to its page; water with buffers; a
/// scale and north.
[[nodiscard]] Html plan_drawing(const BoardSnapshot& board, const PlanView& plan,
                                const std::string& machine);

/// The pattern of a verdict over a rectangle, for the key. Patterns stand in plan_drawing(), once a
/// page.
[[nodiscard]] Html key_rectangle(const std::string& verdict, const PlanPoint& size);

}  // namespace gley::daemon
