// Whether forecasts of one member, with others made of their own past errors, give chances that
// come true: on ten measured years at Dublin Airport and three invented forecasts of known kind.
// Copyright Met Eireann, CC BY 4.0.
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <functional>

#include "model/outlook/chance.hpp"
#include "model/outlook/forecast_score.hpp"
#include "model/outlook/members.hpp"
#include "tests/measured/series.hpp"

using namespace gley;
using namespace gley::measured;
using std::chrono::days;

namespace {

constexpr double rain_day_mm = 1.0;
constexpr days learnt_from{365};  // as the daemon looks back

using Rain = std::vector<double>;  // day after day without a gap

Rain ten_years() {
  const Table table(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019.csv");
  Rain rain;
  for (const Date date : table.dates()) rain.push_back(table.at("rain_mm", date).value());
  return rain;
}

/// What was said on day `issued` of a later day.
using Forecast = std::function<double(const Rain& rain, std::size_t issued, std::size_t lead)>;

/// Tomorrow as today.
double persistence(const Rain& rain, std::size_t issued, std::size_t) {
  return rain[issued];
}
/// The same day a year before: right about the season and nothing else.
double a_year_before(const Rain& rain, std::size_t issued, std::size_t lead) {
  return rain[issued + lead - 365];
}
/// What fell, mixed with what fell elsewhere in time: worse with every day ahead.
double with_skill(const Rain& rain, std::size_t issued, std::size_t lead) {
  const double blur = 0.2 + 0.1 * static_cast<double>(lead);
  const double truth = rain[issued + lead];
  const double noise = rain[(issued * 7 + lead * 1013) % issued];
  return (1.0 - blur) * truth + blur * noise;
}

/// Pairs known on the day of issue.
model::LeadErrors errors_until(const Rain& rain, const Forecast& forecast, std::size_t issued,
                               std::size_t lead) {
  model::LeadErrors errors;
  for (std::size_t day = issued - learnt_from.count(); day + lead < issued; ++day)
    errors.rain.push_back({forecast(rain, day, lead), rain[day + lead]});
  return errors;
}

struct Verified {
  std::vector<model::ChancePair> chances;
  double crps_mm = 0.0;
  double error_mm = 0.0;  ///< of the forecast as it was
};

std::vector<double> members(const model::RainSpread& spread) {
  std::vector<double> out;
  for (std::size_t m = 0; m < model::made_members; ++m)
    out.push_back(spread.quantile_mm((static_cast<double>(m) + 0.5) / model::made_members));
  return out;
}

Verified verify(const Rain& rain, const Forecast& forecast, std::size_t lead, bool learnt) {
  Verified out;
  const std::size_t first = 2 * 365 + 10;
  const auto count = static_cast<double>(rain.size() - lead - first);
  for (std::size_t issued = first; issued + lead < rain.size(); ++issued) {
    const double said_mm = forecast(rain, issued, lead);
    const double fell_mm = rain[issued + lead];
    const model::LeadErrors errors =
        learnt ? errors_until(rain, forecast, issued, lead) : model::LeadErrors{};
    const std::vector<double> made = members(model::RainSpread(said_mm, lead, errors));
    std::size_t wet = 0;
    for (const double member : made) wet += member >= rain_day_mm ? 1 : 0;
    out.chances.push_back(
        {model::chance_of({.happened = wet, .members = made.size()}), fell_mm >= rain_day_mm});
    out.crps_mm += model::crps(made, fell_mm) / count;
    out.error_mm += std::abs(said_mm - fell_mm) / count;
  }
  return out;
}

/// Days on which about the same chance was given.
struct Bin {
  double chance = 0.0;
  double happened = 0.0;
  double days = 0.0;
};

std::vector<Bin> tenths(const std::vector<model::ChancePair>& pairs) {
  std::vector<Bin> bins(10);
  for (const model::ChancePair& pair : pairs) {
    Bin& bin = bins[std::min<std::size_t>(9, static_cast<std::size_t>(pair.chance * 10.0))];
    bin.chance += pair.chance;
    bin.happened += pair.happened ? 1.0 : 0.0;
    bin.days += 1.0;
  }
  for (Bin& bin : bins)
    if (bin.days > 0.0) {
      bin.chance /= bin.days;
      bin.happened /= bin.days;
    }
  return bins;
}

struct Named {
  const char* name;
  Forecast forecast;
};
const Named forecasts[] = {
    {"as today", persistence}, {"a year before", a_year_before}, {"with skill", with_skill}};

/// Three standard deviations of the days counted, and one member, the step in which chances go.
double sampling_error(const Bin& bin) {
  const double of_days = std::sqrt(bin.chance * (1.0 - bin.chance) / bin.days);
  return 3.0 * of_days + 1.0 / (model::made_members + 2.0);
}

void print(const char* forecast, std::size_t lead, const Verified& own) {
  const model::BrierScore score = model::brier_score(own.chances);
  std::printf(
      "rain %s, %zu days ahead: Brier %.3f = %.4f - %.4f + %.4f, skill %.2f; CRPS %.2f mm,"
      " of the one %.2f mm\n",
      forecast, lead, score.score, score.reliability, score.resolution, score.uncertainty,
      score.skill.value_or(0.0), own.crps_mm, own.error_mm);
}

/// The largest gap between what was said and what came, over what sampling explains.
double worst_gap(const Verified& own) {
  double worst = 0.0;
  for (const Bin& bin : tenths(own.chances))
    if (bin.days >= 100.0)
      worst = std::max(worst, std::abs(bin.happened - bin.chance) / sampling_error(bin));
  return worst;
}

}  // namespace

TEST_CASE("chances of made members come true within sampling error, Dublin 2012 to 2019") {
  const Rain rain = ten_years();
  for (const Named& named : forecasts)
    for (const std::size_t lead : {1u, 2u, 3u}) {
      const Verified own = verify(rain, named.forecast, lead, true);
      print(named.name, lead, own);
      INFO(named.name << ", " << lead << " days ahead");
      CHECK(worst_gap(own) <= 1.0);
      CHECK(own.crps_mm < own.error_mm);
      // A forecast that knows nothing does no harm.
      CHECK(model::brier_score(own.chances).skill.value_or(-1.0) > -0.03);
    }
}

TEST_CASE("a forecast that knows much is still told boldly, Dublin 2012 to 2019") {
  const Rain rain = ten_years();
  CHECK(*model::brier_score(verify(rain, with_skill, 1, true).chances).skill > 0.75);
  CHECK(*model::brier_score(verify(rain, with_skill, 3, true).chances).skill > 0.35);
}

TEST_CASE("the stated spread would mislead where the forecast knows little") {
  const Rain rain = ten_years();
  CHECK(worst_gap(verify(rain, persistence, 1, false)) > 1.0);
}
