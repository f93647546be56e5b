#!/usr/bin/env python3
"""An invented storm for the demo's farm, as the MQTT messages two weather stations would send.

The storm lies in the twelve hours before the given moment. Each reading carries its own time, save
the brook station's humidity, a bare number that counts on arrival.
"""
import argparse
import datetime as dt
import json
import random
from zoneinfo import ZoneInfo

STEP = dt.timedelta(minutes=15)  # what one message covers
INTERVAL = dt.timedelta(minutes=5)  # what one rain reading covers
STORM = dt.timedelta(hours=12)
STORM_MM = 38.0
# How hard it rains, hour by hour: drizzle, then the front, then showers.
SHAPE = [0.3, 0.6, 1.0, 1.4, 2.2, 3.2, 3.6, 2.8, 1.8, 1.0, 0.6, 0.3]


def first_day(now):
    """The first farm day that the storm's messages cover from its start. Days before are loaded.

    Early in the day the storm reaches back over midnight, and yesterday is then played as well."""
    early = now.hour < 10
    return now.date() - dt.timedelta(days=1) if early else now.date()


def rain_tenths(now, end, chance):
    """Rain of the interval ending at `end`, in tenths of a millimetre."""
    # In UTC: the difference of two local times is an hour out on the days the clocks change.
    start_of_storm = max(utc(now) - STORM, utc(midnight(first_day(now), now.tzinfo)))
    hours = (utc(now) - start_of_storm) / dt.timedelta(hours=1)
    since = (end - start_of_storm) / dt.timedelta(hours=1)
    if not 0 < since <= hours:
        return 0
    weight = SHAPE[min(int(since / hours * len(SHAPE)), len(SHAPE) - 1)] / sum(SHAPE)
    intervals_per_part = hours / len(SHAPE) * 12
    return round(10 * STORM_MM * weight / intervals_per_part * chance.uniform(0.5, 1.5))


def midnight(day, zone):
    return dt.datetime.combine(day, dt.time(), zone)


def utc(moment):
    return moment.astimezone(dt.timezone.utc)


def air(moment, chance):
    """Temperature and humidity of a mild, wet, windy day."""
    warmest = abs(moment.hour + moment.minute / 60 - 14)
    return {"temperature": round(8.5 - 0.25 * warmest + chance.gauss(0, 0.1), 1),
            "humidity": round(min(99.0, 90 + 0.4 * warmest + chance.gauss(0, 1)), 1),
            "wind": round(max(0.5, chance.gauss(6.0, 1.2)), 1)}


def yard_pack(ends, rain, weather):
    """SenML (RFC 8428): the rain of each interval, then the air at the end of the last."""
    base = int(ends[-1].timestamp())
    pack = [{"bt": base, "n": "rain", "u": "mm", "t": int(end.timestamp()) - base, "v": tenths / 10}
            for end, tenths in zip(ends, rain)]
    for name, unit in (("temperature", "Cel"), ("humidity", "%RH"), ("wind", "m/s")):
        pack.append({"n": name, "u": unit, "v": weather[name]})
    for record in pack[1:]:
        record.pop("bt", None)
    return pack


def brook_message(end, rain, weather):
    return {"ts": utc(end).strftime("%Y-%m-%dT%H:%M:%SZ"), "rain": {"mm": round(sum(rain) * 0.11, 2)},
            "air": {"celsius": round(weather["temperature"] - 0.5, 1)}}


def messages(now, seed):
    """Yields (end of the quarter of an hour, rain of the yard in tenths, topic, payload)."""
    chance = random.Random(seed)
    end = utc(midnight(first_day(now), now.tzinfo)) + STEP
    while end <= utc(now):
        local = end.astimezone(now.tzinfo)
        ends = [end - 2 * INTERVAL, end - INTERVAL, end]
        rain = [rain_tenths(now, moment, chance) for moment in ends]
        weather = air(local, chance)
        compact = {"separators": (",", ":")}
        yield local, sum(rain), "weather/yard/pack", json.dumps(yard_pack(ends, rain, weather), **compact)
        yield local, 0, "weather/brook/now", json.dumps(brook_message(end, rain, weather), **compact)
        yield local, 0, "weather/brook/humidity", f"{weather['humidity']}"
        end += STEP


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("what", choices=["first-day", "messages", "rain-today"])
    parser.add_argument("--now", type=dt.datetime.fromisoformat, required=True,
                        help="local time, as 2026-11-25T14:30:00")
    parser.add_argument("--zone", default="Europe/London")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    now = options.now.replace(tzinfo=ZoneInfo(options.zone))
    plan = messages(now, options.seed)
    if options.what == "first-day":
        print(first_day(now).isoformat())
    elif options.what == "messages":
        for end, tenths, topic, payload in plan:
            print(end.strftime("%a %H:%M"), tenths, topic, payload, sep="\t")
    else:
        start = midnight(now.date(), now.tzinfo)
        # A rain interval that ends at midnight belongs to the day just ended.
        print(sum(tenths for end, tenths, _, _ in plan if utc(end) > utc(start)) / 10)


if __name__ == "__main__":
    main()
