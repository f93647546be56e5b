#pragma once
#include <chrono>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "daemon/farm/crop_config.hpp"
#include "daemon/farm/file_place.hpp"
#include "daemon/farm/land.hpp"
#include "daemon/farm/soil_config.hpp"
#include "model/ground/machine_stress.hpp"
#include "model/soil/drainage.hpp"
#include "model/spreading/material_kind.hpp"
#include "model/weather/daily_weather.hpp"

/// The farm as its configuration files describe it, read and checked, before anything runs on it.
/// Plain data: every default stands here, beside its member.
namespace gley::daemon {

enum class Quantity {
  rain,
  temperature,
  humidity,
  dew_point,
  wind,
  sunshine,
  radiation,
  irrigation
};
enum class ReadingForm { interval, counter, rate, instant };

/// One [[station.reading]]: which messages carry which quantity.
struct ReadingMap {
  std::string topic;                         ///< may hold MQTT wildcards
  std::optional<std::string> value_pointer;  ///< RFC 6901, into a JSON payload
  std::optional<std::string> time_pointer;
  std::optional<std::string> senml_name;  ///< absent: every record of a pack counts
  Quantity quantity = Quantity::rain;
  std::string unit;
  ReadingForm form = ReadingForm::instant;
  double step = 1.0;                    ///< value of one count of a counter, in `unit`
  std::optional<double> rolls_over_at;  ///< the count, as sent, at which a counter is at 0 again
  FilePlace place;
};

struct StationConfig {
  std::string id;
  std::string name;                 ///< default: the id
  std::optional<double> latitude;   ///< default: the farm's
  std::optional<double> longitude;  ///< default: the farm's
  std::optional<double> elevation_m;
  double wind_height_m = 2.0;
  double krs = 0.16;
  std::optional<double> dew_point_offset_c;
  std::vector<ReadingMap> readings;
  FilePlace place;
};

using model::DrainageClass;

/// How a field is irrigated; how much comes with the readings.
struct IrrigationConfig {
  std::string method;  ///< a name of irrigation.toml
  std::optional<double> wetted_fraction;
};

struct FieldConfig {
  std::string id;
  std::string name;
  std::vector<std::string> stations;  ///< in order of trust
  SoilConfig soil;
  DrainageClass drainage = DrainageClass::moderate;
  CropConfig crop;
  bool textbook = false;
  std::optional<double> rew_mm;
  std::optional<double> tew_mm;
  std::optional<double> area_ha;
  double slope_pct = 2.0;
  std::optional<double> soil_depth_mm;
  std::optional<double> slow_layer_depth_mm;
  std::optional<double> root_depth_mm;
  std::optional<double> start_depletion_mm;
  std::optional<IrrigationConfig> irrigation;  ///< default: the whole surface is wetted
  bool pipe_drains = false;                    ///< working pipe drains
  std::optional<double> pipe_rate_mm_d;        ///< design rate of the pipes, mm/day
  std::optional<double> water_distance_m;      ///< nearest ditch, stream or pond
  std::optional<double> water_edge_m;          ///< length of the edge along that water
  std::optional<double> spring_distance_m;     ///< nearest spring, well or borehole
  std::optional<std::string> sign_machine;     ///< default: the heaviest
  std::optional<FieldShape> shape;             ///< its outline
  FilePlace place;
};

struct MachineConfig {
  std::string id;
  std::string name;
  double wheel_load_t = 0.0;
  double tyre_pressure_bar = 0.0;  ///< under a track or a hoof: mean pressure on the ground
  std::optional<double> mass_t;
  std::optional<double> empty_wheel_load_t;  ///< of the same wheel, tank or hopper empty
  std::optional<double> empty_mass_t;
  bool cultivates = false;
  model::Tread tread = model::Tread::wheels;
  FilePlace place;
};

using model::MaterialKind;

struct MaterialConfig {
  std::string id;
  std::string name;
  MaterialKind kind = MaterialKind::mineral_fertiliser;
  std::optional<double> rate_kg_ha;  ///< of product, at one dressing
  std::optional<double> n_pct;       ///< nitrogen in it
  FilePlace place;
};

struct MqttConfig {
  std::string host = "localhost";
  std::uint16_t port = 1883;
  std::string client_id;  ///< default gley-<farm>
  std::string root;       ///< default gley/<farm>
  std::optional<std::string> user;
  std::optional<std::filesystem::path> password_file;
  std::optional<std::filesystem::path> ca_file;
  std::optional<std::filesystem::path> certificate_file;  ///< ours, shown to the broker
  std::optional<std::filesystem::path> key_file;          ///< of that certificate
  double away_after_min = 10.0;  ///< a broker away this long makes /healthz fail; our choice
};

struct HttpConfig {
  std::string address = "127.0.0.1";
  std::uint16_t port = 8080;
  std::optional<std::filesystem::path> token_file;
  std::vector<std::string> host_names;  ///< beside addresses in numbers and private names
};

struct ForecastConfig {
  std::string topic;
  int days = 7;                 ///< length of the outlook
  double window_chance = 0.6;   ///< chance from which a day counts into a window; our choice
  double heavy_rain_mm = 10.0;  ///< in any 24 h; more than that holds what is spread. Our choice
  double wind_height_m = 10.0;  ///< where forecasts tell wind for (WMO-No. 8)
  std::map<std::string, std::string> parameters;  ///< their key -> our quantity name
};

/// What is told in alerts, and when.
struct AlertsConfig {
  std::chrono::minutes working_from{7 * 60};  ///< local time of day; windows fall between the two
  std::chrono::minutes working_to{19 * 60};
  std::vector<std::string> machines;  ///< whose windows are told; empty: each field's sign machine
  // The four are our choice, and a farm's to change.
  int closed_days = 3;          ///< closed to a machine so long, a field is waited for
  int open_days = 5;            ///< open so long, it is waited for no more
  int notice_h = 24;            ///< how long before a window opens or closes it is told
  int fresh_dressing_days = 5;  ///< so long heavy rain on a dressing is told
};

enum class Durability { power, process };

struct StoreConfig {
  std::filesystem::path path;  ///< resolved; default <farm>.db beside the configuration
  Durability durability = Durability::power;
};

struct FarmConfig {
  std::string id;
  std::string name;
  double latitude = 0.0;
  double longitude = 0.0;
  double elevation_m = 0.0;
  std::string time_zone;
  std::chrono::minutes day_starts{0};  ///< local time of day at which a farm day begins
  int oldest_days = 30;                ///< older readings are kept aside
  double silent_after_h = 6.0;         ///< a station silent this long is named in an alert
  MqttConfig mqtt;
  HttpConfig http;
  std::optional<ForecastConfig> forecast;
  AlertsConfig alerts;
  StoreConfig store;
  std::vector<StationConfig> stations;
  std::vector<FieldConfig> fields;
  std::vector<MachineConfig> machines;
  std::vector<MaterialConfig> materials;
  std::vector<WatercourseConfig> watercourses;
  std::vector<SpringConfig> springs;
  std::string hash;  ///< of all the files' text: derived data made under another hash is rebuilt
};

[[nodiscard]] std::string_view to_word(Quantity quantity);
[[nodiscard]] std::string_view to_word(ReadingForm form);
[[nodiscard]] std::string_view to_word(DrainageClass drainage);
[[nodiscard]] std::string_view to_word(MaterialKind kind);
[[nodiscard]] std::string_view to_word(model::Tread tread);
[[nodiscard]] std::string_view to_word(Durability durability);

/// The station's site for the model, with the farm's place where it gives none of its own.
[[nodiscard]] model::Site site_of(const FarmConfig& farm, const StationConfig& station);

}  // namespace gley::daemon
