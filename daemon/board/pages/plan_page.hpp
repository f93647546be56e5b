#pragma once
#include <string>

#include "daemon/board/snapshot/plan.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// The farm's plan, each field by whether it carries a machine. machine: its id; empty: each
/// field's own sign.
[[nodiscard]] std::string plan_page(const BoardSnapshot& board, const PlanView& plan,
                                    const std::string& machine);

}  // namespace gley::daemon
