#pragma once
#include "daemon/alerts/alert.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/farm/farm_config.hpp"
#include "daemon/store/alert_store.hpp"

namespace gley::daemon {

/// An alert as it is shown: its words, and the names of what it holds for.
[[nodiscard]] AlertView alert_view(const Alert& alert, const FarmConfig& farm);

/// One that ended, as the store kept it; names of fields that are gone are their ids.
[[nodiscard]] AlertView past_alert_view(const StoredAlert& stored, const FarmConfig& farm);

}  // namespace gley::daemon
