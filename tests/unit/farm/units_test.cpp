#include <catch2/catch.hpp>

#include "daemon/farm/unit.hpp"

using gley::daemon::convert;
using gley::daemon::known_unit;
using gley::daemon::known_units;
using gley::daemon::Quantity;
using gley::daemon::ReadingForm;

namespace {

struct Case {
  double value;
  const char* unit;
  Quantity quantity;
  ReadingForm form;
  double want;
};

}  // namespace

TEST_CASE("units_of_the_registries_convert_to_the_models_unit") {
  // Scale and offset: RFC 8798 Table 2 (mm, cm, mm/h, km/h, min, h, /100) and the definitions of
  // the inch (25.4 mm), mile (1609.344 m), nautical mile (1852 m), degF and the watt hour (3.6 kJ).
  const Case cases[] = {
      {0.2, "mm", Quantity::rain, ReadingForm::interval, 0.2},
      {0.0002, "m", Quantity::rain, ReadingForm::interval, 0.2},
      {1.0, "[in_i]", Quantity::irrigation, ReadingForm::interval, 25.4},
      {7.5, "kg/m2", Quantity::rain, ReadingForm::interval, 7.5},
      {12.0, "mm/h", Quantity::rain, ReadingForm::rate, 12.0},
      {1e-6, "m/s", Quantity::rain, ReadingForm::rate, 3.6},
      {300.0, "K", Quantity::temperature, ReadingForm::instant, 26.85},
      {212.0, "[degF]", Quantity::temperature, ReadingForm::instant, 100.0},
      {-40.0, "[degF]", Quantity::dew_point, ReadingForm::instant, -40.0},
      {0.87, "/", Quantity::humidity, ReadingForm::instant, 87.0},
      {87.0, "%RH", Quantity::humidity, ReadingForm::instant, 87.0},
      {36.0, "km/h", Quantity::wind, ReadingForm::instant, 10.0},
      {1.0, "[kn_i]", Quantity::wind, ReadingForm::instant, 1852.0 / 3600.0},
      {90.0, "min", Quantity::sunshine, ReadingForm::interval, 1.5},
      {1800.0, "s", Quantity::sunshine, ReadingForm::counter, 0.5},
      {850.0, "W/m2", Quantity::radiation, ReadingForm::instant, 850.0},
      {1500000.0, "J/m2", Quantity::radiation, ReadingForm::interval, 1.5},
      {5.0, "kW.h/m2", Quantity::radiation, ReadingForm::interval, 18.0},
  };
  for (const Case& c : cases) {
    INFO(c.value << " " << c.unit);
    const auto got = convert(c.value, c.unit, c.quantity, c.form);
    REQUIRE(got.has_value());
    CHECK(*got == Approx(c.want).epsilon(1e-12));
  }
}

TEST_CASE("a_unit_of_another_dimension_is_not_known") {
  CHECK_FALSE(known_unit(Quantity::rain, ReadingForm::interval, "Cel"));
  CHECK_FALSE(known_unit(Quantity::rain, ReadingForm::interval, "mm/h"));
  CHECK_FALSE(known_unit(Quantity::rain, ReadingForm::rate, "mm"));
  CHECK_FALSE(known_unit(Quantity::radiation, ReadingForm::interval, "W/m2"));
  CHECK_FALSE(known_unit(Quantity::wind, ReadingForm::instant, "knots"));
  CHECK_FALSE(known_unit(Quantity::temperature, ReadingForm::instant, ""));
}

TEST_CASE("a_quantity_does_not_come_in_every_form") {
  CHECK(known_units(Quantity::temperature, ReadingForm::counter).empty());
  CHECK(known_units(Quantity::rain, ReadingForm::instant).empty());
  CHECK(known_units(Quantity::temperature, ReadingForm::instant) ==
        "Cel (degrees Celsius), K, [degF] (degrees Fahrenheit)");
}
