// Quality checks of whole days on sound records of the Irish national service, 1979 to 2025
// (Copyright Met Eireann, CC BY 4.0: see tests/data/README.md), and on a gauge blocked on purpose.
// The stations stand 70 to 280 km apart, far more than the checks compare over: a harder test.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdio>

#include "daemon/readings/station_judge.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "tests/measured/series.hpp"

using namespace gley;
using namespace gley::daemon;
using gley::measured::Date;
using gley::measured::shared_file;
using gley::measured::Table;

namespace {

struct Station {
  const char* name;
  double elevation_m;
};
constexpr Station all_stations[] = {{"shannon-airport", 15.0},
                                    {"dublin-airport", 71.0},
                                    {"valentia", 24.0},
                                    {"johnstown", 62.0},
                                    {"moore-park", 46.0}};

StationRecord record_of(const Table& table) {
  StationRecord record;
  for (const Date date : table.dates()) {
    DayRecord& day = record[date];
    day.weather.rain_mm = table.at("rain_mm", date);
    day.weather.tmin_c = table.at("tmin_c", date);
    day.weather.tmax_c = table.at("tmax_c", date);
  }
  return record;
}

RainForeseen rain_of(const StationRecord& record) {
  RainForeseen rain;
  for (const auto& [date, day] : record)
    if (day.weather.rain_mm) rain[date] = *day.weather.rain_mm;
  return rain;
}

/// Stations as if they stood side by side.
struct Together {
  std::vector<StationRecord> records;
  std::vector<JudgedStation> stations;

  explicit Together(const std::vector<Station>& chosen) : records(chosen.size()) {
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      const auto file = shared_file(std::string("met-eireann/") + chosen[i].name + ".csv");
      if (!file) return;
      records[i] = record_of(Table(*file));
      stations.push_back({chosen[i].name, {}, chosen[i].elevation_m, &records[i]});
    }
  }
  /// One of them alone; another's rain stands for a forecast.
  [[nodiscard]] StationJudge judged_by_forecast(std::size_t gauge, std::size_t forecast) const {
    StationJudge judge({stations[gauge]});
    judge.foresee(rain_of(records[forecast]));
    judge.changed(Date{});
    (void)judge.judge();
    return judge;
  }
  [[nodiscard]] StationJudge judged() const {
    StationJudge judge(stations);
    judge.changed(Date{});
    (void)judge.judge();
    return judge;
  }
};

constexpr int longest_block = 60;  ///< days

struct Count {
  std::size_t days = 0;
  std::map<DoubtKind, int> doubted;
};

Count count(const Together& together) {
  Count out;
  const StationJudge judge = together.judged();
  for (const JudgedStation& station : together.stations) {
    out.days += station.record->size();
    for (const auto& [date, doubts] : judge.doubts(station.id))
      for (const Doubt& doubt : doubts) ++out.doubted[doubt.kind];
  }
  return out;
}

void print(const char* what, const Count& counted) {
  std::printf("%s: %zu days;", what, counted.days);
  for (const auto& [kind, days] : counted.doubted)
    std::printf(" %s %d;", std::string(to_word(kind)).c_str(), days);
  std::printf("\n");
}

}  // namespace

TEST_CASE("Quality checks doubt next to no day of five sound stations (Met Eireann, 1979-2025)") {
  const Together five({std::begin(all_stations), std::end(all_stations)});
  if (five.stations.empty()) return;
  Count counted = count(five);
  print("five stations together", counted);
  CHECK(counted.days > 60000);
  CHECK(counted.doubted[DoubtKind::out_of_season] == 0);
  CHECK(counted.doubted[DoubtKind::apart] == 0);
  // Dublin lies in the lee of the others: dry weeks of its own under their median.
  CHECK(counted.doubted[DoubtKind::blocked] * 400 < static_cast<int>(counted.days));
}

TEST_CASE("A neighbour 73 km off makes no sound day of a gauge look blocked (Met Eireann)") {
  const Together two({all_stations[0], all_stations[4]});
  if (two.stations.empty()) return;
  Count counted = count(two);
  print("Shannon and Moore Park", counted);
  CHECK(counted.doubted[DoubtKind::blocked] == 0);
}

/// How long it takes to find a gauge that stays dry from one of many days on.
struct Search {
  std::size_t tried = 0;
  std::vector<int> days;  ///< of those found within `longest_block`, in order

  [[nodiscard]] int days_of(std::size_t tenths) const { return days[days.size() * tenths / 10]; }
};

/// judge_from: gives, for a first dry day, the judgement of Moore Park on each of the days after
/// it.
template <class JudgeFrom>
Search search(JudgeFrom judge_from) {
  Search out;
  for (Date start = std::chrono::year(2011) / 1 / 5; start < Date(std::chrono::year(2025) / 1 / 1);
       start += std::chrono::days{37}) {
    ++out.tried;
    auto is_doubted_on = judge_from(start);
    for (int day = 0; day < longest_block; ++day) {
      if (!is_doubted_on(start + std::chrono::days{day})) continue;
      out.days.push_back(day + 1);
      break;
    }
  }
  std::sort(out.days.begin(), out.days.end());
  return out;
}

TEST_CASE("A blocked gauge is found within weeks by a neighbour 73 km off (Met Eireann)") {
  Together two({all_stations[0], all_stations[4]});
  if (two.stations.empty()) return;
  const std::vector<StationRecord> sound = two.records;
  const Search found = search([&](Date) {
    for (StationRecord& record : two.records) record.clear();
    return [&, judge = StationJudge(two.stations)](Date date) mutable {
      two.records[0][date] = sound[0].at(date);
      two.records[1][date].weather.rain_mm = 0.0;
      judge.changed(date);
      (void)judge.judge();
      return !judge.doubts("moore-park").empty();
    };
  });
  REQUIRE(found.days.size() > 100);
  std::printf(
      "blocked gauge: found %zu of %zu within 60 days; half within %d days, 9 of 10 in %d\n",
      found.days.size(), found.tried, found.days_of(5), found.days_of(9));
  CHECK(found.days.size() * 20 >= found.tried * 19);
  CHECK(found.days_of(5) <= 14);
}

// Rain 73 km off is a poorer forecast than any service's: if it speaks against no sound gauge, no
// forecast will.
TEST_CASE("Rain 73 km off, taken for a forecast, speaks against no sound gauge (Met Eireann)") {
  const Together two({all_stations[0], all_stations[4]});
  if (two.stations.empty()) return;
  for (const auto& [gauge, forecast] : {std::pair{0U, 1U}, std::pair{1U, 0U}}) {
    const StationJudge judge = two.judged_by_forecast(gauge, forecast);
    int blocked = 0;
    for (const auto& [date, doubts] : judge.doubts(two.stations[gauge].id))
      blocked +=
          static_cast<int>(std::count_if(doubts.begin(), doubts.end(), [](const Doubt& doubt) {
            return doubt.kind == DoubtKind::blocked;
          }));
    std::printf("%s by rain at %s: %d of %zu days look blocked\n", two.stations[gauge].id.c_str(),
                two.stations[forecast].id.c_str(), blocked, two.records[gauge].size());
    CHECK(blocked == 0);
  }
}

TEST_CASE("A lone blocked gauge is found within weeks by rain 73 km off as the forecast") {
  const Together two({all_stations[0], all_stations[4]});
  if (two.stations.empty()) return;
  const RainForeseen rain = rain_of(two.records[0]);
  StationRecord dry;
  const Search found = search([&](Date start) {
    dry.clear();
    StationJudge alone({{"moore-park", {}, 46.0, &dry}});
    return [&, start, judge = std::move(alone)](Date date) mutable {
      dry[date].weather.rain_mm = 0.0;
      judge.foresee({rain.lower_bound(start), rain.upper_bound(date)});
      judge.changed(date);
      (void)judge.judge();
      return !judge.doubts("moore-park").empty();
    };
  });
  REQUIRE(found.days.size() > 100);
  std::printf("by forecast: found %zu of %zu within 60 days; half within %d days\n",
              found.days.size(), found.tried, found.days_of(5));
  CHECK(found.days.size() * 10 >= found.tried * 9);
  CHECK(found.days_of(5) <= 21);
}
