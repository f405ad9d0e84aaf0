#!/usr/bin/env python3
"""Runs clang-tidy on the C++ of libs/ and src/ (tests left out), two at a time, and remembers which were clean.

What is looked at is what the compiler compiles: about a dozen files of a module joined, since reading the headers of
others costs most of the time. Such a unit is clean as long as nothing changes that its object file was made of: its
text, the headers of this repository that the compiler read for it (ninja knows them), .clang-tidy, the command line
and clang-tidy itself. So the first run is long and the next ones look only at what changed. The digests of clean units
are in ~/.cache/hourwright/tidy (or below $XDG_CACHE_HOME), without the checkout's own path: they serve other checkouts
too, as ccache's objects do. What nobody asked for in a month is forgotten.
"""

import argparse
import hashlib
import json
import os
import re
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BUILD = ROOT / "build"
CLEAN = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "hourwright" / "tidy"
KEPT_SECONDS = 30 * 86400
PROGRAM = "clang-tidy-14"


def units() -> list[dict]:
    """The compile commands of what is checked: those of the program's targets."""
    listed = json.loads((BUILD / "compile_commands.json").read_text())
    here = re.compile(r"/(hw_[a-z_]+|hourwright)\.dir/")
    return sorted((unit for unit in listed if here.search(unit["command"])), key=lambda unit: unit["file"])


def read_headers() -> dict[str, list[Path]]:
    """Object file -> the files of this repository that the compiler read for it."""
    text = subprocess.run(["ninja", "-C", str(BUILD), "-t", "deps"], capture_output=True, text=True, check=True).stdout
    headers: dict[str, list[Path]] = {}
    target = ""
    for line in text.splitlines():
        if line.startswith("    "):
            path = (BUILD / line.strip()).resolve()
            if path.is_relative_to(ROOT) and not path.is_relative_to(BUILD):
                headers[target].append(path)
        elif ":" in line:
            target = line.split(":")[0]
            headers[target] = []
    return headers


def digest_of(unit: dict, headers: dict[str, list[Path]], version: str) -> str:
    here = str(ROOT).encode()
    digest = hashlib.sha256(version.encode() + unit["command"].encode().replace(here, b""))
    target = re.search(r" -o (\S+)", unit["command"]).group(1)
    for path in [ROOT / ".clang-tidy", Path(unit["file"]), *sorted(headers.get(target, []))]:
        text = path.read_bytes()
        if path.is_relative_to(BUILD):  # the joined units name their files by whole paths
            text = text.replace(here, b"")
        digest.update(str(path.relative_to(ROOT)).encode() + b"\0" + text + b"\0")
    return digest.hexdigest()


def check(unit: dict) -> tuple[dict, str, bool]:
    ran = subprocess.run([PROGRAM, "--quiet", "-p", str(BUILD), unit["file"]], capture_output=True, text=True)
    return unit, ran.stdout + ("" if ran.returncode == 0 else ran.stderr), ran.returncode == 0


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--jobs", type=int, default=2)
    jobs = parser.parse_args().jobs
    CLEAN.mkdir(parents=True, exist_ok=True)
    version = subprocess.run([PROGRAM, "--version"], capture_output=True, text=True, check=True).stdout
    headers = read_headers()
    every = units()
    digests = {unit["file"]: digest_of(unit, headers, version) for unit in every}
    open_units = [unit for unit in every if not (CLEAN / digests[unit["file"]]).exists()]
    bad = 0
    with ThreadPoolExecutor(jobs) as pool:
        for unit, output, clean in pool.map(check, open_units):
            if clean:
                (CLEAN / digests[unit["file"]]).touch()
            else:
                bad += 1
                print(output)
    for kept in CLEAN.iterdir():
        if kept.name in digests.values():
            kept.touch()
        elif kept.stat().st_mtime < time.time() - KEPT_SECONDS:
            kept.unlink()
    print(f"{len(every)} units, {len(open_units)} of them looked at, {bad} with findings")
    return 1 if bad or not every else 0


if __name__ == "__main__":
    sys.exit(main())
