#include "daemon/readings/physical_range.hpp"

namespace gley::daemon {
namespace {

// WMO-No. 8, Guide to Instruments and Methods of Observation, Annex 1.A (ranges from memory):
// wind 0 to 75 m/s, rain rate to 2000 mm/h, sunshine to 24 h. The rest is our choice.
constexpr PhysicalRange rain_interval_mm{0.0, 400.0};  // ours: over any hour on record, 305 mm
constexpr PhysicalRange rain_rate_mm_h{0.0, 2000.0};
constexpr PhysicalRange temperature_c{-60.0, 60.0};  // ours: farmland
constexpr PhysicalRange humidity_pct{0.0, 105.0};    // ours: a sensor's 101 in fog is a reading
constexpr PhysicalRange wind_m_s{0.0, 75.0};
constexpr PhysicalRange sunshine_interval_h{0.0, 24.0};
// Ours: clouds can lift the sun to about 1600 W/m2 for minutes; a thermopile that cools to the
// night sky reads a few W/m2 below 0 and is sound.
constexpr PhysicalRange radiation_w_m2{-20.0, 1600.0};
constexpr PhysicalRange radiation_interval_mj_m2{-1.0, 50.0};  // ours: a day above the air has 45
constexpr PhysicalRange total{0.0, 1e9};  // ours: of a counter, in any unit, since it was made

}  // namespace

PhysicalRange physical_range(Quantity quantity, ReadingForm form) {
  if (form == ReadingForm::counter) return total;
  switch (quantity) {
    case Quantity::rain:
    case Quantity::irrigation:
      return form == ReadingForm::rate ? rain_rate_mm_h : rain_interval_mm;
    case Quantity::temperature:
    case Quantity::dew_point:
      return temperature_c;
    case Quantity::humidity:
      return humidity_pct;
    case Quantity::wind:
      return wind_m_s;
    case Quantity::sunshine:
      return sunshine_interval_h;
    case Quantity::radiation:
      return form == ReadingForm::interval ? radiation_interval_mj_m2 : radiation_w_m2;
  }
  return {};
}

}  // namespace gley::daemon
