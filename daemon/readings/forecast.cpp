#include "daemon/readings/forecast.hpp"

#include <exception>
#include <nlohmann/json.hpp>

#include "daemon/farm/unit.hpp"
#include "daemon/farm/word.hpp"
#include "daemon/readings/forecast_parts.hpp"
#include "daemon/readings/physical_range.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/json_depth.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

using nlohmann::json;

constexpr std::size_t longest_detail = 160;

/// A day, on the day it has 25 hours, and some slack. Our choice.
constexpr std::chrono::hours longest_step{26};

/// Each is worked on for each member and field. Two weeks in steps of ten minutes; our choice.
constexpr std::size_t most_times = 2016;

std::string jump_text(Instant from, Instant::duration step) {
  const auto hours = std::chrono::duration_cast<std::chrono::hours>(step).count();
  return " jumps " + std::to_string(hours) + " h from " +
         date_text(std::chrono::floor<std::chrono::days>(from)) + "; steps are a day at most";
}

/// Checks that hold for every form.
DecodedForecast checked(DecodedForecast forecast, Instant arrival) {
  if (!forecast) return forecast;
  const ForecastSeries* rain = forecast->find(Quantity::rain);
  if (rain == nullptr) {
    std::string found;
    for (const std::string& name : forecast->unused) found += " " + name;
    return no_forecast(Rejection::unmapped,
                       "no rain in it; name it under [forecast.parameters]" +
                           (found.empty() ? std::string() : "; not known are" + found));
  }
  for (const ForecastSeries& series : forecast->series) {
    const std::string name(to_word(series.quantity));
    if (series.times.size() < 2)
      return no_forecast(Rejection::malformed, name + " has less than two times");
    if (series.times.size() > most_times)
      return no_forecast(Rejection::too_large,
                         name + " has more than " + std::to_string(most_times) + " times");
    for (std::size_t t = 1; t < series.times.size(); ++t)
      if (const auto step = series.times[t] - series.times[t - 1]; step > longest_step)
        return no_forecast(Rejection::bad_time, name + jump_text(series.times[t - 1], step));
  }
  if (rain->times.back() <= arrival)
    return no_forecast(Rejection::too_old, "ends in the past; nothing of it is to come");
  return forecast;
}

DecodedForecast read(const ForecastTerms& terms, std::string_view payload, Instant arrival) {
  if (payload.size() > largest_forecast_bytes)
    return no_forecast(Rejection::too_large, std::to_string(payload.size()) + " bytes");
  if (nests_too_deep(payload))
    return no_forecast(Rejection::malformed, std::string(nests_too_deep_text));
  const json document = json::parse(payload, nullptr, false);
  if (document.is_discarded()) return no_forecast(Rejection::malformed, "not JSON");
  if (document.is_array()) return read_forecast_pack(terms, document, arrival);
  return read_coverage(terms, document);
}

}  // namespace

const ForecastSeries* Forecast::find(Quantity quantity) const {
  for (const ForecastSeries& own : series)
    if (own.quantity == quantity) return &own;
  return nullptr;
}

tl::unexpected<RejectedRecord> no_forecast(Rejection kind, const std::string& detail) {
  return tl::make_unexpected(RejectedRecord{
      .kind = kind, .station = {}, .detail = ascii_line("forecast: " + detail, longest_detail)});
}

std::optional<Quantity> forecast_quantity(const ForecastTerms& terms, const std::string& name) {
  const auto own = terms.names.find(name);
  const auto quantity = from_word<Quantity>(own == terms.names.end() ? name : own->second);
  return quantity == Quantity::irrigation ? std::nullopt : quantity;
}

tl::expected<ForecastQuantity, RejectedRecord> form_of(Quantity quantity, const std::string& name,
                                                       const std::string& unit) {
  for (const ReadingForm form : {ReadingForm::instant, ReadingForm::interval})
    if (known_unit(quantity, form, unit)) return ForecastQuantity{quantity, form};
  const ReadingForm usual = known_units(quantity, ReadingForm::instant).empty()
                                ? ReadingForm::interval
                                : ReadingForm::instant;
  return no_forecast(Rejection::wrong_unit,
                     (unit.empty() ? "no unit for " + name : "unit " + unit + " for " + name) +
                         "; known are " + known_units(quantity, usual));
}

tl::expected<double, RejectedRecord> forecast_value(double value, const std::string& unit,
                                                    const ForecastQuantity& of) {
  const auto converted = convert(value, unit, of.quantity, of.form);
  const bool possible = converted && physical_range(of.quantity, of.form).holds(*converted);
  if (!possible)
    return no_forecast(Rejection::out_of_range, std::string(to_word(of.quantity)) + " of " +
                                                    number_text(value) + " " + unit);
  return *converted;
}

DecodedForecast decode_forecast(const ForecastTerms& terms, std::string_view payload,
                                Instant arrival) try {
  DecodedForecast forecast = checked(read(terms, payload, arrival), arrival);
  if (forecast) forecast->wind_height_m = terms.wind_height_m;
  return forecast;
} catch (const std::exception& error) {
  return no_forecast(Rejection::malformed, error.what());
}

}  // namespace gley::daemon
