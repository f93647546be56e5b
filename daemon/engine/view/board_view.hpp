#pragma once
#include <vector>

#include "daemon/alerts/alert.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"

namespace gley::daemon {

/// The farm as screens and topics show it. `service` and times are the caller's.
/// outlook: null without a forecast under 24 h old.
[[nodiscard]] BoardSnapshot board_of(const FarmState& state, const std::vector<Alert>& alerts,
                                     Instant now, const FarmOutlook* outlook);

/// The same without its fields.
[[nodiscard]] BoardSnapshot board_without_fields(const FarmState& state,
                                                 const std::vector<Alert>& alerts, Instant now);

/// One field of it.
[[nodiscard]] FieldView field_view(const FarmState& state, std::size_t index, Instant now,
                                   const FarmOutlook* outlook);

/// How much water each layer of a field holds, and the layers as they are shown with it; without
/// water where no day is known.
[[nodiscard]] std::vector<double> theta_by_layer(const model::SoilProfile& soil,
                                                 const model::FieldWater<double>& water);
[[nodiscard]] std::vector<LayerView> layer_views(const model::SoilProfile& soil,
                                                 const std::vector<double>& theta);

}  // namespace gley::daemon
