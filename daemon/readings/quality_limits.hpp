#pragma once
#include <chrono>
#include <cstddef>

/// All limits of the quality checks. Zahumensky (2004): I. Zahumensky, Guidelines on Quality
/// Control Procedures for Data from Automatic Weather Stations, WMO CBS/OPAG-IOS ET AWS-3 Doc.
/// 4(1), later in WMO-No. 8; its figures from memory, met again in published use of it. They hold
/// for values a minute apart; farm stations send every 10 minutes to every hour, so that ours are
/// wider: a sound reading refused costs more than a small fault used.
namespace gley::daemon::limits {

// Spike: a value leaves by more than this and returns. Zahumensky: 3 degC a minute for air, 2 for
// dew point, 10 to 15 % humidity, 20 m/s wind. Ours, but for wind:
constexpr double temperature_spike_c = 8.0;
constexpr double humidity_spike_pct = 40.0;
constexpr double wind_spike_m_s = 20.0;
/// Readings farther apart are not compared. Ours.
constexpr std::chrono::minutes spike_gap{30};
/// What stays away longer is weather. Ours.
constexpr std::chrono::minutes longest_spike{60};

// Stuck: the same value all day. Zahumensky asks for 0.1 degC, 1 % or 0.5 m/s within an hour, which
// a foggy night with a coarse sensor breaks. Ours:
constexpr std::size_t stuck_readings = 12;
constexpr std::chrono::hours stuck_span{18};
/// Humidity above it may stand still for a day of fog. Ours.
constexpr double fog_pct = 95.0;

/// Dew point over air temperature, degC. WMO-No. 305 and Zahumensky: not above at all; ours allows
/// for what two sensors differ by.
constexpr double dew_point_over_air_c = 1.0;
/// Readings of the two farther apart are not compared. Ours.
constexpr std::chrono::minutes same_time{15};

/// A count may rise by this whatever the time between. Ours.
constexpr double least_plausible_rise_mm = 30.0;
/// Most rain on record anywhere grows about with the root of its time: 422 mm D^0.475, D in hours
/// (Jennings 1950 and later compilations; from memory).
constexpr double most_rain_of_an_hour_mm = 422.0;
/// Sunshine may be this much over the time between two counts, h. Ours, for rounding.
constexpr double sunshine_over_time_h = 0.25;
/// Radiation above the air is 4.9 MJ/m2 in an hour (solar constant 1361 W/m2).
constexpr double most_radiation_of_an_hour_mj_m2 = 4.9;

/// Rain gauges and thermometers tell of each other this far, km. Ours: a frontal rain is wider, a
/// summer shower is not, so several wet days are asked for.
constexpr double neighbour_km = 25.0;

/// So much rain over days in a row that a gauge cannot have missed it: on `days` of them `day_mm`
/// or more, and `sum_mm` on these.
struct WetSpell {
  double day_mm;
  int days;
  double sum_mm;
};

// Blocked gauge: on days in a row it has no more than `dry_gauge_mm` a day, through a wet spell by
// its neighbours' median or, on days of which no neighbour tells, by what was forecast the day
// before, of which more is asked. Ours; how they do on measured rain: tests/measured.
constexpr double dry_gauge_mm = 0.2;
constexpr WetSpell wet_around{.day_mm = 2.0, .days = 3, .sum_mm = 20.0};
constexpr WetSpell wet_as_forecast{.day_mm = 5.0, .days = 4, .sum_mm = 30.0};

/// Daily mean of air against neighbours', degC, after 6.5 degC/km (ICAO standard atmosphere). Ours.
constexpr double apart_c = 10.0;
constexpr double lapse_c_per_m = 0.0065;

// Season: an extreme beyond the mean of its month in the years before by so many standard
// deviations and so many degC, once there are so many days of two years. Ours; 5 to 6 deviations
// are used for daily records elsewhere (Durre et al. 2010, J. Appl. Meteor. Climatol. 49, 1615, for
// GHCN-Daily, from memory).
constexpr double season_deviations = 6.0;
constexpr double season_least_c = 12.0;
constexpr int season_days = 50;

/// Humidity: a day counts as saturated from this mean, and so many of them in a row are doubted.
/// Ours.
constexpr double saturated_pct = 99.5;
constexpr int saturated_days = 3;

}  // namespace gley::daemon::limits
