#include "daemon/readings/weather_csv.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;
using Problems = std::vector<std::string>;

WeatherFile parsed(const std::string& text) {
  return parse_weather_csv(text, "w.csv");
}

/// The problem of a file with one, or what is wrong with that.
std::string only_problem(const std::string& text) {
  const WeatherFile file = parsed(text);
  return file.problems.size() == 1 ? file.problems.front()
                                   : std::to_string(file.problems.size()) + " problems";
}

const Catch::Matchers::StdString::StartsWithMatcher starts(const std::string& words) {
  return Catch::Matchers::StartsWith(words);
}

TEST_CASE("columns may stand in any order and a blank cell is a missing value") {
  const WeatherFile file =
      parsed("tmax_c,date,rain_mm,et0_mm\n12.5,2024-02-29,,1.25\n,2024-03-01,0,\n");
  CHECK(file.problems == Problems{});
  REQUIRE(file.days.size() == 2);
  const model::DailyWeather leap = file.days.at(2024y / 2 / 29);
  CHECK(leap.tmax_c == 12.5);
  CHECK_FALSE(leap.rain_mm);
  CHECK(leap.et0_mm == 1.25);
  const model::DailyWeather next = file.days.at(2024y / 3 / 1);
  CHECK(next.rain_mm == 0.0);
  CHECK_FALSE(next.et0_mm);
}

TEST_CASE("every column of the contract is known") {
  const WeatherFile file = parsed(
      "date,rain_mm,tmin_c,tmax_c,tmean_c,rh_min_pct,rh_max_pct,rh_mean_pct,dew_point_c,wind_m_s,"
      "sun_h,solar_mj_m2,et0_mm,irrigation_mm\n2024-01-01,1,2,3,2.5,60,90,75,1.5,4,5,6,0.7,8\n");
  CHECK(file.problems == Problems{});
  CHECK(file.days.at(2024y / 1 / 1) == model::DailyWeather{.rain_mm = 1.0,
                                                           .tmin_c = 2.0,
                                                           .tmax_c = 3.0,
                                                           .tmean_c = 2.5,
                                                           .rh_min_pct = 60.0,
                                                           .rh_max_pct = 90.0,
                                                           .rh_mean_pct = 75.0,
                                                           .dew_point_c = 1.5,
                                                           .wind_m_s = 4.0,
                                                           .sun_h = 5.0,
                                                           .solar_mj_m2 = 6.0,
                                                           .et0_mm = 0.7,
                                                           .irrigation_mm = 8.0});
}

TEST_CASE("quotes, a byte order mark, CRLF, blank lines and a last line without an end are read") {
  const WeatherFile file = parsed(
      "\xEF\xBB\xBF\"date\",\"rain_mm\"\r\n\"2024-01-01\",\"1.5\"\r\n\r\n2024-01-02 , 2.5 \r\n"
      "2024-01-03,\"\"");
  CHECK(file.problems == Problems{});
  REQUIRE(file.days.size() == 3);
  CHECK(file.days.at(2024y / 1 / 1).rain_mm == 1.5);
  CHECK(file.days.at(2024y / 1 / 2).rain_mm == 2.5);
  CHECK_FALSE(file.days.at(2024y / 1 / 3).rain_mm);
}

TEST_CASE("each mistake is named by file and line") {
  const std::string head = "date,rain_mm,tmin_c,tmax_c\n";
  CHECK_THAT(only_problem(""), starts("w.csv:1: the file is empty"));
  CHECK_THAT(only_problem(head), starts("w.csv:1: the file holds no day"));
  CHECK_THAT(only_problem("date,rain\n2024-01-01,1\n"), starts("w.csv:1: unknown column 'rain'"));
  CHECK_THAT(only_problem("date,rain_mm,rain_mm\n2024-01-01,1,1\n"),
             starts("w.csv:1: column 'rain_mm' stands twice"));
  CHECK_THAT(only_problem("rain_mm\n1\n"), starts("w.csv:1: no column 'date'"));
  CHECK_THAT(only_problem(head + "2024-01-01,1,2,3\n2024-01-01,1,2,3\n"),
             starts("w.csv:3: date 2024-01-01 stands twice"));
  CHECK_THAT(only_problem(head + "2023-02-29,1,2,3\n"), starts("w.csv:2: '2023-02-29'"));
  CHECK_THAT(only_problem(head + ",1,2,3\n"), starts("w.csv:2: ''"));
  CHECK_THAT(only_problem(head + "2024-01-01,1,2\n"), starts("w.csv:2: the row has 3 cells"));
  CHECK_THAT(only_problem(head + "2024-01-01,-0.1,2,3\n"), starts("w.csv:2: rain_mm -0.1"));
  CHECK_THAT(only_problem(head + "2024-01-01,1,3.5,3\n"),
             starts("w.csv:2: tmin_c 3.5 is over tmax_c 3"));
  CHECK_THAT(only_problem(head + "2024-01-01,1,2,900\n"), starts("w.csv:2: tmax_c 900"));
  for (const char* no_number : {"1,5", "\"1,5\"", "1 000", "0x10", "nan", "inf", "-", "1e999"}) {
    INFO(no_number);
    CHECK_THAT(only_problem(head + "2024-01-01," + no_number + ",2,3\n"), starts("w.csv:2: "));
  }
}

TEST_CASE("a quoted cell that spans lines does not shift the numbers of the lines after it") {
  const WeatherFile file = parsed("date,rain_mm\n2024-01-01,\"1\n\"\n2024-01-02,x\n");
  REQUIRE(file.problems.size() == 2);
  CHECK_THAT(file.problems[0], starts("w.csv:2: "));
  CHECK_THAT(file.problems[1], starts("w.csv:4: "));
}

TEST_CASE("a fault of every line is told of the first twenty") {
  std::string text = "date,rain_mm\n";
  for (int i = 0; i < 400; ++i) text += "24/10/2025,1\n";
  const WeatherFile file = parsed(text);
  REQUIRE(file.problems.size() == 21);
  CHECK_THAT(file.problems[19], starts("w.csv:21: '24/10/2025' is not a date"));
  CHECK(file.problems[20] == "w.csv: not read further");
}

TEST_CASE("a first line of unknown columns is not told to its end") {
  std::string text = "date";
  for (int i = 0; i < 1000; ++i) text += ",q" + std::to_string(i);
  const auto problems = parse_weather_csv(text + "\n", "w.csv").problems;
  REQUIRE(problems.size() == 21);
  CHECK(problems[20] == "w.csv: not read further");
}

TEST_CASE("columns parted by semicolons, or misspelt, are told apart from unknown ones") {
  CHECK_THAT(only_problem("date;rain_mm\n2024-01-01;1,5\n"),
             starts("w.csv:1: the columns are parted by semicolons; save the file with commas"));
  CHECK_THAT(only_problem("date,Rain\n2024-01-01,1\n"),
             starts("w.csv:1: unknown column 'Rain'; did you mean 'rain_mm'? known are date, "));
}

TEST_CASE("a weather file that is not there is named") {
  const WeatherFile file = read_weather_csv("/no/such/weather.csv");
  REQUIRE(file.problems.size() == 1);
  CHECK_THAT(file.problems.front(), starts("/no/such/weather.csv:1: cannot be read"));
}

TEST_CASE("a cell cannot command the terminal its problem is told on") {
  const WeatherFile file = parsed("date,\x1b[2J\n2024-01-01,\x07\n");
  REQUIRE_FALSE(file.problems.empty());
  for (const std::string& problem : file.problems)
    for (const char c : problem) CHECK(static_cast<unsigned char>(c) >= 0x20);
}

}  // namespace
}  // namespace gley::daemon
