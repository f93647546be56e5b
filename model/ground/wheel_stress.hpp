#pragma once

/// Vertical stress under a wheel. The contact is a circle of even pressure, equal to the inflation
/// pressure: right on average at the inflation the tyre maker recommends for the load (Arvidsson
/// and Keller 2007, Soil Till. Res. 96:284-291; the peak at 10 cm was 39 % higher), wrong at
/// others. Repeated passes, slip and ruts are not modelled.
namespace gley::model {

inline constexpr double gravity_m_s2 = 9.81;

struct WheelLoad {
  double load_t = 0.0;
  double pressure_bar = 0.0;
};

struct WheelContact {
  double pressure_kpa = 0.0;
  double radius_m = 0.0;  ///< of the circle of the same area, load over pressure
};

[[nodiscard]] WheelContact contact_of(const WheelLoad& wheel) noexcept;

/// Stress under the centre of the circle, kPa: p (1 - (z / sqrt(z2 + a2))^v).
/// concentration: v; 3 in an elastic body (Boussinesq), 4 in firm, 5 in moist, 6 in wet soil.
/// Source: Fröhlich's concentration factor in the form of Söhne (1953), from memory.
/// Check: Spangler (1951), influence table, v 3, z/a 1: 0.646 p. Against measurement in loam:
/// within 7 kPa at 43 kN, 27 kPa at 85 kN (Lamandé et al. 2007, Soil Till. Res. 97:91).
[[nodiscard]] double vertical_stress_kpa(const WheelContact& contact, double depth_m,
                                         int concentration) noexcept;

}  // namespace gley::model
