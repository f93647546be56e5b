#pragma once
#include <chrono>
#include <cstdint>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "tests/system/broker.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::tests {

/// A farm's configuration, put together from parts that tests change. Its root is gley/alder.
struct FarmText {
  explicit FarmText(std::uint16_t broker_port = nobody);

  static constexpr std::uint16_t nobody = 1;  ///< no broker is there
  std::uint16_t mqtt_port;
  std::uint16_t http_port = free_port();
  std::string mqtt;  ///< more keys of [mqtt]
  std::string http;  ///< more keys of [http]
  std::string time_zone = "UTC";
  int oldest_days = 30;
  std::string durability = "process";
  std::string station;  ///< [[station]] and what follows; default: yard, see yard_station()
  std::string fields;   ///< [[field]] and what follows; default: the one field 'top'
  std::string more;

  [[nodiscard]] std::string text() const;
};

/// Station 'yard', which sends SenML packs with records named rain, temperature, wind and sunshine
/// on weather/yard/pack, and bare numbers on weather/yard/rain.
[[nodiscard]] std::string yard_station();

struct FieldLook {
  std::string soil = "clay loam";
  std::string drainage = "moderate";
  std::string crop = "grass";
  std::string more = {};
};
/// A [[field]] of station yard; soil and crop as TOML writes them after the equals sign when they
/// begin with '{', else as names.
[[nodiscard]] std::string field_text(const std::string& id, const FieldLook& look = {});

/// What farms have beside fields.
inline const std::string drill_text =
    "[[machine]]\nid = \"drill\"\nname = \"Tractor and drill\"\nwheel_load_t = 2.6\n"
    "tyre_pressure_bar = 1.0\n";
inline const std::string nitrogen_text =
    "[[material]]\nid = \"nitrogen\"\nname = \"Nitrogen\"\nkind = \"mineral fertiliser\"\n";
inline const std::string slurry_text =
    "[[material]]\nid = \"slurry\"\nname = \"Slurry\"\nkind = \"slurry\"\n";
inline const std::string forecast_text = "[forecast]\ntopic = \"weather/forecast\"\n";

struct Said {
  int code = -1;
  std::string out;
  std::string err;
};
/// Runs gleyd to its end.
[[nodiscard]] Said run_gleyd(std::vector<std::string> arguments);

/// A daemon with configuration and store in a directory of its own. One thread only.
class Gleyd {
 public:
  /// Writes the configuration; starts nothing.
  explicit Gleyd(FarmText farm);

  FarmText farm;                         ///< changed here, then written by `configure`
  std::vector<std::string> environment;  ///< "NAME=value", for the next start
  std::vector<std::string> under;        ///< a program and its options that start it
  void configure();

  [[nodiscard]] std::filesystem::path directory() const { return directory_.path(); }
  [[nodiscard]] std::filesystem::path config() const { return directory() / "farm.toml"; }
  [[nodiscard]] std::filesystem::path store() const { return directory() / "alder.db"; }
  [[nodiscard]] std::filesystem::path write(const std::string& name, const std::string& text) const;

  /// Starts `gleyd serve` and returns at once.
  void launch();
  /// Starts it and returns when its page answers; throws with its log if it does not.
  void start();
  /// Starts it and returns when it says `online`.
  void start_online();
  /// Returns the exit code when it is gone.
  int stop(int signal = SIGTERM);
  void reload() { process_->kill(SIGHUP); }
  [[nodiscard]] pid_t pid() const { return process_->pid(); }
  [[nodiscard]] bool running() const { return process_ && process_->running(); }
  /// All that it has written to its log, of earlier runs too.
  [[nodiscard]] std::string log() const { return read_file(directory() / "log"); }
  [[nodiscard]] bool eventually_logs(const std::string& words) const;

  [[nodiscard]] HttpAnswer ask(const HttpQuestion& question) const {
    return http_ask(farm.http_port, question);
  }
  [[nodiscard]] HttpAnswer get(const std::string& path) const { return ask({"GET " + path}); }
  [[nodiscard]] nlohmann::json json(const std::string& path) const;
  /// A sample of /metrics by its name and labels; empty if there is none.
  [[nodiscard]] std::optional<double> metric(const std::string& sample) const;
  [[nodiscard]] bool eventually_stored(double readings) const;

  /// Runs another command of gleyd on the same configuration.
  [[nodiscard]] Said command(const std::string& name, std::vector<std::string> more = {}) const;
  /// Loads a weather file of this text for station yard; throws if it is refused.
  void load(const std::string& weather) const;

 private:
  ScratchDirectory directory_;
  std::unique_ptr<Process> process_;
};

/// Payloads by topic.
using Topics = std::map<std::string, std::string>;

/// What the broker has retained below gley/alder; empty payloads are not retained.
[[nodiscard]] Topics retained(const Broker& broker);

/// Asks until the broker has retained what `yes` looks for.
[[nodiscard]] bool eventually_retained(const Broker& broker,
                                       const std::function<bool(const Topics&)>& yes);

/// Runs gleyd replay on a weather file and returns the days file of one field.
[[nodiscard]] std::string replayed_days(const Gleyd& gleyd, const std::filesystem::path& weather,
                                        const std::string& field);

/// Where two days files first differ within dates, in words; empty if they are the same: header and
/// words alike, numbers to 1e-9.
[[nodiscard]] std::string difference(const std::string& got, const std::string& want);

}  // namespace gley::tests
