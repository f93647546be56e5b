#include "model/weather/penman_monteith.hpp"

namespace gley::model {

double penman_monteith_mm(const PenmanMonteithTerms& day) noexcept {
  const double energy = 0.408 * day.delta_kpa_c * (day.rn_mj_m2 - day.g_mj_m2);
  const double air =
      day.gamma_kpa_c * 900.0 / (day.tmean_c + 273.0) * day.u2_m_s * (day.es_kpa - day.ea_kpa);
  return (energy + air) / (day.delta_kpa_c + day.gamma_kpa_c * (1.0 + 0.34 * day.u2_m_s));
}

}  // namespace gley::model
