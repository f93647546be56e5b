#pragma once
#include <optional>
#include <string>

#include "model/crop/coefficients.hpp"
#include "model/crop/cutting.hpp"
#include "model/crop/season_heat.hpp"
#include "model/soil/profile.hpp"

namespace gley::model {

/// What covers a field through a season, from sowing (day 1) to harvest, or all year.
struct CropCourse {
  std::string name;  ///< what people call it
  SeasonCourse kcb;  ///< all stages 0 days long: the same all year
  double height_m = 0.0;
  double root_min_mm = 0.0;  ///< at sowing
  double root_max_mm = 0.0;
  double depletion_fraction = 0.5;      ///< p of FAO-56 Table 22
  std::optional<double> cover = {};     ///< a closed sward; default: Eq. 76 from Kcb
  std::optional<HeatStages> heat = {};  ///< stages counted in warmth; their days are still needed
  std::optional<Cutting> cutting = {};  ///< of a stand that lasts all year
  double residue_cover = 0.0;           ///< share of the ground under dead residue
  bool climate_adjusted = true;  ///< Kcb by Eq. 70; off where the numbers are given as they are
  bool sheds_storms = true;      ///< runoff by curve number; off in a textbook field
  double storage_dry_mm = 0.0;   ///< curve-number storage at wilting point
  double storage_wet_mm = 0.0;   ///< and at field capacity

  [[nodiscard]] bool lasts_all_year() const;
};

/// What stands on a field on one day, as the field step needs it.
struct StandDay {
  double kcb = 0.0;
  double kc_max = 1.2;
  double cover = 0.0;
  double height_m = 0.0;
  double root_depth_mm = 0.0;
  double depletion_fraction = 0.5;
  double total_available_mm = 0.0;        ///< TAW
  ByLayer<double> rooted_share{};         ///< of each layer's thickness
  ByLayer<double> rooted_available_mm{};  ///< TAW by layer
  ByLayer<double> root_share{};           ///< of all roots; sums to 1
  bool sheds_storms = false;              ///< runoff by curve number
  double storage_dry_mm = 0.0;
  double storage_wet_mm = 0.0;
};

/// The air a stand feels.
struct StandAir {
  double u2_m_s = 2.0;
  double rh_min_pct = 45.0;
};

/// How far a stand has come.
struct SeasonDay {
  int day = 1;                   ///< 1 on the day of sowing
  double day_degrees_c_d = 0.0;  ///< since sowing, today's too; where the course counts it
  std::optional<int> days_since_cut = {};
};

/// The stand on a day of its season. Kcb by Eq. 66, moved to the day's air
/// by Eq. 70 (FAO-56 uses stage means; a daily value keeps the past independent of the future),
/// Kcmax Eq. 72, cover Eq. 76, height by Annex 8, roots by Eq. 8-1 from the tabled Kcb.
/// Residue holds evaporation back by 5 % for each 10 % of the ground it covers (p. 198), here as a
/// smaller room for it under Kcmax; p. 208 takes the same share off TEW instead.
[[nodiscard]] StandDay stand_day(const CropCourse& course, const SeasonDay& season,
                                 const StandAir& air, const SoilProfile& soil);
[[nodiscard]] StandDay stand_day(const CropCourse& course, int day_of_season, const StandAir& air,
                                 const SoilProfile& soil);

/// Share of the roots above a relative depth x (0..1): 1.8 x - 0.8 x^2, which gives the quarters of
/// the root zone 40, 30, 20 and 10 % (common practice in irrigation).
[[nodiscard]] double roots_above(double relative_depth);

}  // namespace gley::model
