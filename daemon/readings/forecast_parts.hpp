#pragma once
#include <nlohmann/json_fwd.hpp>

#include "daemon/readings/forecast.hpp"

/// What the two forms of a forecast have in common.
namespace gley::daemon {

/// A quantity and how it comes, from the name and the unit that the forecast gives it.
struct ForecastQuantity {
  Quantity quantity = Quantity::rain;
  ReadingForm form = ReadingForm::interval;
};

[[nodiscard]] tl::unexpected<RejectedRecord> no_forecast(Rejection kind, const std::string& detail);

/// The quantity a name stands for, as the configuration says, else by our own names.
[[nodiscard]] std::optional<Quantity> forecast_quantity(const ForecastTerms& terms,
                                                        const std::string& name);

/// Rain and sunshine are amounts; radiation is one if its unit says so.
[[nodiscard]] tl::expected<ForecastQuantity, RejectedRecord> form_of(Quantity quantity,
                                                                     const std::string& name,
                                                                     const std::string& unit);

/// A value in the model's unit, within what is physically possible.
[[nodiscard]] tl::expected<double, RejectedRecord> forecast_value(double value,
                                                                  const std::string& unit,
                                                                  const ForecastQuantity& of);

[[nodiscard]] DecodedForecast read_coverage(const ForecastTerms& terms,
                                            const nlohmann::json& coverage);
[[nodiscard]] DecodedForecast read_forecast_pack(const ForecastTerms& terms,
                                                 const nlohmann::json& pack, Instant arrival);

}  // namespace gley::daemon
