#include "daemon/board/words/plain_words.hpp"

#include <algorithm>
#include <iterator>

#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {
namespace {

struct FlagWords {
  std::string_view flag;
  std::string_view words;
  std::string_view in_a_row;  ///< beside a field's name; empty: a small matter, told on its page
};

constexpr FlagWords flag_table[] = {
    {"rain_missing", "no rain known, 0 mm taken", "no rain known"},
    {"rain_partial", "rain known for part of the day only", "rain of part of the day"},
    {"rain_doubtful", "rain gauge doubted, its value not used", "rain gauge doubted"},
    {"rain_borrowed", "rain from another station", ""},
    {"temperature_estimated", "temperature carried over", ""},
    {"temperature_doubtful", "thermometer doubted, its value not used", ""},
    {"temperature_borrowed", "temperature from another station", ""},
    {"humidity_doubtful", "humidity sensor doubted, its value not used", ""},
    {"humidity_borrowed", "humidity from another station", ""},
    {"radiation_borrowed", "radiation from another station", ""},
    {"wind_doubtful", "wind gauge doubted, its value not used", ""},
    {"wind_borrowed", "wind from another station", ""},
    {"temperature_missing", "no temperature: snow and frost cannot be told", "no temperature"},
    {"humidity_estimated", "humidity estimated", ""},
    {"radiation_estimated", "radiation estimated", ""},
    {"radiation_doubtful", "radiation doubtful", ""},
    {"wind_estimated", "wind taken as 2 m/s", ""},
    {"et0_given", "evapotranspiration as given", ""},
    {"et0_negative", "evapotranspiration below 0, 0 mm taken", ""},
    {"et0_missing", "no evapotranspiration known, 0 mm taken", "no evapotranspiration"},
    {"day_missing", "no weather for this day", "no weather"},
    {"start_assumed", "start assumed", "start assumed"},
    {"frozen", "frozen", "frozen"},
    {"snow", "snow", "snow"},
};

/// Shown from the first tenth of a millimetre on.
bool shows(double value_mm) {
  return round_to(value_mm, 0.1) > 0.0;
}

std::size_t rank_of(std::string_view severity) {
  const auto* at = std::find(severities.begin(), severities.end(), severity);
  return static_cast<std::size_t>(std::distance(severities.begin(), at));
}

}  // namespace

std::string flag_words(std::string_view flag) {
  for (const FlagWords& row : flag_table) {
    if (row.flag == flag) return std::string(row.words);
  }
  std::string words(flag);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string flags_text(const FieldView& field) {
  std::vector<std::string> words;
  for (const std::string& flag : field.flags) words.push_back(flag_words(flag));
  return joined(words, "; ");
}

std::string row_flags_text(const FieldView& field) {
  std::vector<std::string> words;
  for (const FlagWords& row : flag_table) {
    const bool stands =
        std::find(field.flags.begin(), field.flags.end(), row.flag) != field.flags.end();
    if (stands && !row.in_a_row.empty()) words.emplace_back(row.in_a_row);
  }
  return joined(words, "; ");
}

std::string wetness_text(const FieldView& field) {
  return field.known ? field.wetness : "no weather yet";
}

std::vector<WaterPhrase> water_phrases(const FieldView& field) {
  std::vector<WaterPhrase> phrases;
  if (!field.known) return phrases;
  const auto add = [&](double amount_mm, std::string_view words) {
    if (shows(amount_mm)) phrases.push_back({mm_text(amount_mm), std::string(words)});
  };
  add(field.topsoil_deficit_mm, "below field capacity in the topsoil");
  add(field.surplus_mm, "surplus still to drain");
  add(field.pond_mm, "standing on the ground");
  if (phrases.empty()) phrases.push_back({"", "topsoil at field capacity"});
  add(field.snow_mm, "of water in snow");
  if (field.drains_running) phrases.push_back({"", "draining"});
  return phrases;
}

std::vector<AlertView> by_severity(std::vector<AlertView> alerts) {
  std::stable_sort(alerts.begin(), alerts.end(), [](const AlertView& a, const AlertView& b) {
    const std::size_t rank_a = rank_of(a.severity);
    const std::size_t rank_b = rank_of(b.severity);
    return rank_a != rank_b ? rank_a < rank_b : a.onset < b.onset;
  });
  return alerts;
}

std::vector<std::string> service_troubles(const ServiceView& service) {
  std::vector<std::string> troubles;
  if (!service.store_message.empty()) {
    troubles.push_back("Readings cannot be stored: " + service.store_message +
                       ". What arrives waits until this is put right.");
  }
  if (!service.broker_connected) {
    std::string text = "Not connected to the broker";
    // The message names the broker itself where it is about one of several addresses.
    const bool known = !service.broker.empty();
    const bool named = known && service.broker_message.starts_with(service.broker);
    if (known && !named) text += ' ' + service.broker;
    if (!service.broker_message.empty()) text += (named ? " " : ": ") + service.broker_message;
    troubles.push_back(text + ". No reading arrives; all here rests on those before.");
  }
  return troubles;
}

std::string alert_fields(const AlertView& alert) {
  return joined(alert.field_names.size() == alert.fields.size() ? alert.field_names : alert.fields,
                ", ");
}

std::string alert_fields_beside_headline(const AlertView& alert) {
  const std::string fields = alert_fields(alert);
  return alert.headline.find(fields) == std::string::npos ? fields : std::string();
}

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (const std::string& part : parts) {
    if (!out.empty()) out += between;
    out += part;
  }
  return out;
}

}  // namespace gley::daemon
