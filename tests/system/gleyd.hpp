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

namespace gley::tests {

/// How long a test asks before it gives up: an instrumented build on a busy machine is slow.
inline constexpr std::chrono::seconds patience{60};

/// A farm's configuration, put together from parts that tests change. Its root is gley/alder.
struct FarmText {
  std::uint16_t mqtt_port = 1;  ///< default: where no broker is
  std::uint16_t http_port = free_port();
  std::string mqtt;  ///< more keys of [mqtt]
  std::string http;  ///< more keys of [http]
  std::string time_zone = "UTC";
  int oldest_days = 30;
  std::string durability = "process";
  std::string station;  ///< [[station]] and what follows; default: yard, see yard_station()
  std::string fields;   ///< [[field]] and what follows; default: the one field 'top'
  std::string more;

  FarmText();
  [[nodiscard]] std::string text() const;
};

/// Station 'yard', which sends SenML packs with records named rain, temperature, wind and sunshine
/// on weather/yard/pack, and bare numbers on weather/yard/rain.
[[nodiscard]] std::string yard_station();

struct FieldLook {
  std::string soil = "clay loam";
  std::string drainage = "moderate";
  std::string crop = "grass";
  std::string more;
};
/// A [[field]] of station yard; soil and crop as TOML writes them after the equals sign when they
/// begin with '{', else as names.
[[nodiscard]] std::string field_text(const std::string& id, const FieldLook& look = {});

struct HttpAnswer {
  int status = 0;  ///< 0: no answer
  std::string head;
  std::string body;
};
[[nodiscard]] HttpAnswer http_get(std::uint16_t port, const std::string& path);

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

  [[nodiscard]] HttpAnswer get(const std::string& path) const;
  [[nodiscard]] nlohmann::json json(const std::string& path) const;
  /// A sample of /metrics by its name and labels; empty if there is none.
  [[nodiscard]] std::optional<double> metric(const std::string& sample) const;
  [[nodiscard]] bool eventually_stored(double readings) const;

  /// Runs another command of gleyd on the same configuration.
  [[nodiscard]] Said command(const std::string& name, std::vector<std::string> more = {}) const;

 private:
  TempDir directory_;
  std::unique_ptr<Process> process_;
};

/// What the broker has retained below gley/alder, by topic; empty payloads are not retained.
[[nodiscard]] std::map<std::string, std::string> retained(std::uint16_t mqtt_port);

/// Asks until the broker has retained what `yes` looks for.
[[nodiscard]] bool eventually_retained(
    std::uint16_t mqtt_port,
    const std::function<bool(const std::map<std::string, std::string>&)>& yes);

/// Runs gleyd replay on a weather file and returns the days file of one field.
[[nodiscard]] std::string replayed_days(const Gleyd& gleyd, const std::filesystem::path& weather,
                                        const std::string& field);

/// Where two days files first differ within dates, in words; empty if they are the same: header and
/// words alike, numbers to 1e-9.
[[nodiscard]] std::string difference(const std::string& got, const std::string& want);

}  // namespace gley::tests
