#!/usr/bin/env python3
"""What CBC makes of an instance as one mixed integer program, as JSON.   usage: cbc_peer.py INSTANCE.json"""
import json
import sys
import tempfile
from pathlib import Path

from plan_table import solved_by_cbc

SECONDS_MAX = 120

if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        cost, bound, seconds, _ = solved_by_cbc(sys.argv[1], Path(folder), SECONDS_MAX)
    print(json.dumps({"cost": cost, "bound": bound, "seconds": seconds}))
