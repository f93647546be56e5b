#pragma once

namespace gley::model {

/// The terms of the daily equation for the reference grass.
struct PenmanMonteithTerms {
  double tmean_c = 0.0;
  double u2_m_s = 2.0;    ///< wind at 2 m, at least 0.5 (p. 63)
  double rn_mj_m2 = 0.0;  ///< net radiation
  double g_mj_m2 = 0.0;   ///< soil heat flux, 0 for a day (Eq. 42)
  double delta_kpa_c = 0.0;
  double gamma_kpa_c = 0.0;
  double es_kpa = 0.0;
  double ea_kpa = 0.0;
};

/// Reference evapotranspiration, mm/day; below 0 on some winter days.
/// Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, Eq. 6.
/// Check:  its Example 18 (p. 72-73), Uccle, 6 July: 3.88; Example 17 (p. 70-71): 5.72.
[[nodiscard]] double penman_monteith_mm(const PenmanMonteithTerms& day) noexcept;

}  // namespace gley::model
