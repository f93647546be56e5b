#!/usr/bin/env python3
"""Checks JSON files against a JSON Schema: validate.py SCHEMA FILE...; says each fault, exit 1."""
import json
import pathlib
import sys

import jsonschema


def main():
    with open(sys.argv[1], encoding="utf-8") as text:
        schema = json.load(text)
    kind = jsonschema.validators.validator_for(schema)
    kind.check_schema(schema)
    # Schemas name each other by file, relative to their own.
    names = jsonschema.RefResolver(pathlib.Path(sys.argv[1]).resolve().as_uri(), schema)
    validator = kind(schema, resolver=names, format_checker=jsonschema.FormatChecker())
    faults = 0
    for name in sys.argv[2:]:
        with open(name, encoding="utf-8") as text:
            for fault in validator.iter_errors(json.load(text)):
                print(f"{name}: {fault.json_path}: {fault.message}", file=sys.stderr)
                faults += 1
    sys.exit(1 if faults or len(sys.argv) < 3 else 0)


if __name__ == "__main__":
    main()
