#include "daemon/farm/unit.hpp"

#include <algorithm>
#include <array>

namespace gley::daemon {
namespace {

/// What is measured, whatever it is measured for.
enum class Dimension {
  depth,
  depth_rate,
  temperature,
  humidity,
  speed,
  duration,
  irradiance,
  irradiation
};

/// model value = (value + shift) * times / over: whole numbers where the units allow, so that the
/// result is rounded once.
struct Unit {
  Dimension dimension;
  std::string_view name;
  double times = 1.0;
  double over = 1.0;
  double shift = 0.0;
  std::string_view plain = {};  ///< where the name does not say it
};

// Names without a remark: SenML units (RFC 8428 Section 12.1) or secondary units (RFC 8798
// Section 3). "UCUM": The Unified Code for Units of Measure, as CoverageJSON names units.
constexpr std::array units{
    Unit{Dimension::depth, "mm"},
    Unit{Dimension::depth, "cm", 10.0},
    Unit{Dimension::depth, "m", 1000.0},
    Unit{Dimension::depth, "kg/m2"},   // UCUM; 1 kg of water on 1 m2 is 1 mm
    Unit{Dimension::depth, "kg.m-2"},  // UCUM
    Unit{Dimension::depth, "[in_i]", 25.4, 1.0, 0.0, "inches"},  // UCUM
    Unit{Dimension::depth_rate, "mm/h"},
    Unit{Dimension::depth_rate, "m/s", 3600000.0},
    Unit{Dimension::depth_rate, "m/h", 1000.0},         // registered with mm/h
    Unit{Dimension::depth_rate, "kg/(m2.s)", 3600.0},   // UCUM
    Unit{Dimension::depth_rate, "kg.m-2.s-1", 3600.0},  // UCUM
    Unit{Dimension::temperature, "Cel", 1.0, 1.0, 0.0, "degrees Celsius"},
    Unit{Dimension::temperature, "K", 1.0, 1.0, -273.15},
    Unit{Dimension::temperature, "[degF]", 5.0, 9.0, -32.0, "degrees Fahrenheit"},  // UCUM
    Unit{Dimension::humidity, "%RH"},
    Unit{Dimension::humidity, "%"},
    Unit{Dimension::humidity, "/100"},
    Unit{Dimension::humidity, "/", 100.0},
    Unit{Dimension::humidity, "1", 100.0},  // UCUM ratio
    Unit{Dimension::speed, "m/s"},
    Unit{Dimension::speed, "km/h", 1.0, 3.6},
    Unit{Dimension::speed, "m.s-1"},                                             // UCUM
    Unit{Dimension::speed, "[kn_i]", 1852.0, 3600.0, 0.0, "knots"},              // UCUM
    Unit{Dimension::speed, "[mi_i]/h", 1609.344, 3600.0, 0.0, "miles an hour"},  // UCUM
    Unit{Dimension::duration, "h"},
    Unit{Dimension::duration, "min", 1.0, 60.0},
    Unit{Dimension::duration, "s", 1.0, 3600.0},
    Unit{Dimension::irradiance, "W/m2"},
    Unit{Dimension::irradiance, "W.m-2"},   // UCUM
    Unit{Dimension::irradiation, "MJ/m2"},  // UCUM, as the rest: no registry has them
    Unit{Dimension::irradiation, "MJ.m-2"},
    Unit{Dimension::irradiation, "kJ/m2", 1.0, 1e3},
    Unit{Dimension::irradiation, "J/m2", 1.0, 1e6},
    Unit{Dimension::irradiation, "J.m-2", 1.0, 1e6},
    Unit{Dimension::irradiation, "kW.h/m2", 3.6},
    Unit{Dimension::irradiation, "W.h/m2", 3.6, 1e3},
};

std::optional<Dimension> dimension_of(Quantity quantity, ReadingForm form) {
  const bool amount = form == ReadingForm::interval || form == ReadingForm::counter;
  const auto only_if = [](bool holds, Dimension dimension) {
    return holds ? std::optional(dimension) : std::nullopt;
  };
  switch (quantity) {
    case Quantity::rain:
    case Quantity::irrigation:
      if (form == ReadingForm::rate) return Dimension::depth_rate;
      return only_if(amount, Dimension::depth);
    case Quantity::temperature:
    case Quantity::dew_point:
      return only_if(form == ReadingForm::instant, Dimension::temperature);
    case Quantity::humidity:
      return only_if(form == ReadingForm::instant, Dimension::humidity);
    case Quantity::wind:
      return only_if(form == ReadingForm::instant, Dimension::speed);
    case Quantity::sunshine:
      return only_if(amount, Dimension::duration);
    case Quantity::radiation:
      if (form == ReadingForm::instant) return Dimension::irradiance;
      return only_if(amount, Dimension::irradiation);
  }
  return {};
}

const Unit* find_unit(Quantity quantity, ReadingForm form, std::string_view name) {
  const auto dimension = dimension_of(quantity, form);
  const auto* found = std::find_if(units.begin(), units.end(), [&](const Unit& unit) {
    return dimension == unit.dimension && unit.name == name;
  });
  return found == units.end() ? nullptr : found;
}

}  // namespace

std::optional<double> convert(double value, std::string_view unit, Quantity quantity,
                              ReadingForm form) {
  const Unit* known = find_unit(quantity, form, unit);
  if (known == nullptr) return {};
  return (value + known->shift) * known->times / known->over;
}

bool known_unit(Quantity quantity, ReadingForm form, std::string_view unit) {
  return find_unit(quantity, form, unit) != nullptr;
}

std::string known_units(Quantity quantity, ReadingForm form) {
  const auto dimension = dimension_of(quantity, form);
  std::string names;
  for (const Unit& unit : units) {
    if (dimension != unit.dimension) continue;
    if (!names.empty()) names += ", ";
    names += unit.name;
    if (!unit.plain.empty()) names += " (" + std::string(unit.plain) + ")";
  }
  return names;
}

}  // namespace gley::daemon
