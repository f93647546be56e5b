#pragma once

/// Thresholds of the spreading advice, to be set by configuration. They advise: local codes, closed
/// periods and product labels decide. 'Guidance': the English rules for farmers, in their present
/// common form; every distance wants checking against the farm's own code.
namespace gley::model {

struct SpreadingLimits {
  /// Chance of heavy rain within 48 h from which to hold. Guidance: not when heavy rain is forecast
  /// within 48 h; the chance, a cost to loss ratio, and 10 mm as heavy are our choice.
  double chance_of_heavy_rain = 0.3;
  double heavy_rain_mm = 10.0;
  /// Runoff expected within 48 h from which to hold. Our choice; less is named as a risk only.
  double runoff_48h_mm = 1.0;
  /// Drainage expected within 48 h from which drains count as about to run: 0.2 mm/day. Our choice.
  double drainage_48h_mm = 0.4;
  /// Share of a surface dressing gone below `leaching_depth_mm` in 7 days from which to hold. Our
  /// choice.
  double leached_share = 0.02;
  double leaching_depth_mm = 300.0;
  /// Above this clay content running drains take dressings straight down the cracks. Our choice.
  double cracking_clay_pct = 30.0;
  /// Water in lying snow that covers the ground. Guidance forbids snow-covered soil; amount our
  /// choice.
  double snow_mm = 1.0;
  /// Steepest slope: 12 degrees, a common line (from memory).
  double slope_pct = 21.3;
  /// Least distances, m. Guidance: manufactured nitrogen 2 m from surface water; organic manure 10
  /// m from surface water and 50 m from a spring, well or borehole. Irish distances differ, 5 to 30
  /// m.
  double fertiliser_from_water_m = 2.0;
  double manure_from_water_m = 10.0;
  double manure_from_spring_m = 50.0;
};

}  // namespace gley::model
