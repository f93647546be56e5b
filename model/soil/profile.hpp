#pragma once
#include <array>

namespace gley::model {

inline constexpr int max_layers = 6;
template <class T>
using ByLayer = std::array<T, max_layers>;

/// Default layers, mm: thin where the weather acts, thicker below. The first two are the topsoil.
inline constexpr ByLayer<double> default_thickness_mm{100.0, 200.0, 200.0, 200.0, 300.0, 300.0};
inline constexpr int topsoil_layers = 2;
inline constexpr double topsoil_mm = 300.0;

/// One kind of soil in a profile. Water contents m3/m3.
struct Horizon {
  double wilting_point = 0.0;
  double field_capacity = 0.0;
  double saturation = 0.0;
  double retention_b = 0.0;
  double saturated_conductivity_mm_h = 0.0;
};

/// A soil in section. Layers past `layers` have no thickness and hold nothing.
struct SoilProfile {
  int layers = max_layers;
  ByLayer<double> thickness_mm = default_thickness_mm;
  ByLayer<Horizon> horizon{};
  double clay_pct = 0.0;

  [[nodiscard]] double depth_mm() const;
};

/// A profile cut at the soil's depth; a deeper soil than the default layers thickens the last one.
[[nodiscard]] SoilProfile profile_of(const Horizon& topsoil, const Horizon& subsoil,
                                     double clay_pct, double depth_mm);

/// The subsoil under a topsoil of a named class: the same wilting point, four fifths of the
/// available water, pores lost to a density 5 % higher. Our choice.
[[nodiscard]] Horizon subsoil_under(const Horizon& topsoil);

/// Thickness of each layer that lies above a depth, mm.
[[nodiscard]] ByLayer<double> thickness_above(const SoilProfile& profile, double depth_mm);

}  // namespace gley::model
