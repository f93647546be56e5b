#include "model/water/runoff.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

double dry_number(double middle) {
  const double pervious = 100.0 - middle;
  return middle - 20.0 * pervious / (pervious + exponential(2.533 - 0.0636 * pervious));
}

double wet_number(double middle) {
  return middle * exponential(0.00673 * (100.0 - middle));
}

}  // namespace

CurveNumbers curve_numbers(double middle, double slope_pct) {
  const double steepness = 1.0 - 2.0 * exponential(-13.86 * slope_pct / 100.0);
  const double sloped = middle + (wet_number(middle) - middle) / 3.0 * steepness;
  return {.dry = dry_number(sloped), .middle = sloped, .wet = wet_number(sloped)};
}

double tabled_storage_mm(double curve_number) {
  return 25400.0 / curve_number - 254.0;
}

double runoff_storage_mm(double curve_number) {
  return 0.8187 * power(tabled_storage_mm(curve_number), 1.15);
}

}  // namespace gley::model
