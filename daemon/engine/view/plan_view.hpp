#pragma once
#include <memory>

#include "daemon/board/snapshot/plan.hpp"
#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// The farm laid out on a plane; null if no field has a boundary.
[[nodiscard]] std::shared_ptr<const PlanView> plan_of(const FarmConfig& farm);

}  // namespace gley::daemon
