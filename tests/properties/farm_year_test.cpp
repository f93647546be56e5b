// Three farm years of one field under the measured weather of Dublin Airport
// (tests/data/met-eireann, copyright Met Eireann, CC BY 4.0), from its configuration through the
// daemon's own book of fields.
#include <catch2/catch.hpp>
#include <cmath>

#include "daemon/engine/fields/field_book.hpp"
#include "daemon/farm/field_setup.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "tests/properties/field_bounds.hpp"
#include "tests/unit/farm/field_text.hpp"

using namespace gley;
using namespace std::chrono;

namespace {

using Days = std::map<sys_days, model::FieldDay>;

const daemon::WeatherByDay& dublin() {
  static const daemon::WeatherFile file =
      daemon::read_weather_csv(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019.csv");
  REQUIRE(file.problems.empty());
  return file.days;
}

daemon::FarmConfig farm_with(const std::string& field_lines) {
  daemon::FarmConfig farm = test::farm_of(
      test::with(test::sowings(field_lines), "latitude = 53.9\nlongitude = -1.3\nelevation_m = 57",
                 "latitude = 53.428\nlongitude = -6.241\nelevation_m = 71"));
  farm.stations.front().wind_height_m = 10.0;
  return farm;
}

/// The field's days from 2015 on; `warmer_by` is added to both extremes of every day.
Days run(const daemon::FarmConfig& farm, sys_days to, double warmer_by = 0.0) {
  daemon::FieldBook book(farm);
  const sys_days from{2015y / January / 1};
  for (const auto& [date, weather] : dublin()) {
    if (date < from || date > to) continue;
    model::DailyWeather day = weather;
    if (day.tmin_c) *day.tmin_c += warmer_by;
    if (day.tmax_c) *day.tmax_c += warmer_by;
    book.put("yard", date, {.weather = day, .flags = {}, .complete = true, .loaded = true});
  }
  book.close(to);
  Days days;
  book.history(0).each(book.weather(0).days(), {from, to},
                       [&](const model::FieldDay& day) { days[day.date] = day; });
  return days;
}

/// Wheat from the autumn before, stubble, a cover crop, barley, then grass that is cut.
const std::string rotation = R"(drainage = "moderate"
[[field.crop]]
crop = "winter wheat"
sown = 2015-10-05
harvested = 2016-08-14
[[field.crop]]
crop = "cover crop"
sown = 2016-09-05
harvested = 2017-03-01
[[field.crop]]
crop = "spring barley"
sown = 2017-03-25
harvested = 2017-08-12
[[field.crop]]
crop = "ryegrass"
sown = 2017-09-01
cuts = [2018-05-25, 2018-07-10]
)";

double deficit_mm(const model::FieldDay& day, int layer) {
  return std::max(0.0, -day.evening.water.excess_mm[static_cast<std::size_t>(layer)]);
}

double deficit_mm(const model::FieldDay& day) {
  double sum = 0.0;
  for (int layer = 0; layer < model::max_layers; ++layer) sum += deficit_mm(day, layer);
  return sum;
}

double et_mm(const model::FieldDay& day) {
  return day.fluxes.evaporation_mm + day.fluxes.transpiration_mm;
}

}  // namespace

TEST_CASE("three farm years pass without a hand, and their water closes every day") {
  const daemon::FarmConfig farm = farm_with(rotation);
  const model::Field field = daemon::field_of(farm.fields.front());
  const Days days = run(farm, 2018y / December / 31);
  const auto name_on = [&](sys_days date) { return field.crops.on(date).course.name; };
  CHECK(name_on(2016y / August / 13) == "winter wheat");
  CHECK(name_on(2016y / August / 14) == "stubble");
  CHECK(name_on(2016y / September / 5) == "cover crop");
  CHECK(name_on(2017y / March / 1) == "stubble");
  CHECK(name_on(2017y / March / 25) == "spring barley");
  CHECK(name_on(2017y / August / 12) == "stubble");
  CHECK(name_on(2018y / December / 31) == "ryegrass");
  const model::FieldState* before = nullptr;
  for (const auto& [date, day] : days) {
    if (before != nullptr) {
      INFO(date.time_since_epoch().count());
      REQUIRE(std::abs(model::unaccounted_mm(field.parameters, *before, day)) < 1e-9);
    }
    before = &day.evening;
  }
}

TEST_CASE("the deficit that wheat leaves deep is there at the next sowing, and holds the drains") {
  const Days days = run(farm_with(rotation), 2018y / December / 31);
  const sys_days harvest{2016y / August / 14};
  const sys_days sowing{2016y / September / 5};
  const model::FieldDay& last_of_wheat = days.at(harvest - std::chrono::days{1});
  const model::FieldDay& first_of_cover = days.at(sowing);
  CHECK(first_of_cover.stand.root_depth_mm < 500.0);
  for (const int layer : {3, 4}) {  // 500 to 1000 mm, under the new roots
    INFO("layer " << layer);
    CHECK(deficit_mm(last_of_wheat, layer) > 5.0);
    CHECK(deficit_mm(first_of_cover, layer) > 0.8 * deficit_mm(last_of_wheat, layer));
  }
  // What the new crop's own roots find is far less than the soil is short of.
  CHECK(first_of_cover.depletion_mm < deficit_mm(first_of_cover));
}

TEST_CASE("drains do not run before the soil has had back what the wheat took") {
  const Days days = run(farm_with(rotation), 2018y / December / 31);
  const auto drains_from = [](const Days& of, sys_days from) {
    auto day = of.find(from);
    while (day->second.fluxes.drainage_mm == 0.0) ++day;
    return day->first;
  };
  const sys_days harvest{2016y / August / 14};
  const sys_days first = drains_from(days, harvest);
  const model::FieldDay& eve = days.at(first - std::chrono::days{1});
  CHECK(deficit_mm(days.at(harvest)) > 100.0);
  // On the first day of drainage its own rain makes good what is still missing.
  CHECK(deficit_mm(eve) < days.at(first).rain_mm);
  // The winter of 2016 to 2017 was dry at Dublin: bare ground drains in it, the field does not.
  const Days bare = run(farm_with("drainage = \"moderate\"\ncrop = \"bare soil\"\n"), first);
  CHECK(drains_from(bare, harvest) < sys_days{2016y / December / 1});
  CHECK(first > sys_days{2017y / November / 1});
}

TEST_CASE("a cut takes a sward's evapotranspiration down, until it has come back") {
  const std::string uncut =
      test::with(rotation, "cuts = [2018-05-25, 2018-07-10]\n", "kcb_mid = 1.05\n");
  const Days cut = run(farm_with(rotation), 2018y / December / 31);
  const Days grown = run(farm_with(uncut), 2018y / December / 31);
  const auto transpired_mm = [](const Days& days, sys_days from, int count) {
    double sum = 0.0;
    for (int i = 0; i < count; ++i)
      sum += days.at(from + std::chrono::days{i}).fluxes.transpiration_mm;
    return sum;
  };
  const sys_days first{2018y / May / 25};
  CHECK(transpired_mm(cut, first - std::chrono::days{10}, 10) ==
        transpired_mm(grown, first - std::chrono::days{10}, 10));
  CHECK(transpired_mm(cut, first, 10) < 0.7 * transpired_mm(grown, first, 10));
  double et_cut = 0.0;
  double et_grown = 0.0;
  for (int i = 0; i < 10; ++i) {
    et_cut += et_mm(cut.at(first + std::chrono::days{i}));
    et_grown += et_mm(grown.at(first + std::chrono::days{i}));
  }
  CHECK(et_cut < et_grown);
  CHECK(cut.at(first + std::chrono::days{31}).stand.kcb ==
        grown.at(first + std::chrono::days{31}).stand.kcb);
  CHECK(cut.at(2018y / July / 10).stand.cover < cut.at(2018y / July / 9).stand.cover);
}

TEST_CASE("a season by warmth is shorter in a warmer year") {
  const std::string barley = R"([[field.crop]]
crop = "spring barley"
sown = 2016-04-01
harvested = 2016-08-30
stages_day_degrees = { base_c = 0, ini = 200, dev = 350, mid = 800, late = 450 }
)";
  const daemon::FarmConfig farm = farm_with(barley);
  const sys_days to{2016y / September / 30};
  const sys_days sown{2016y / April / 1};
  const Days measured = run(farm, to);
  const Days warmer = run(farm, to, 2.0);
  const auto roots_grown = [&](const Days& days) {
    for (auto day = days.find(sown); day != days.end(); ++day)
      if (day->second.stand.root_depth_mm >= 1000.0) return day->first;
    return to;
  };
  const auto ripe = [&](const Days& days) {
    for (auto day = days.find(sys_days{2016y / June / 1}); day != days.end(); ++day)
      if (day->second.stand.kcb <= 0.15) return day->first;
    return to;
  };
  // 550 and 1800 degree-days; counted here from the record itself.
  double warmth = 0.0;
  sys_days full = sown;
  for (auto day = dublin().find(sown); warmth < 550.0; ++day) {
    full = day->first;
    warmth += std::max(0.0, 0.5 * (*day->second.tmin_c + *day->second.tmax_c));
  }
  CHECK(roots_grown(measured) == full);
  CHECK(roots_grown(warmer) < full - std::chrono::days{5});
  CHECK(ripe(warmer) < ripe(measured) - std::chrono::days{10});
  CHECK(measured.at(sown).evening.heat.sown == sown);
  CHECK_FALSE(measured.at(to).evening.heat.sown.has_value());
}

TEST_CASE("a warm day learnt late moves a season by warmth as if it had been known") {
  const daemon::FarmConfig farm = farm_with(R"([[field.crop]]
crop = "spring barley"
sown = 2016-04-01
harvested = 2016-08-30
stages_day_degrees = { base_c = 5, ini = 100, dev = 200, mid = 500, late = 250 }
)");
  const sys_days from{2016y / March / 1};
  const sys_days to{2016y / July / 31};
  const sys_days warm{2016y / April / 20};
  const auto record = [&](sys_days date) {
    daemon::DayRecord day{
        .weather = dublin().at(date), .flags = {}, .complete = true, .loaded = true};
    if (date == warm) *day.weather.tmax_c += 12.0;
    return day;
  };
  daemon::FieldBook late(farm);
  daemon::FieldBook known(farm);
  for (sys_days date = from; date <= to; date += std::chrono::days{1}) {
    known.put("yard", date, record(date));
    if (date == warm)
      late.put("yard", date,
               {.weather = dublin().at(date), .flags = {}, .complete = true, .loaded = true});
    else
      late.put("yard", date, record(date));
  }
  late.close(to);
  known.close(to);
  CHECK(late.history(0).last()->evening != known.history(0).last()->evening);
  late.put("yard", warm, record(warm));
  late.close(to);
  CHECK(late.history(0).last()->evening == known.history(0).last()->evening);
  CHECK(late.days_csv(0, {from, to}) == known.days_csv(0, {from, to}));
}

TEST_CASE("drip lines under a crop wet less of the ground that is open (FAO-56 p. 149)") {
  model::Field field = daemon::field_of(test::field_of(test::keys("irrigation = \"drip\"")));
  model::StationDay day;
  day.weather.rain_mm = 0.0;
  day.weather.irrigation_mm = 8.0;
  day.et.et0_mm = 4.0;
  model::FieldState state;
  // Cover 0.95: 0.35 (1 - 2/3 of 0.95).
  CHECK(model::step_field(field, day, state).forcing.irrigation_wetted_fraction ==
        Approx(0.35 * (1.0 - 2.0 / 3.0 * 0.95)));
}

TEST_CASE("a season by warmth that is met in its middle stands where it usually does") {
  const std::string wheat = R"([[field.crop]]
crop = "winter wheat"
sown = 2014-10-01
harvested = 2015-08-20
stages_day_degrees = { base_c = 0, ini = 900, dev = 550, mid = 900, late = 400 }
)";
  const Days days = run(farm_with(wheat), 2015y / January / 31);
  // The table's 160 of 335 days are 154 of these 323; 1 January is the 93rd: 92 days' share of 900.
  const double usual = 900.0 * 92.0 / 154.0;
  const auto& weather = dublin().at(2015y / January / 1);
  const double first = 0.5 * (*weather.tmin_c + *weather.tmax_c);
  CHECK(days.at(2015y / January / 1).evening.heat.day_degrees_c_d == Approx(usual + first));
}
