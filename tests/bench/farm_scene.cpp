#include "tests/bench/farm_scene.hpp"

#include <array>
#include <cmath>
#include <random>

#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"

namespace gley::bench {
namespace {

using namespace gley::daemon;
using std::chrono::hours;

std::string station_id(int station) {
  return "s" + std::to_string(station);
}

std::string reading_text(const std::string& station, const char* quantity, const char* unit,
                         const char* form) {
  const std::string tail = std::string("quantity = \"") + quantity + "\"\nunit = \"" + unit +
                           "\"\nform = \"" + form + "\"\n";
  return "[[station.reading]]\ntopic = \"weather/" + station + "/" + quantity + "\"\n" + tail +
         "[[station.reading]]\ntopic = \"weather/" + station + "/pack\"\nname = \"" + quantity +
         "\"\n" + tail;
}

std::string station_text(int number) {
  const std::string id = station_id(number);
  return "[[station]]\nid = \"" + id + "\"\n" + reading_text(id, "rain", "mm", "interval") +
         reading_text(id, "temperature", "Cel", "instant") +
         reading_text(id, "humidity", "%RH", "instant") +
         reading_text(id, "wind", "m/s", "instant");
}

std::string field_text(int number, const FarmScene& scene) {
  constexpr std::array soils{"sandy loam", "sandy silt loam", "clay loam", "clay", "silt loam"};
  constexpr std::array drains{"free", "moderate", "slow", "poor"};
  constexpr std::array crops{"grass", "winter wheat", "spring barley"};
  const auto n = static_cast<std::size_t>(number);
  const std::string id = std::to_string(number);
  return "[[field]]\nid = \"f" + id + "\"\nname = \"Field " + id + "\"\nstation = \"" +
         station_id(number % scene.stations) + "\"\nsoil = \"" + soils[n % soils.size()] +
         "\"\ndrainage = \"" + drains[n / soils.size() % drains.size()] + "\"\ncrop = \"" +
         crops[n / 20 % crops.size()] + "\"\nslope_pct = " + std::to_string(number % 9) + "\n";
}

std::string machine_text(int number) {
  const std::string id = std::to_string(number);
  return "[[machine]]\nid = \"m" + id + "\"\nname = \"Machine " + id +
         "\"\nwheel_load_t = " + std::to_string(0.4 + 0.6 * number) +
         "\ntyre_pressure_bar = " + std::to_string(0.6 + 0.2 * number) + "\n";
}

/// A station's hours: showers that last, the year's and the day's swing of temperature.
class Sky {
 public:
  explicit Sky(int station) : random_(static_cast<unsigned>(station) + 1U) {}

  std::array<double, 4> next(std::int64_t hour) {
    std::uniform_real_distribution<double> chance;
    raining_ = chance(random_) < (raining_ ? 0.7 : 0.03);
    const double year = std::sin(static_cast<double>(hour) * 2.0 * pi / (24.0 * 365.25) - 1.9);
    const double day = std::sin(static_cast<double>(hour % 24) * 2.0 * pi / 24.0 - 2.1);
    const double rain_mm = raining_ ? 0.2 * std::floor(1.0 + 8.0 * chance(random_)) : 0.0;
    return {rain_mm, tenths(9.0 + 7.0 * year + 4.0 * day + 2.0 * chance(random_)),
            tenths(80.0 - 12.0 * day + 6.0 * chance(random_)), tenths(1.0 + 6.0 * chance(random_))};
  }

 private:
  static constexpr double pi = 3.14159265358979;
  static double tenths(double value) { return std::round(value * 10.0) / 10.0; }
  std::mt19937 random_;
  bool raining_ = false;
};

struct Kind {
  Quantity quantity;
  ReadingForm form;
  const char* name;
};
constexpr std::array<Kind, 4> kinds{{{Quantity::rain, ReadingForm::interval, "rain"},
                                     {Quantity::temperature, ReadingForm::instant, "temperature"},
                                     {Quantity::humidity, ReadingForm::instant, "humidity"},
                                     {Quantity::wind, ReadingForm::instant, "wind"}}};

void add_hour(DecodedMessage& message, const std::string& station, Instant time,
              const std::array<double, 4>& values) {
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const Reading reading{.station = station,
                          .quantity = kinds[k].quantity,
                          .form = kinds[k].form,
                          .source = "weather/" + station + "/" + kinds[k].name,
                          .time = time,
                          .time_source = TimeSource::payload,
                          .value = values[k]};
    message.readings.push_back({reading, ReadingStatus::used});
  }
}

}  // namespace

std::string farm_text(const FarmScene& scene) {
  std::string text =
      "[farm]\nid = \"alder\"\nname = \"Alder Farm\"\nlatitude = 53.9\nlongitude = -1.3\n"
      "elevation_m = 57\ntime_zone = \"Europe/London\"\n[mqtt]\nport = " +
      std::to_string(scene.mqtt_port) + "\n[http]\nport = " + std::to_string(scene.http_port) +
      "\n[readings]\noldest_days = " + std::to_string(scene.oldest_days) +
      "\n[store]\npath = \"farm.db\"\ndurability = \"" + scene.durability + "\"\n";
  for (int i = 0; i < scene.stations; ++i) text += station_text(i);
  for (int i = 0; i < scene.fields; ++i) text += field_text(i, scene);
  for (int i = 0; i < scene.machines; ++i) text += machine_text(i);
  return text +
         "[[material]]\nid = \"nitrogen\"\nname = \"Nitrogen\"\nkind = \"mineral fertiliser\"\n"
         "[[material]]\nid = \"slurry\"\nname = \"Slurry\"\nkind = \"slurry\"\n";
}

std::int64_t fill_store(const std::filesystem::path& store, const FarmScene& scene,
                        std::chrono::sys_days until, int days) {
  (void)open_store(store, Durability::process);
  Inbox inbox(store, Durability::process);
  std::vector<Sky> skies;
  for (int s = 0; s < scene.stations; ++s) skies.emplace_back(s);
  std::int64_t count = 0;
  const Instant begins = until - std::chrono::days{days - 1};
  for (int day = 0; day < days; ++day) {
    DecodedMessage message;
    for (int hour = 1; hour <= 24; ++hour)
      for (int s = 0; s < scene.stations; ++s) {
        const std::int64_t passed = 24 * std::int64_t{day} + hour;
        add_hour(message, station_id(s), begins + hours{passed},
                 skies[static_cast<std::size_t>(s)].next(passed));
      }
    count += inbox.store(message, begins + hours{24 * (day + 1)}).added;
  }
  return count;
}

}  // namespace gley::bench
