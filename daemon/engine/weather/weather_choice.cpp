#include "daemon/engine/weather/weather_choice.hpp"

#include "model/weather/wind.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;
using model::DayFlag;
using std::chrono::sys_days;

/// What a station has of a day that may be used.
struct Offer {
  DailyWeather weather;
  model::DayFlags flags;
};

void clear(DailyWeather& weather, Quantity quantity) {
  switch (quantity) {
    case Quantity::rain:
      weather.rain_mm.reset();
      return;
    case Quantity::temperature:
      weather.tmin_c.reset();
      weather.tmax_c.reset();
      weather.tmean_c.reset();
      return;
    case Quantity::humidity:
      weather.rh_min_pct.reset();
      weather.rh_max_pct.reset();
      weather.rh_mean_pct.reset();
      return;
    default:
      return;  // other quantities are judged reading by reading
  }
}

Offer offer_of(const WeatherSource& source, sys_days date) {
  const auto found = source.record->find(date);
  if (found == source.record->end()) return {};
  Offer offer{found->second.weather, found->second.flags};
  if (source.doubts == nullptr) return offer;
  const auto doubts = source.doubts->find(date);
  if (doubts == source.doubts->end()) return offer;
  for (const Doubt& doubt : doubts->second) {
    flag_doubt(offer.flags, doubt);
    if (!doubt.accepted) clear(offer.weather, doubt.quantity);
  }
  return offer;
}

bool has_air(const DailyWeather& weather) {
  return weather.tmin_c || weather.et0_mm;
}
bool has_rain(const DailyWeather& weather) {
  return weather.rain_mm.has_value();
}
bool has_irrigation(const DailyWeather& weather) {
  return weather.irrigation_mm.has_value();
}
bool has_wind(const DailyWeather& weather) {
  return weather.wind_m_s.has_value();
}
bool has_radiation(const DailyWeather& weather) {
  return weather.solar_mj_m2 || weather.sun_h;
}

/// Puts a day together from the stations' offers.
class Choice {
 public:
  Choice(const std::vector<WeatherSource>& sources, sys_days date, DayPart part)
      : sources_(sources), part_(part) {
    for (const WeatherSource& source : sources) offers_.push_back(offer_of(source, date));
  }

  WeatherChoice made() && {
    out_.air = first(has_air);
    if (out_.air) out_.weather = offers_[*out_.air].weather;
    choose_water();
    choose_the_rest_of_the_air();
    flag(out_.rain, DayFlag::rain_doubtful, DayFlag::rain_borrowed);
    flag(out_.air, DayFlag::temperature_doubtful, DayFlag::temperature_borrowed);
    flag(out_.humidity, DayFlag::humidity_doubtful, DayFlag::humidity_borrowed);
    flag(out_.wind, DayFlag::wind_doubtful, DayFlag::wind_borrowed);
    flag(out_.radiation, DayFlag::radiation_doubtful, DayFlag::radiation_borrowed);
    return out_;
  }

 private:
  using Has = bool (*)(const DailyWeather&);

  [[nodiscard]] std::optional<std::size_t> first(Has has) const {
    for (std::size_t i = 0; i < offers_.size(); ++i)
      if (has(offers_[i].weather)) return i;
    return {};
  }

  [[nodiscard]] bool is_partial(const Offer& offer) const {
    return part_ == DayPart::whole && offer.flags.has(DayFlag::rain_partial);
  }

  [[nodiscard]] std::optional<std::size_t> first_with_whole_rain() const {
    for (std::size_t i = 0; i < offers_.size(); ++i)
      if (has_rain(offers_[i].weather) && !is_partial(offers_[i]) &&
          !offers_[i].flags.has(DayFlag::rain_doubtful))
        return i;
    return first(has_rain);
  }

  void choose_water() {
    out_.rain = first_with_whole_rain();
    out_.irrigation = first(has_irrigation);
    out_.weather.rain_mm.reset();
    out_.weather.irrigation_mm.reset();
    if (out_.rain) {
      const Offer& offer = offers_[*out_.rain];
      out_.weather.rain_mm = offer.weather.rain_mm;
      out_.flags.set(DayFlag::rain_partial, is_partial(offer));
    }
    if (out_.irrigation)
      out_.weather.irrigation_mm = offers_[*out_.irrigation].weather.irrigation_mm;
  }

  void choose_the_rest_of_the_air() {
    DailyWeather& weather = out_.weather;
    out_.humidity = part_of_air(model::has_humidity);
    out_.wind = part_of_air(has_wind);
    out_.radiation = part_of_air(has_radiation);
    if (out_.humidity && out_.humidity != out_.air)
      take_humidity(weather, offers_[*out_.humidity].weather);
    if (out_.wind) weather.wind_m_s = wind_at_first_height(*out_.wind);
    if (out_.radiation && out_.radiation != out_.air) {
      weather.sun_h = offers_[*out_.radiation].weather.sun_h;
      weather.solar_mj_m2 = offers_[*out_.radiation].weather.solar_mj_m2;
    }
  }

  /// Its own station's, or, where that has temperatures to go with it, the first that has it.
  [[nodiscard]] std::optional<std::size_t> part_of_air(Has has) const {
    if (!out_.air) return {};
    const DailyWeather& own = offers_[*out_.air].weather;
    if (has(own)) return out_.air;
    return own.tmin_c && !own.et0_mm ? first(has) : std::nullopt;
  }

  [[nodiscard]] double wind_at_first_height(std::size_t index) const {
    const double wind_m_s = offers_[index].weather.wind_m_s.value_or(0.0);
    const double own_m = sources_[index].site.wind_height_m;
    const double first_m = sources_.front().site.wind_height_m;
    if (own_m == first_m) return wind_m_s;
    return model::wind_at_2m_m_s({.speed_m_s = wind_m_s, .height_m = own_m}) /
           model::wind_at_2m_m_s({.speed_m_s = 1.0, .height_m = first_m});
  }

  /// Doubted: at the station that was taken or at one trusted more.
  void flag(const std::optional<std::size_t>& taken, DayFlag doubtful, DayFlag borrowed) {
    const std::size_t end = taken ? *taken + 1 : offers_.size();
    for (std::size_t i = 0; i < end; ++i) out_.flags.set(doubtful, offers_[i].flags.has(doubtful));
    out_.flags.set(borrowed, taken.value_or(0) > 0);
  }

  const std::vector<WeatherSource>& sources_;
  DayPart part_;
  std::vector<Offer> offers_;
  WeatherChoice out_;
};

}  // namespace

WeatherChoice choose_weather(const std::vector<WeatherSource>& sources, sys_days date,
                             DayPart part) {
  return Choice(sources, date, part).made();
}

}  // namespace gley::daemon
