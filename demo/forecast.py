#!/usr/bin/env python3
"""An invented forecast for the demo's farm: a week in three-hour steps, showers first, then drier.

Printed as a CoverageJSON PointSeries (OGC 21-069r2) with ten members; rain is the amount since the
time before.
"""
import argparse
import datetime as dt
import json
import math
import random

HOURS = 3
STEPS = 7 * 24 // HOURS
MEMBERS = 10
UNITS = {"rain": "mm", "temperature": "Cel", "humidity": "%", "wind": "m/s"}


def member(number, start):
    """One member's values of every quantity, step by step."""
    chance = random.Random(number)
    wetness = chance.uniform(0.4, 1.6)
    values = {name: [] for name in UNITS}
    for step in range(STEPS + 1):
        moment = start + dt.timedelta(hours=HOURS * step)
        shower = chance.random() < 0.45 * math.exp(-step / 16) * wetness
        by_day = math.cos(2 * math.pi * (moment.hour - 14) / 24)
        values["rain"].append(round(chance.expovariate(1 / 1.2), 1) if shower and step else 0.0)
        values["temperature"].append(round(7.5 + 3 * by_day + chance.gauss(0, 0.5), 1))
        values["humidity"].append(round(min(99.0, 85 - 8 * by_day + chance.gauss(0, 2)), 1))
        values["wind"].append(round(max(0.3, chance.gauss(3.5, 1.0)), 1))
    return values


def coverage(start):
    times = [(start + dt.timedelta(hours=HOURS * step)).strftime("%Y-%m-%dT%H:%M:%SZ")
             for step in range(STEPS + 1)]
    members = [member(number, start) for number in range(MEMBERS)]
    ucum = "http://www.opengis.net/def/uom/UCUM/"
    return {
        "type": "Coverage",
        "domain": {
            "type": "Domain",
            "domainType": "PointSeries",
            "axes": {"x": {"values": [-1.3]}, "y": {"values": [53.9]}, "t": {"values": times},
                     "member": {"values": list(range(MEMBERS))}},
            "referencing": [
                {"coordinates": ["x", "y"], "system": {
                    "type": "GeographicCRS", "id": "http://www.opengis.net/def/crs/OGC/1.3/CRS84"}},
                {"coordinates": ["t"], "system": {"type": "TemporalRS", "calendar": "Gregorian"}},
            ],
        },
        "parameters": {name: {"type": "Parameter", "observedProperty": {"label": {"en": name}},
                              "unit": {"symbol": {"value": unit, "type": ucum}}}
                       for name, unit in UNITS.items()},
        "ranges": {name: {"type": "NdArray", "dataType": "float", "axisNames": ["member", "t"],
                          "shape": [MEMBERS, STEPS + 1],
                          "values": [value for each in members for value in each[name]]}
                   for name in UNITS},
    }


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--now", type=dt.datetime.fromisoformat, required=True, help="UTC")
    now = parser.parse_args().now.replace(minute=0, second=0, tzinfo=dt.timezone.utc)
    print(json.dumps(coverage(now), separators=(",", ":")))


if __name__ == "__main__":
    main()
