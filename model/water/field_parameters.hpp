#pragma once
#include <optional>

#include "model/soil/drainage.hpp"
#include "model/soil/profile.hpp"

namespace gley::model {

inline constexpr int no_slow_layer = -1;

/// What the field step needs of a soil and its drains, worked out once. Fields that share it form
/// a class.
struct FieldParameters {
  SoilProfile soil;
  ByLayer<double> available_mm{};   ///< between wilting point and field capacity
  ByLayer<double> room_mm{};        ///< between field capacity and saturation
  ByLayer<double> release_share{};  ///< of the water over field capacity, that could leave in a day
  ByLayer<double> pass_limit_mm{};  ///< most water through the layer's lower face in a day
  int slow_layer = no_slow_layer;   ///< the one that sets the outlet, if it lies above the base
  int piped_layers = 0;             ///< from the top, that pipes draw from
  double pipe_rate_mm = 0.0;
  double pond_limit_mm = 0.0;
  double rew_mm = 0.0;       ///< readily evaporable water, FAO-56 Table 19
  double tew_mm = 0.0;       ///< total evaporable water, FAO-56 Eq. 73
  double crack_share = 0.0;  ///< of rain that a wholly dry topsoil lets through its cracks
  double topsoil_available_mm = 0.0;
  double topsoil_room_mm = 0.0;
};

struct PipeDrains {
  double rate_mm_d = default_pipe_rate_mm_d;
};

/// A field as its owner describes it.
struct FieldDescription {
  SoilProfile soil;
  DrainageClass drainage = DrainageClass::moderate;
  std::optional<double> slow_layer_depth_mm = {};  ///< default: the drainage class's
  std::optional<PipeDrains> pipes = {};
  double slope_pct = 2.0;
  double rew_mm = 9.0;
  std::optional<double> tew_mm = {};  ///< default: Eq. 73 over 100 mm
  bool textbook = false;              ///< plain FAO-56: no limit to drainage, no cracks, no pond
};

[[nodiscard]] FieldParameters field_parameters(const FieldDescription& field);

/// Share of the water over field capacity that leaves a layer in a day, 1 - exp(-24/TT) with
/// TT = (SAT - FC) z / Ks. Source: Neitsch et al. (2011), TWRI TR-406 ch. 2:3 (from memory).
/// Check: TT 24 h: 20 mm give 12.642.
[[nodiscard]] double daily_release_share(double travel_time_h);

/// Share of rain that passes a wholly dry topsoil by its cracks. Our choice: none under 15 % clay,
/// a third at 60 %, linear between; steps in proportion to the topsoil's dryness.
[[nodiscard]] double crack_share(double clay_pct);

}  // namespace gley::model
