#include "daemon/farm/farm_config.hpp"

#include "daemon/farm/word.hpp"

namespace gley::daemon {

std::string_view to_word(Quantity quantity) {
  return word_of(quantity);
}

std::string_view to_word(ReadingForm form) {
  return word_of(form);
}

std::string_view to_word(DrainageClass drainage) {
  return word_of(drainage);
}

std::string_view to_word(MaterialKind kind) {
  return word_of(kind);
}

std::string_view to_word(model::Tread tread) {
  return word_of(tread);
}

std::string_view to_word(Durability durability) {
  return word_of(durability);
}

model::Site site_of(const FarmConfig& farm, const StationConfig& station) {
  return {.latitude_deg = station.latitude.value_or(farm.latitude),
          .elevation_m = station.elevation_m.value_or(farm.elevation_m),
          .wind_height_m = station.wind_height_m,
          .krs = station.krs,
          .dew_point_offset_c = station.dew_point_offset_c};
}

}  // namespace gley::daemon
