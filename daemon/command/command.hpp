#pragma once
#include <filesystem>
#include <iosfwd>
#include <string>
#include <vector>

#include "daemon/farm/farm_config.hpp"

/// The commands of gleyd, without the parsing of their options. Each is given the farm that the
/// file of its option `config` describes, and returns its exit code.
namespace gley::daemon {

inline constexpr int exit_done = 0;
inline constexpr int exit_failed = 1;
inline constexpr int exit_bad_input = 2;

/// Where a command says what it has to say.
struct Voice {
  std::ostream& out;
  std::ostream& problems;
};

struct CheckOptions {
  std::filesystem::path config;
};
int check(const FarmConfig& farm, const CheckOptions& options, const Voice& voice);

struct ReplayOptions {
  std::filesystem::path config;
  std::vector<std::string> weather;  ///< [STATION=]FILE
  std::filesystem::path out;
  std::string from;  ///< first day written; the history before it is still stepped
  std::string to;
  std::vector<std::string> fields;  ///< ids; empty: all
};
int replay(const FarmConfig& farm, const ReplayOptions& options, const Voice& voice);

struct LoadOptions {
  std::filesystem::path config;
  std::string station;
  std::filesystem::path weather;
};
int load(const FarmConfig& farm, const LoadOptions& options, const Voice& voice);

struct TodayOptions {
  std::filesystem::path config;
  std::filesystem::path forecast;  ///< a file to try out; empty: what the store has
};
int today(FarmConfig farm, const TodayOptions& options, const Voice& voice);

struct ExplainOptions {
  std::filesystem::path config;
  std::string field;
  std::string date;
  std::vector<std::string> weather;  ///< [STATION=]FILE; empty: from the store
};
int explain(const FarmConfig& farm, const ExplainOptions& options, const Voice& voice);

struct DoubtsOptions {
  std::filesystem::path config;
  std::string from;  ///< first day listed; empty: all
};
int doubts(const FarmConfig& farm, const DoubtsOptions& options, const Voice& voice);

struct AcceptOptions {
  std::filesystem::path config;
  std::string station;
  std::string quantity;
  std::string from;
  std::string to;  ///< empty: the one day
};
int accept(const FarmConfig& farm, const AcceptOptions& options, const Voice& voice);

/// What is told by the commands dressing, report and seen; each uses some of it. They write into
/// the store, and a running daemon finds it there.
struct TellOptions {
  std::filesystem::path config;
  std::string field;
  std::string material;
  double rate = 0.0;  ///< in the unit of the material's kind
  std::string report;
  std::string machine;
  std::string alert;
  std::string time;  ///< RFC 3339; empty: now
  std::string by;
};
int tell_dressing(const FarmConfig& farm, const TellOptions& options, const Voice& voice);
int tell_report(const FarmConfig& farm, const TellOptions& options, const Voice& voice);
int tell_seen(const FarmConfig& farm, const TellOptions& options, const Voice& voice);

struct BackupOptions {
  std::filesystem::path config;
  std::filesystem::path to;
};
int backup(const FarmConfig& farm, const BackupOptions& options, const Voice& voice);

struct ServeOptions {
  std::filesystem::path config;
  std::string log_level = "info";
  std::filesystem::path forecast;  ///< a file, taken as if it had just come; empty: none
};
int serve(FarmConfig farm, const ServeOptions& options, const Voice& voice);

}  // namespace gley::daemon
