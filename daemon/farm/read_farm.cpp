#include <arpa/inet.h>
#include <date/tz.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "daemon/farm/calendar_text.hpp"
#include "daemon/farm/config_draft.hpp"
#include "daemon/text/nearest_name.hpp"

namespace gley::daemon {
namespace {

/// What is wrong with the name of a time zone.
std::optional<std::string> time_zone_problem(const std::string& name) {
  try {
    (void)date::locate_zone(name);
    return std::nullopt;
  } catch (const std::runtime_error&) {
    // An unknown name, or no time zones on the system at all.
  }
  try {
    std::vector<std::string> names;
    for (const date::time_zone& zone : date::get_tzdb().zones) names.push_back(zone.name());
    const auto near = nearest_name(name, names);
    return "is \"" + name + "\"; there is no such time zone; " +
           (near ? "did you mean \"" + *near + "\"?"
                 : "they are named by continent and city, such as \"Europe/London\"");
  } catch (const std::runtime_error&) {
    return "cannot be looked up: this system has no time zones; install the package tzdata";
  }
}

bool is_address(const std::string& text) {
  in6_addr address{};
  return inet_pton(AF_INET, text.c_str(), &address) == 1 ||
         inet_pton(AF_INET6, text.c_str(), &address) == 1;
}

bool is_host(const std::string& text) {
  if (text.find_first_of("/ ") != std::string::npos) return false;
  // One colon parts a port from a name; an address of IPv6 has more.
  return std::count(text.begin(), text.end(), ':') != 1;
}

/// What a forecast may tell.
constexpr auto forecast_quantities = std::to_array<std::string_view>(
    {"rain", "temperature", "humidity", "dew_point", "wind", "sunshine", "radiation"});

}  // namespace

void read_farm(const TableReader& table, ConfigDraft& draft) {
  FarmConfig& farm = draft.farm;
  table.assign(farm.id, table.text("id"));
  table.assign(farm.name, table.text("name"));
  table.assign(farm.latitude, table.number("latitude"));
  table.assign(farm.longitude, table.number("longitude"));
  table.assign(farm.elevation_m, table.number("elevation_m"));
  table.assign(farm.time_zone, table.text("time_zone"));
  if (const auto zone = table.text("time_zone")) {
    if (const auto wrong = time_zone_problem(*zone)) table.problem("time_zone", *wrong);
  }
  if (const auto written = table.text("day_starts")) {
    const auto time = parse_time_of_day(*written);
    if (!time) {
      table.problem("day_starts",
                    "is \"" + *written + "\"; it must be a time from \"00:00\" to \"23:59\"");
    }
    table.assign(farm.day_starts, time);
  }
}

void read_mqtt(const TableReader& table, ConfigDraft& draft) {
  MqttConfig& mqtt = draft.farm.mqtt;
  table.assign(mqtt.host, table.text("host"));
  if (!is_host(mqtt.host))
    table.problem("host", "is \"" + mqtt.host +
                              "\"; it must be a name or an address alone, such as "
                              "\"localhost\", without mqtt:// and port");
  table.assign(mqtt.client_id, table.text("client_id"));
  table.assign(mqtt.root, table.text("root"));
  if (const auto port = table.whole_number("port")) mqtt.port = static_cast<std::uint16_t>(*port);
  mqtt.user = table.text("user");
  mqtt.password_file = table.existing_file("password_file");
  mqtt.ca_file = table.existing_file("ca_file");
  mqtt.certificate_file = table.existing_file("certificate_file");
  mqtt.key_file = table.existing_file("key_file");
  if (table.has("certificate_file") != table.has("key_file"))
    table.problem(table.has("key_file") ? "key_file" : "certificate_file",
                  "stands alone; give both certificate_file and key_file");
  if (table.has("certificate_file") && !table.has("ca_file"))
    table.problem("certificate_file",
                  "stands without ca_file; a certificate is shown over TLS only, which ca_file "
                  "switches on");
  table.assign(mqtt.away_after_min, table.number("away_after_min"));
  if (table.has("password_file") && !table.has("user")) {
    table.problem("password_file", "stands without user; give the user it belongs to");
  }
}

void read_http(const TableReader& table, ConfigDraft& draft) {
  HttpConfig& http = draft.farm.http;
  if (const auto address = table.text("address"); address && !is_address(*address)) {
    table.problem("address", "is \"" + *address +
                                 "\"; it must be an address in numbers, such as \"127.0.0.1\" or "
                                 "\"::\"");
  }
  table.assign(http.address, table.text("address"));
  if (const auto port = table.whole_number("port")) http.port = static_cast<std::uint16_t>(*port);
  http.token_file = table.existing_file("token_file");
  for (const TextAt& name : table.texts("host_names")) {
    if (name.text.empty() || name.text.find_first_of("/: *") != std::string::npos)
      table.problem("host_names", "has \"" + name.text +
                                      "\"; it must be a name alone, such as "
                                      "\"board.example.org\", without https:// and port");
    http.host_names.push_back(name.text);
  }
}

void read_forecast(const TableReader& table, ConfigDraft& draft) {
  ForecastConfig forecast;
  table.assign(forecast.topic, table.text("topic"));
  table.assign(forecast.days, table.whole_number("days"));
  table.assign(forecast.window_chance, table.number("window_chance"));
  table.assign(forecast.heavy_rain_mm, table.number("heavy_rain_mm"));
  table.assign(forecast.wind_height_m, table.number("wind_height_m"));
  if (const toml::node* parameters = table.node("parameters");
      parameters != nullptr && parameters->is_table()) {
    const Setting names("", ValueType::word, "", {.words = forecast_quantities});
    for (const auto& [key, value] : *parameters->as_table()) {
      if (const auto wrong = problem_with(names, value)) {
        table.problems().add({.file = table.place().file, .line = key.source().begin.line},
                             "[forecast], parameters: " + std::string(key.str()) + " " + *wrong);
      } else {
        forecast.parameters.emplace(key.str(), *value.value<std::string>());
      }
    }
  }
  draft.forecast_topic = table.place("topic");
  draft.farm.forecast = std::move(forecast);
}

void read_readings(const TableReader& table, ConfigDraft& draft) {
  table.assign(draft.farm.oldest_days, table.whole_number("oldest_days"));
  table.assign(draft.farm.silent_after_h, table.number("silent_after_h"));
}

void read_store(const TableReader& table, ConfigDraft& draft) {
  table.assign(draft.farm.store.path, table.path("path"));
  table.assign(draft.farm.store.durability, table.word<Durability>("durability"));
}

}  // namespace gley::daemon
