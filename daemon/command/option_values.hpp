#pragma once
#include <chrono>
#include <iosfwd>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "daemon/engine/fields/field_book.hpp"
#include "daemon/readings/forecast.hpp"
#include "daemon/readings/weather_csv.hpp"

/// What the options of several commands mean, read and checked.
namespace gley::daemon {

/// Collects what is wrong with the options, so that all of it is told at once.
class OptionProblems {
 public:
  explicit OptionProblems(std::ostream& out) : out_(out) {}
  void add(const std::string& message);
  [[nodiscard]] bool any() const { return any_; }

 private:
  std::ostream& out_;
  bool any_ = false;
};

/// The weather files of --weather [STATION=]FILE by station; a file without a station is that of
/// every station without a file of its own.
[[nodiscard]] std::map<std::string, WeatherByDay> weather_option(
    const std::vector<std::string>& files, const FarmConfig& farm, OptionProblems& problems);

/// Tells what an option names that there is none of, and the nearest there is. of: "no station has
/// the id".
void add_unknown(const std::string& option, const std::string& of, const std::string& given,
                 const std::vector<std::string>& known, OptionProblems& problems);

/// Whether --station names a station of the farm.
bool check_station_option(const FarmConfig& farm, const std::string& id, OptionProblems& problems);

/// A date, or nothing where the option was not given or is none.
[[nodiscard]] std::optional<std::chrono::sys_days> day_option(const std::string& name,
                                                              const std::string& text,
                                                              OptionProblems& problems);

/// Which field of the book --field means.
[[nodiscard]] std::optional<std::size_t> field_option(const std::string& id, const FieldBook& book,
                                                      OptionProblems& problems);

/// The text of a --forecast file, and what it says as of now; a farm without [forecast] is read
/// with that table's defaults.
struct ForecastFile {
  std::string text;
  Forecast forecast;
};
[[nodiscard]] std::optional<ForecastFile> forecast_option(const std::filesystem::path& file,
                                                          const FarmConfig& farm, Instant now,
                                                          OptionProblems& problems);

/// Puts the days of weather files on record and closes the book at the last of them.
void put_all(FieldBook& book, const std::map<std::string, WeatherByDay>& weather);

}  // namespace gley::daemon
