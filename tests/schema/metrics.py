#!/usr/bin/env python3
"""Reads metrics as a collector does: metrics.py (openmetrics|text) FILE. Says each fault, exit 1.

OpenMetrics by the strict parser of python3-prometheus-client; the older text format by its own
parser, and by what its description asks for and that parser lets pass: every family has HELP and
TYPE before its samples and stands once, counters end in _total, base units, no series twice.
"""
import re
import sys

from prometheus_client.openmetrics import parser as openmetrics
from prometheus_client import parser as text

NOT_BASE_UNITS = re.compile(r"_(milliseconds|ms|minutes|hours|kilobytes|percent)(_|$)")


def faults_of_text(body):
    declared = {}
    for line in body.splitlines():
        if line.startswith("# "):
            _, kind, name, *_ = line.split(" ", 3)
            if kind in declared.setdefault(name, []):
                yield f"{name}: {kind} stands twice"
            declared[name].append(kind)
    for name, kinds in declared.items():
        if sorted(kinds) != ["HELP", "TYPE"]:
            yield f"{name}: has only {kinds}"


def faults_of_families(families):
    series = set()
    for family in families:
        if not family.documentation:
            yield f"{family.name}: no help"
        if family.type in ("unknown", "untyped"):
            yield f"{family.name}: no type"
        if NOT_BASE_UNITS.search(family.name):
            yield f"{family.name}: not in base units"
        for sample in family.samples:
            key = (sample.name, tuple(sorted(sample.labels.items())))
            if key in series:
                yield f"{key}: stands twice"
            series.add(key)
            if family.type == "counter" and not sample.name.endswith("_total"):
                yield f"{sample.name}: a counter without _total"
    if not series:
        yield "no samples at all"


def main():
    form, file = sys.argv[1:]
    with open(file, encoding="utf-8", newline="") as opened:
        body = opened.read()
    parse = {"openmetrics": openmetrics, "text": text}[form].text_string_to_metric_families
    try:
        faults = list(faults_of_families(parse(body)))
    except ValueError as error:
        faults = [f"cannot be read: {error}"]
    if form == "text":
        faults += faults_of_text(body)
    for fault in faults:
        print(fault)
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    main()
