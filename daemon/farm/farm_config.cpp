#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

std::string_view to_word(Quantity quantity) {
  switch (quantity) {
    case Quantity::rain:
      return "rain";
    case Quantity::temperature:
      return "temperature";
    case Quantity::humidity:
      return "humidity";
    case Quantity::dew_point:
      return "dew_point";
    case Quantity::wind:
      return "wind";
    case Quantity::sunshine:
      return "sunshine";
    case Quantity::radiation:
      return "radiation";
    case Quantity::irrigation:
      return "irrigation";
  }
  return {};
}

std::string_view to_word(ReadingForm form) {
  switch (form) {
    case ReadingForm::interval:
      return "interval";
    case ReadingForm::counter:
      return "counter";
    case ReadingForm::rate:
      return "rate";
    case ReadingForm::instant:
      return "instant";
  }
  return {};
}

std::string_view to_word(DrainageClass drainage) {
  switch (drainage) {
    case DrainageClass::free:
      return "free";
    case DrainageClass::moderate:
      return "moderate";
    case DrainageClass::slow:
      return "slow";
    case DrainageClass::poor:
      return "poor";
  }
  return {};
}

std::string_view to_word(MaterialKind kind) {
  switch (kind) {
    case MaterialKind::mineral_fertiliser:
      return "mineral fertiliser";
    case MaterialKind::slurry:
      return "slurry";
    case MaterialKind::solid_manure:
      return "solid manure";
    case MaterialKind::spray:
      return "spray";
  }
  return {};
}

std::string_view to_word(model::Tread tread) {
  switch (tread) {
    case model::Tread::wheels:
      return "wheels";
    case model::Tread::tracks:
      return "tracks";
    case model::Tread::hooves:
      return "hooves";
  }
  return {};
}

std::string_view to_word(Durability durability) {
  switch (durability) {
    case Durability::power:
      return "power";
    case Durability::process:
      return "process";
  }
  return {};
}

model::Site site_of(const FarmConfig& farm, const StationConfig& station) {
  return {.latitude_deg = station.latitude.value_or(farm.latitude),
          .elevation_m = station.elevation_m.value_or(farm.elevation_m),
          .wind_height_m = station.wind_height_m,
          .krs = station.krs,
          .dew_point_offset_c = station.dew_point_offset_c};
}

}  // namespace gley::daemon
