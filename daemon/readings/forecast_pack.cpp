#include <nlohmann/json.hpp>

#include "daemon/readings/forecast_parts.hpp"
#include "daemon/readings/senml.hpp"

namespace gley::daemon {

namespace {

struct Stamped {
  Instant time{};
  double value = 0.0;
};

ForecastSeries& series_of(Forecast& forecast, const ForecastQuantity& of) {
  for (ForecastSeries& own : forecast.series)
    if (own.quantity == of.quantity) return own;
  forecast.series.push_back({of.quantity, of.form, {}, {{}}});
  return forecast.series.back();
}

tl::expected<Stamped, RejectedRecord> stamped(const SenmlRecord& record, const ForecastQuantity& of,
                                              Instant arrival) {
  if (!record.value)
    return no_forecast(Rejection::not_a_number, record.name + " has a record without a number");
  const auto time = senml_time(record, arrival);
  if (!record.time || !time)
    return no_forecast(Rejection::bad_time, record.name + " has a record without a time");
  const auto value = forecast_value(*record.value, record.unit, of);
  if (!value) return tl::make_unexpected(value.error());
  return Stamped{time->time, *value};
}

}  // namespace

DecodedForecast read_forecast_pack(const ForecastTerms& terms, const nlohmann::json& pack,
                                   Instant arrival) {
  const auto records = read_senml(pack);
  if (!records) return no_forecast(Rejection::malformed, records.error());
  Forecast forecast;
  for (const SenmlRecord& record : *records) {
    auto quantity = forecast_quantity(terms, record.local_name);
    if (!quantity) quantity = forecast_quantity(terms, record.name);
    if (!quantity) {
      if (forecast.unused.empty() || forecast.unused.back() != record.name)
        forecast.unused.push_back(record.name);
      continue;
    }
    const auto of = form_of(*quantity, record.name, record.unit);
    if (!of) return tl::make_unexpected(of.error());
    const auto own = stamped(record, *of, arrival);
    if (!own) return tl::make_unexpected(own.error());
    ForecastSeries& series = series_of(forecast, *of);
    if (series.form != of->form)
      return no_forecast(Rejection::wrong_unit, record.name + " is now an amount, now none");
    if (!series.times.empty() && own->time <= series.times.back())
      return no_forecast(Rejection::bad_time, record.name + ": times must rise, none twice");
    series.times.push_back(own->time);
    series.members.front().push_back(own->value);
  }
  return forecast;
}

}  // namespace gley::daemon
