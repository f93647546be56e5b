#!/usr/bin/env python3
"""Invented weather for the demo's invented farm.

Nothing here was measured anywhere. The constants below were chosen so that the result looks like a
cool place near a western sea: rain on about half the days, in spells, some 800 mm a year. The same
seed and end date give the same weather.
"""
import argparse
import csv
import datetime as dt
import math
import random
import sys

COLUMNS = ["date", "rain_mm", "tmin_c", "tmax_c", "rh_min_pct", "rh_max_pct", "wind_m_s", "sun_h"]
LATITUDE_DEG = 53.9
# Days without more than a shower before the story begins, so that a storm has something to change.
DRY_DAYS_AT_END = 12


def season(day):
    """-1 in the middle of January, 1 in the middle of July."""
    return -math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365.25)


def daylight_h(day):
    """FAO-56 Eq. 24, 25 and 34 (Allen et al. 1998)."""
    angle = 2 * math.pi * day.timetuple().tm_yday / 365
    declination = 0.409 * math.sin(angle - 1.39)
    return 24 / math.pi * math.acos(-math.tan(math.radians(LATITUDE_DEG)) * math.tan(declination))


def rain_mm(chance, day, was_wet):
    """A two-state chain for wet and dry days, a gamma distribution for the amount."""
    wet = chance.random() < (0.67 - 0.05 * season(day) if was_wet else 0.33 - 0.05 * season(day))
    amount = max(0.2, chance.gammavariate(0.75, 6.0)) if wet else 0.0
    return min(amount, 45.0)


def year_of_days(seed, first, last):
    """Yields one day's weather as a dict of numbers, from first to last."""
    chance = random.Random(f"{seed} {last.isoformat()}")
    warmth, was_wet, day = 0.0, False, first
    while day <= last:
        rain = rain_mm(chance, day, was_wet)
        if (last - day).days < DRY_DAYS_AT_END:
            rain = 0.0 if chance.random() < 0.8 else 0.4
        was_wet = rain > 0
        warmth = 0.72 * warmth + chance.gauss(0.0, 1.6)
        swing = (4.6 if was_wet else 6.8) + 1.6 * season(day) + chance.gauss(0.0, 0.8)
        mean = 9.4 + 6.2 * season(day - dt.timedelta(days=10)) + warmth
        rh_max = min(100.0, 96 + chance.gauss(0, 2))
        rh_min = (76 if was_wet else 63) - 6 * season(day) + chance.gauss(0, 5)
        share_of_sun = chance.betavariate(1.2, 4.5) if was_wet else chance.betavariate(2.0, 2.6)
        yield {
            "date": day,
            "rain_mm": rain,
            "tmin_c": mean - max(swing, 1.5) / 2,
            "tmax_c": mean + max(swing, 1.5) / 2,
            "rh_min_pct": min(rh_min, rh_max - 1.0),
            "rh_max_pct": rh_max,
            "wind_m_s": max(0.4, (3.9 if was_wet else 2.8) - 0.6 * season(day) + chance.gauss(0, 1)),
            "sun_h": share_of_sun * daylight_h(day),
        }
        day += dt.timedelta(days=1)


def at_brook(seed, days):
    """The second station, lower down: a little wetter and cooler, and its gauge sees other showers."""
    chance = random.Random(f"{seed} brook")
    for day in days:
        cooler = 0.5 + chance.gauss(0, 0.2)
        yield dict(day, rain_mm=day["rain_mm"] * max(0.3, chance.gauss(1.08, 0.15)),
                   tmin_c=day["tmin_c"] - cooler, tmax_c=day["tmax_c"] - cooler)


def write_csv(days, out):
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for day in days:
        numbers = [f"{max(day[name], 0.0) if name == 'rain_mm' else day[name]:.1f}"
                   for name in COLUMNS[1:]]
        writer.writerow([day["date"].isoformat(), *numbers])


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--station", choices=["yard", "brook"], required=True)
    parser.add_argument("--last", type=dt.date.fromisoformat, required=True,
                        help="last day of the weather, as 2026-11-24")
    parser.add_argument("--days", type=int, default=425)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    first = options.last - dt.timedelta(days=options.days - 1)
    days = list(year_of_days(options.seed, first, options.last))
    if options.station == "brook":
        days = list(at_brook(options.seed, days))
    write_csv(days, sys.stdout)


if __name__ == "__main__":
    main()
