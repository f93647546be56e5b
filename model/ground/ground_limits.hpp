#pragma once

/// Every threshold of the soil gate and the machine test. 'Our choice' means nobody else's number:
/// to be fitted to what farms report.
///
/// The Swiss suction rule: federal guidance for soil protection on building sites (1997, 2001,
/// 2015) and SN 640 581, for suction at 35 cm, as the authorities quote it. Made for tracked
/// machines.
namespace gley::model {

struct GroundLimits {
  /// Below this topsoil deficit no wheel and no hoof. Laurenson and Houlbrooke (2016), N.Z. J.
  /// Agric. Res. 59:444: 3 mm for cattle on pallic soils; maritime grassland often takes 10 (from
  /// memory).
  double topsoil_deficit_mm = 3.0;
  /// Below this subsoil suction no wheel. Swiss suction rule.
  double subsoil_suction_kpa = 10.0;
  /// More rain than this in 24 h and no wheel, whatever the suction. Swiss suction rule.
  double rain_24h_mm = 10.0;
  /// Water in lying snow from which no wheel. Our choice.
  double snow_mm = 1.0;

  /// Above this clay content the rule is stricter. Swiss suction rule.
  double heavy_clay_pct = 30.0;
  /// Heavy clay below this suction: no wheel. Swiss suction rule.
  double heavy_clay_closed_kpa = 20.0;
  /// Below this suction only light, low-pressure wheels. Swiss suction rule.
  double light_only_kpa = 20.0;
  /// The same on heavy clay. Swiss suction rule: the minimum raised by 10.
  double light_only_heavy_clay_kpa = 30.0;
  /// What a light, low-pressure wheel is; both must hold. Load: German state guidance calls more
  /// than 2.5 t critical. Pressure: our choice.
  double light_wheel_load_t = 2.5;
  double light_pressure_bar = 0.8;
  /// A wheel so light that only waterlogging, ponding and thaw stop it; both must hold. Pressure:
  /// German state guidance calls 0.5 bar acceptable. Load: our choice.
  double lightest_wheel_load_t = 0.3;
  double lightest_pressure_bar = 0.5;

  /// Below the first suction the soil is wet (concentration factor 6), below the second moist (5),
  /// above it firm (4). Factors: Söhne (1953), from memory; suctions: our choice.
  double wet_below_kpa = 10.0;
  double moist_below_kpa = 50.0;
  /// Depths of the machine test and what moist soil bears there. Deep: 50 kPa below 50 cm,
  /// Schjønning et al. (2012), Soil Use Manage. 28:378-393 (from memory). Shallow: our choice.
  double deep_m = 0.5;
  double shallow_m = 0.35;
  double bears_moist_kpa = 50.0;
  double shallow_bears_times = 1.5;
  /// Most that dry soil is trusted to bear. Our choice.
  double bears_at_most_kpa = 150.0;

  /// Suction a machine needs, kPa = this * mass, t * pressure, kg/cm2. Swiss suction rule.
  double suction_per_mass_and_pressure = 1.25;
  /// Added to it on heavy clay. Swiss suction rule.
  double heavy_clay_extra_kpa = 10.0;

  /// Topsoil suction between which tillage crumbles it. Our choice, near Dexter and Bird (2001),
  /// Soil Till. Res. 57:203 for the wet side.
  double crumbles_from_kpa = 20.0;
  double crumbles_to_kpa = 200.0;
  /// Soil with less clay dries to loose grains and not to clods (common practice), so no dryness
  /// keeps tines off it; that it may blow away is said. Limit: our choice.
  double clods_from_clay_pct = 10.0;

  /// Margin from which a machine is carried without care: a worst ratio under 0.8. Our choice.
  double carries_from_margin = 0.2;
};

}  // namespace gley::model
