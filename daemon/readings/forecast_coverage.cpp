#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "daemon/farm/land_measure.hpp"
#include "daemon/readings/forecast_parts.hpp"
#include "daemon/readings/rfc3339.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

std::string misfit_text(const std::string& range, const std::string& axis) {
  std::string text = "range ";
  text.append(range).append(": its shape does not fit the axis '").append(axis).append("'");
  return text;
}

using nlohmann::json;
using Problem = std::optional<RejectedRecord>;

constexpr std::size_t most_members = 200;

Problem problem(Rejection kind, const std::string& detail) {
  return no_forecast(kind, detail).value();
}

const json* member_of(const json& object, const char* name) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(name);
  return found == object.end() ? nullptr : &*found;
}

std::string text_of(const json* value) {
  return value != nullptr && value->is_string() ? value->get<std::string>() : std::string();
}

/// Values on an axis: listed, or start, stop and num (section 9.4 of the standard). 0: none.
std::size_t axis_size(const json& axis) {
  const json* values = member_of(axis, "values");
  if (values != nullptr) return values->is_array() ? values->size() : 0;
  const json* count = member_of(axis, "num");
  return count != nullptr && count->is_number_unsigned() ? count->get<std::size_t>() : 0;
}

std::optional<double> single_number(const json& axis) {
  const json* values = member_of(axis, "values");
  const json* value = values != nullptr && values->is_array() && values->size() == 1
                          ? &values->front()
                          : member_of(axis, "start");
  if (value == nullptr || !value->is_number()) return {};
  return value->get<double>();
}

/// Reads one Coverage, and keeps the first thing that is wrong.
class Coverage {
 public:
  explicit Coverage(const ForecastTerms& terms) : terms_(terms) {}

  DecodedForecast read(const json& coverage) {
    Problem wrong = read_domain(coverage);
    if (!wrong) wrong = read_ranges(coverage);
    if (wrong) return tl::make_unexpected(*wrong);
    return std::move(forecast_);
  }

 private:
  Problem read_domain(const json& coverage) {
    if (text_of(member_of(coverage, "type")) != "Coverage")
      return problem(Rejection::malformed, "a CoverageJSON object of type Coverage is needed");
    const json* domain = member_of(coverage, "domain");
    if (domain == nullptr || !domain->is_object())
      return problem(Rejection::malformed, "its domain must stand in it");
    std::string type = text_of(member_of(*domain, "domainType"));
    if (type.empty()) type = text_of(member_of(coverage, "domainType"));
    if (!type.empty() && type != "PointSeries")
      return problem(Rejection::malformed, "its domain is a " + type + ", not a PointSeries");
    const json* axes = member_of(*domain, "axes");
    if (axes == nullptr || !axes->is_object())
      return problem(Rejection::malformed, "its domain has no axes");
    if (Problem wrong = read_axes(*axes)) return wrong;
    return check_place(*axes);
  }

  Problem read_axes(const json& axes) {
    for (const auto& [name, axis] : axes.items()) {
      const std::size_t size = axis_size(axis);
      if (size == 0) return problem(Rejection::malformed, "axis " + name + " has no values");
      if (name != "t" && name != "member" && size > 1)
        return problem(Rejection::malformed,
                       "axis " + name + " has " + std::to_string(size) + " values, not one");
      sizes_[name] = size;
    }
    if (sizes_["member"] > most_members)
      return problem(Rejection::too_large,
                     "more than " + std::to_string(most_members) + " members");
    const json* times = axes.contains("t") ? member_of(axes["t"], "values") : nullptr;
    if (times == nullptr) return problem(Rejection::malformed, "its axis t has no values");
    return read_times(*times);
  }

  Problem read_times(const json& times) {
    for (const json& stamp : times) {
      const std::string text = text_of(&stamp);
      const std::optional<Instant> time = time_of(text);
      if (!time) return problem(Rejection::bad_time, "time '" + text + "' in axis t");
      if (!times_.empty() && *time <= times_.back())
        return problem(Rejection::bad_time, "time " + text + ": times must rise, none twice");
      times_.push_back(*time);
    }
    return {};
  }

  /// A date alone stands for all of the farm's day: what is told of it belongs to that day.
  [[nodiscard]] std::optional<Instant> time_of(const std::string& text) const {
    if (const auto time = parse_rfc3339(text)) return time;
    const auto date = date_from(text);
    if (!date) return {};
    return terms_.calendar.ends(*date) - std::chrono::milliseconds{1};
  }

  [[nodiscard]] Problem check_place(const json& axes) const {
    if (!axes.contains("x") || !axes.contains("y")) return {};
    const auto longitude = single_number(axes["x"]);
    const auto latitude = single_number(axes["y"]);
    const bool degrees =
        longitude && latitude && std::abs(*latitude) <= 90.0 && std::abs(*longitude) <= 360.0;
    if (!degrees)
      return problem(Rejection::out_of_range, "x and y must be longitude and latitude in degrees");
    const double off_km = distance_km({.longitude = terms_.longitude, .latitude = terms_.latitude},
                                      {.longitude = *longitude, .latitude = *latitude});
    if (off_km <= farthest_forecast_km) return {};
    return problem(Rejection::out_of_range, "for a place " + std::to_string(std::lround(off_km)) +
                                                " km from the farm, " +
                                                number_text(farthest_forecast_km) + " km at most");
  }

  Problem read_ranges(const json& coverage) {
    const json* ranges = member_of(coverage, "ranges");
    const json* parameters = member_of(coverage, "parameters");
    if (ranges == nullptr || !ranges->is_object() || parameters == nullptr)
      return problem(Rejection::malformed, "it has no ranges or no parameters");
    for (const auto& [name, range] : ranges->items()) {
      const auto quantity = forecast_quantity(terms_, name);
      if (!quantity) {
        forecast_.unused.push_back(name);
        continue;
      }
      if (forecast_.find(*quantity) != nullptr)
        return problem(Rejection::malformed, "two parameters for one quantity, one is " + name);
      const json* parameter = member_of(*parameters, name.c_str());
      const std::string unit = parameter == nullptr ? std::string() : unit_of(*parameter);
      if (Problem wrong = read_range(name, range, unit, *quantity)) return wrong;
    }
    return {};
  }

  /// The unit's symbol, given bare or with the scheme it is of.
  static std::string unit_of(const json& parameter) {
    const json* unit = member_of(parameter, "unit");
    const json* symbol = unit == nullptr ? nullptr : member_of(*unit, "symbol");
    if (symbol == nullptr) return {};
    return symbol->is_string() ? symbol->get<std::string>() : text_of(member_of(*symbol, "value"));
  }

  Problem read_range(const std::string& name, const json& range, const std::string& unit,
                     Quantity quantity) {
    const auto of = form_of(quantity, name, unit);
    if (!of) return of.error();
    if (text_of(member_of(range, "type")) != "NdArray")
      return problem(Rejection::malformed, "range " + name + " is no NdArray that stands in it");
    const json* values = member_of(range, "values");
    if (values == nullptr || !values->is_array())
      return problem(Rejection::malformed, "range " + name + " has no values");
    Layout layout;
    if (Problem wrong = read_layout(name, range, layout)) return wrong;
    if (values->size() != layout.total)
      return problem(Rejection::malformed,
                     "range " + name + " has " + std::to_string(values->size()) +
                         " values, its shape " + std::to_string(layout.total));
    return take(*values, layout, unit, *of);
  }

  /// Where the values of members and times stand: row-major, the last axis fastest (section 9.6).
  struct Layout {
    std::size_t total = 1;
    std::size_t members = 1;
    std::size_t member_step = 0;
    std::size_t time_step = 0;
  };

  Problem read_layout(const std::string& name, const json& range, Layout& layout) const {
    const json* axes = member_of(range, "axisNames");
    const json* shape = member_of(range, "shape");
    if (axes == nullptr || shape == nullptr || !axes->is_array() || !shape->is_array() ||
        axes->size() != shape->size())
      return problem(Rejection::malformed, "range " + name + ": axisNames and shape must agree");
    // Each axis once: along one twice the total would grow without bound, and past its type.
    auto sizes = sizes_;
    for (std::size_t i = axes->size(); i-- > 0;) {
      const std::string axis = text_of(&(*axes)[i]);
      const auto size = sizes.extract(axis);
      const bool fits = !size.empty() && (*shape)[i].is_number_unsigned() &&
                        (*shape)[i].get<std::size_t>() == size.mapped();
      if (!fits) return problem(Rejection::malformed, misfit_text(name, axis));
      if (axis == "t") layout.time_step = layout.total;
      if (axis == "member") {
        layout.member_step = layout.total;
        layout.members = size.mapped();
      }
      layout.total *= size.mapped();
    }
    if (layout.time_step == 0)
      return problem(Rejection::malformed, "range " + name + " does not go along axis t");
    return {};
  }

  Problem take(const json& values, const Layout& layout, const std::string& unit,
               const ForecastQuantity& of) {
    ForecastSeries series{of.quantity, of.form, times_, {}};
    series.members.resize(layout.members);
    for (std::size_t m = 0; m < layout.members; ++m) {
      series.members[m].resize(times_.size());
      for (std::size_t t = 0; t < times_.size(); ++t) {
        const json& value = values[m * layout.member_step + t * layout.time_step];
        if (value.is_null()) continue;
        if (!value.is_number())
          return problem(Rejection::not_a_number,
                         std::string(to_word(of.quantity)) + " holds something that is no number");
        const auto converted = forecast_value(value.get<double>(), unit, of);
        if (!converted) return converted.error();
        series.members[m][t] = *converted;
      }
    }
    forecast_.members = std::max(forecast_.members, layout.members);
    forecast_.series.push_back(std::move(series));
    return {};
  }

  const ForecastTerms& terms_;
  std::map<std::string, std::size_t> sizes_;
  std::vector<Instant> times_;
  Forecast forecast_;
};

}  // namespace

DecodedForecast read_coverage(const ForecastTerms& terms, const json& coverage) {
  return Coverage(terms).read(coverage);
}

}  // namespace gley::daemon
