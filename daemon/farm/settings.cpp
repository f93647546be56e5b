#include "daemon/farm/settings.hpp"

namespace gley::daemon {

std::vector<SettingsTable> all_settings() {
  std::vector<SettingsTable> all;
  for (const auto& part : {farm_settings(), field_settings(), crop_settings(), land_settings()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

std::span<const Setting> settings_of(std::string_view table) {
  for (const SettingsTable& each : all_settings())
    if (each.name == table) return each.settings;
  return {};
}

const Setting* find_setting(std::span<const Setting> settings, std::string_view key) {
  for (const Setting& setting : settings)
    if (setting.key == key) return &setting;
  return nullptr;
}

}  // namespace gley::daemon
