#!/usr/bin/env python3
"""Reads the board's messages from standard input, one a line, and says what changed on which field."""
import json
import signal
import sys


def changes(before, after):
    """Lines of text: one for the wetness of a field, one for each machine whose verdict moved."""
    known = {field["id"]: field for field in before.get("fields", [])}
    for field in after.get("fields", []):
        old = known.get(field["id"])
        if old is None:
            continue
        if old["wetness"] != field["wetness"]:
            yield f"{field['name']}: {old['wetness']} -> {field['wetness']}"
        moved = [f"{machine} {old['machines'][machine]} -> {verdict}"
                 for machine, verdict in field["machines"].items()
                 if old["machines"].get(machine, verdict) != verdict]
        if moved:
            yield f"{field['name']}: " + ", ".join(moved)


def main():
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C ends the sender, and its end ends this
    before = {}
    for line in sys.stdin:
        after = json.loads(line)
        for text in changes(before, after):
            print(f"           {text}", flush=True)
        before = after


if __name__ == "__main__":
    main()
