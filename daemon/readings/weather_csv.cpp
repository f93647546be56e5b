#include "daemon/readings/weather_csv.hpp"

#include <cerrno>
#include <fstream>
#include <optional>
#include <sstream>
#include <system_error>

#include "daemon/readings/physical_range.hpp"
#include "daemon/text/csv_rows.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/nearest_name.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;

/// A column and what a value in it can be.
struct Column {
  std::string_view name;
  std::optional<double> DailyWeather::*member;
  PhysicalRange range;
};

// Sums of a day where a reading's range is of less: our choice. Rain: over any day on record, 1825
// mm (WMO World Weather and Climate Extremes Archive, from memory). Sun: a day above the air
// has 45.
constexpr PhysicalRange rain_of_a_day_mm{0.0, 2000.0};
constexpr PhysicalRange radiation_of_a_day_mj_m2{0.0, 60.0};
constexpr PhysicalRange et0_of_a_day_mm{0.0, 30.0};
constexpr PhysicalRange irrigation_of_a_day_mm{0.0, 1000.0};

const std::vector<Column>& columns() {
  const auto instant = [](Quantity quantity) {
    return physical_range(quantity, ReadingForm::instant);
  };
  static const std::vector<Column> all{
      {"rain_mm", &DailyWeather::rain_mm, rain_of_a_day_mm},
      {"tmin_c", &DailyWeather::tmin_c, instant(Quantity::temperature)},
      {"tmax_c", &DailyWeather::tmax_c, instant(Quantity::temperature)},
      {"tmean_c", &DailyWeather::tmean_c, instant(Quantity::temperature)},
      {"rh_min_pct", &DailyWeather::rh_min_pct, instant(Quantity::humidity)},
      {"rh_max_pct", &DailyWeather::rh_max_pct, instant(Quantity::humidity)},
      {"rh_mean_pct", &DailyWeather::rh_mean_pct, instant(Quantity::humidity)},
      {"dew_point_c", &DailyWeather::dew_point_c, instant(Quantity::dew_point)},
      {"wind_m_s", &DailyWeather::wind_m_s, instant(Quantity::wind)},
      {"sun_h", &DailyWeather::sun_h, physical_range(Quantity::sunshine, ReadingForm::interval)},
      {"solar_mj_m2", &DailyWeather::solar_mj_m2, radiation_of_a_day_mj_m2},
      {"et0_mm", &DailyWeather::et0_mm, et0_of_a_day_mm},
      {"irrigation_mm", &DailyWeather::irrigation_mm, irrigation_of_a_day_mm}};
  return all;
}

constexpr std::string_view date_column = "date";

const Column* column_named(std::string_view name) {
  for (const Column& column : columns())
    if (column.name == name) return &column;
  return nullptr;
}

std::string known_columns() {
  std::string names(date_column);
  for (const Column& column : columns()) names += ", " + std::string(column.name);
  return names;
}

std::string meant_column(const std::string& name) {
  std::vector<std::string> names{std::string(date_column)};
  for (const Column& column : columns()) names.emplace_back(column.name);
  const auto near = nearest_name(name, names);
  return near ? "did you mean '" + *near + "'? " : "";
}

/// A file of which every line has the same fault need not be told of each.
constexpr std::size_t most_problems = 20;

class Parser {
 public:
  explicit Parser(std::string name) : name_(std::move(name)) {}

  WeatherFile parse(const std::string& text) {
    const std::vector<CsvRow> rows = csv_rows(text);
    if (rows.empty()) {
      problem(1, "the file is empty; its first line must name the columns");
      return std::move(out_);
    }
    read_header(rows.front());
    const bool is_known = out_.problems.empty();
    for (std::size_t i = 1; is_known && i < rows.size() && out_.problems.size() < most_problems;
         ++i)
      read_row(rows[i]);
    if (out_.problems.size() >= most_problems)
      out_.problems.push_back(printable(name_) + ": not read further");
    if (is_known && rows.size() == 1) problem(1, "the file holds no day after its header");
    return std::move(out_);
  }

 private:
  void problem(std::uint32_t line, const std::string& message) {
    out_.problems.push_back(printable(name_ + ":" + std::to_string(line) + ": " + message));
  }

  void read_header(const CsvRow& row) {
    if (row.cells.size() == 1 && row.cells.front().find(';') != std::string::npos) {
      problem(
          row.line,
          "the columns are parted by semicolons; save the file with commas between columns, and "
          "points in numbers");
      return;
    }
    for (const std::string& cell : row.cells) {
      if (out_.problems.size() >= most_problems) return;
      const Column* column = column_named(cell);
      if (column == nullptr && cell != date_column)
        problem(row.line, "unknown column '" + cell + "'; " + meant_column(cell) + "known are " +
                              known_columns());
      for (const std::string& earlier : header_)
        if (earlier == cell) problem(row.line, "column '" + cell + "' stands twice");
      header_.push_back(cell);
    }
    for (const std::string& cell : header_)
      if (cell == date_column) return;
    problem(row.line, "no column 'date'");
  }

  void read_row(const CsvRow& row) {
    if (row.cells.size() != header_.size()) {
      problem(row.line, "the row has " + std::to_string(row.cells.size()) + " cells, the header " +
                            std::to_string(header_.size()));
      return;
    }
    DailyWeather weather;
    std::optional<std::chrono::sys_days> date;
    for (std::size_t i = 0; i < header_.size(); ++i) {
      if (header_[i] == date_column)
        date = read_date(row.line, row.cells[i]);
      else
        read_value(row.line, *column_named(header_[i]), row.cells[i], weather);
    }
    if (weather.tmin_c && weather.tmax_c && *weather.tmin_c > *weather.tmax_c)
      problem(row.line, "tmin_c " + number_text(*weather.tmin_c) + " is over tmax_c " +
                            number_text(*weather.tmax_c));
    if (!date) return;
    if (!out_.days.emplace(*date, weather).second)
      problem(row.line, "date " + date_text(*date) + " stands twice");
  }

  std::optional<std::chrono::sys_days> read_date(std::uint32_t line, const std::string& cell) {
    const auto date = date_from(cell);
    if (!date) problem(line, "'" + cell + "' is not a date; write it as 2024-02-29");
    return date;
  }

  void read_value(std::uint32_t line, const Column& column, const std::string& cell,
                  DailyWeather& weather) {
    if (cell.empty()) return;
    const std::optional<double> value = number_from(cell);
    if (!value) {
      problem(line, std::string(column.name) + " '" + cell +
                        "' is not a number; leave the cell blank if it is missing");
    } else if (!column.range.holds(*value)) {
      problem(line, std::string(column.name) + " " + cell + " cannot be; it lies between " +
                        number_text(column.range.least) + " and " + number_text(column.range.most));
    } else {
      weather.*column.member = *value;
    }
  }

  std::string name_;
  std::vector<std::string> header_;
  WeatherFile out_;
};

}  // namespace

WeatherFile parse_weather_csv(const std::string& text, const std::string& name) {
  return Parser(name).parse(text);
}

WeatherFile read_weather_csv(const std::filesystem::path& file) {
  errno = 0;
  std::ifstream in(file, std::ios::binary);
  std::error_code ignored;
  if (!in || !std::filesystem::is_regular_file(file, ignored)) {
    const std::string why = errno == 0 ? "it is no file" : std::generic_category().message(errno);
    WeatherFile out;
    out.problems.push_back(file.string() + ":1: cannot be read: " + why);
    return out;
  }
  std::ostringstream text;
  text << in.rdbuf();
  return parse_weather_csv(text.str(), file.string());
}

}  // namespace gley::daemon
