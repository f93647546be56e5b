#include "daemon/engine/fields/days_csv.hpp"

#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

std::string days_csv_header(int theta_layers) {
  std::string header =
      "date,field,rain_mm,irrigation_mm,et0_mm,kcb,ke,ks,evaporation_mm,transpiration_mm,"
      "runoff_mm,drainage_mm,pipe_drain_mm,depletion_mm,surface_depletion_mm,"
      "topsoil_deficit_mm,surplus_mm,pond_mm,snow_mm,suction_topsoil_kpa,suction_subsoil_kpa,"
      "wetness,flags";
  for (int l = 1; l <= theta_layers; ++l) header += ",theta_" + std::to_string(l);
  return header + "\n";
}

std::string days_csv_row(const std::string& field_id, const model::Field& field,
                         const model::FieldDay& day, int theta_layers) {
  const model::FieldWater<double>& water = day.evening.water;
  std::string row = date_text(day.date) + ',' + field_id;
  for (const double value :
       {day.rain_mm, day.irrigation_mm, day.et0_mm, day.stand.kcb, day.fluxes.ke, day.fluxes.ks,
        day.fluxes.evaporation_mm, day.fluxes.transpiration_mm, day.fluxes.runoff_mm,
        day.fluxes.drainage_mm, day.fluxes.pipe_drain_mm, day.depletion_mm,
        water.surface_depletion_mm, day.topsoil_deficit_mm, day.surplus_mm, water.pond_mm,
        day.evening.snow.snow_mm, day.suction_topsoil_kpa, day.suction_subsoil_kpa})
    row += ',' + number_text(value);
  row += ',' + std::string(model::to_word(day.wetness)) + ',' + model::to_words(day.flags);
  for (int l = 0; l < theta_layers; ++l) {
    row += ',';
    if (l < field.parameters.soil.layers)
      row += number_text(model::theta_of(field.parameters.soil, water, l));
  }
  return row + "\n";
}

}  // namespace gley::daemon
