#include "daemon/readings/weather_csv.hpp"

#include <array>
#include <cerrno>
#include <fstream>
#include <optional>
#include <sstream>
#include <system_error>

#include "daemon/text/csv_rows.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/nearest_name.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;

/// A column and what a value in it can be: limits of the physically possible, our choice.
struct Column {
  std::string_view name;
  std::optional<double> DailyWeather::*member;
  double least;
  double most;
};

constexpr std::array columns{
    Column{"rain_mm", &DailyWeather::rain_mm, 0.0, 2000.0},
    Column{"tmin_c", &DailyWeather::tmin_c, -80.0, 60.0},
    Column{"tmax_c", &DailyWeather::tmax_c, -80.0, 60.0},
    Column{"tmean_c", &DailyWeather::tmean_c, -80.0, 60.0},
    Column{"rh_min_pct", &DailyWeather::rh_min_pct, 0.0, 105.0},
    Column{"rh_max_pct", &DailyWeather::rh_max_pct, 0.0, 105.0},
    Column{"rh_mean_pct", &DailyWeather::rh_mean_pct, 0.0, 105.0},
    Column{"dew_point_c", &DailyWeather::dew_point_c, -80.0, 60.0},
    Column{"wind_m_s", &DailyWeather::wind_m_s, 0.0, 100.0},
    Column{"sun_h", &DailyWeather::sun_h, 0.0, 24.0},
    Column{"solar_mj_m2", &DailyWeather::solar_mj_m2, 0.0, 60.0},
    Column{"et0_mm", &DailyWeather::et0_mm, 0.0, 30.0},
    Column{"irrigation_mm", &DailyWeather::irrigation_mm, 0.0, 1000.0},
};

constexpr std::string_view date_column = "date";

const Column* column_named(std::string_view name) {
  for (const Column& column : columns)
    if (column.name == name) return &column;
  return nullptr;
}

std::string known_columns() {
  std::string names(date_column);
  for (const Column& column : columns) names += ", " + std::string(column.name);
  return names;
}

std::string meant_column(const std::string& name) {
  std::vector<std::string> names{std::string(date_column)};
  for (const Column& column : columns) names.emplace_back(column.name);
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
    if (!out_.problems.empty()) return std::move(out_);
    for (std::size_t i = 1; i < rows.size() && out_.problems.size() < most_problems; ++i)
      read_row(rows[i]);
    if (out_.problems.size() >= most_problems)
      out_.problems.push_back(printable(name_) + ": not read further");
    if (rows.size() == 1) problem(1, "the file holds no day after its header");
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
    } else if (*value < column.least || *value > column.most) {
      problem(line, std::string(column.name) + " " + cell + " cannot be; it lies between " +
                        number_text(column.least) + " and " + number_text(column.most));
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
