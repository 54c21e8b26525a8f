#!/usr/bin/python3
"""Every key of the data stands in docs/json.md.

    tests/oracle/json_keys.py JOB...   the last line is "N passed, N failed"

Each key that the JSON of any of the jobs has, at any depth, must be a word of docs/json.md outside its example.  Keys that are
names of the job's own (the legs of a split, the uses that figures are shown in) are told by the object that has them.
"""
import json
import pathlib
import re
import subprocess
import sys

MANUAL = pathlib.Path(__file__).parent.parent.parent / "docs" / "json.md"


def keys_of(value, keys):
    """All keys below the value."""
    if isinstance(value, dict):
        for key, inner in value.items():
            keys.add(key)
            keys_of(inner, keys)
    elif isinstance(value, list):
        for inner in value:
            keys_of(inner, keys)


def main(jobs):
    words = set(re.findall(r"[A-Za-z_][A-Za-z0-9_-]*", re.sub(r"^```.*?^```$", "", MANUAL.read_text(encoding="utf-8"), flags=re.M | re.S)))
    keys = set()
    for job in jobs:
        run = subprocess.run(["cleat", "bid", job, "--format", "json"], capture_output=True, check=True)
        keys_of(json.loads(run.stdout), keys)
    missing = sorted(keys - words)
    for key in missing:
        print(f"'{key}' is not told of in docs/json.md")
    print(f"{len(keys) - len(missing)} passed, {len(missing)} failed")
    sys.exit(1 if missing or not keys else 0)


main(sys.argv[1:])
