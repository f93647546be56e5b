#include "daemon/farm/settings.hpp"

namespace gley::daemon {

std::vector<Setting> all_settings() {
  std::vector<Setting> all;
  for (const auto& part : {farm_settings(), field_settings(), crop_settings(), land_settings()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

std::vector<Setting> settings_of(std::string_view table) {
  std::vector<Setting> rows;
  for (const auto& part : {farm_settings(), field_settings(), crop_settings(), land_settings()}) {
    for (const Setting& setting : part) {
      if (setting.table == table) rows.push_back(setting);
    }
  }
  return rows;
}

std::vector<std::string> words_of(const Setting& setting) {
  std::vector<std::string> words;
  std::string_view rest = setting.words;
  while (!rest.empty()) {
    const std::size_t bar = rest.find('|');
    words.emplace_back(rest.substr(0, bar));
    rest = bar == std::string_view::npos ? std::string_view{} : rest.substr(bar + 1);
  }
  return words;
}

}  // namespace gley::daemon
