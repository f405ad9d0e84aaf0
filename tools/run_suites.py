#!/usr/bin/env python3
"""Builds everything, runs every suite, goes on when one fails, and ends with one line "N passed, N failed".

The numbers are single tests, added up over all suites; a check without tests of its own (clang-format, eslint, ...)
counts as one. A test that skipped itself, a suite that did not run, and a suite that reports failure without naming a
failed test each count as failed. Every suite's output is in build/logs/SUITE.log; the end of it is shown on failure.
"""

import argparse
import json
import os
import re
import signal
import subprocess
import sys
import time
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass, field
from pathlib import Path
from typing import Callable, Optional

ROOT = Path(__file__).resolve().parent.parent
LOGS = ROOT / "build" / "logs"
SHOWN_LINES = 40
SUITE_SECONDS_MAX = 1200
TAIL_BYTES = 1_000_000


@dataclass
class Count:
    passed: int = 0
    failed: int = 0


def one_by_status(log: str, status: int) -> Count:
    """For a check without tests of its own."""
    return Count(1, 0) if status == 0 else Count(0, 1)


def nothing_unless_failed(log: str, status: int) -> Count:
    """For a step that only prepares."""
    return Count(0, 0) if status == 0 else Count(0, 1)


def last_line(log: str, status: int) -> Count:
    """For a suite that ends with a line of the same form as ours."""
    found = re.findall(r"^(\d+) passed, (\d+) failed\s*$", log, re.MULTILINE)
    return Count(*map(int, found[-1])) if found else Count(0, 1)


def junit(path: Path) -> Callable[[str, int], Count]:
    """For ctest: whatever did not run to a good end (failed, not built, skipped, disabled) counts as failed."""

    def count(log: str, status: int) -> Count:
        cases = ElementTree.parse(path).getroot().findall("testcase")
        passed = sum(case.get("status") == "run" for case in cases)
        return Count(passed, len(cases) - passed)

    return count


def vitest(path: Path) -> Callable[[str, int], Count]:
    def count(log: str, status: int) -> Count:
        report = json.loads(path.read_text())
        return Count(report["numPassedTests"], report["numTotalTests"] - report["numPassedTests"])

    return count


@dataclass
class Suite:
    name: str
    command: list[str]
    count: Callable[[str, int], Count] = one_by_status
    folder: Path = ROOT
    exists_if: Optional[Path] = None  # the suite belongs to a part of the tree that may not be there
    report: Optional[Path] = None  # removed before, so that an old one is never counted
    environment: dict[str, str] = field(default_factory=dict)


def suites() -> list[Suite]:
    jobs = str(os.cpu_count() or 2)
    ctest_report = LOGS / "ctest.xml"
    vitest_report = LOGS / "vitest.json"
    app, app_package = ROOT / "app", ROOT / "app" / "package.json"
    browser = ROOT / "tests" / "browser"
    npm_run = ["npm", "run", "--silent"]
    return [
        Suite("app-build", ["tools/build_app.sh"], nothing_unless_failed, exists_if=app_package),
        Suite("configure", ["cmake", "--preset", "release"], nothing_unless_failed),
        Suite("build", ["cmake", "--build", "build", "--parallel", jobs, "--target", "all", "tests", "--", "-k", "0"],
              nothing_unless_failed),
        Suite("format", ["tools/format.sh", "--check"]),
        Suite("contract", ["python3", "-B", "tests/contract/run.py"], last_line,
              environment={"HW_PROGRAM_REQUIRED": "1"}),
        Suite("tidy", ["python3", "-B", "tools/tidy.py", "--jobs", jobs]),
        # Many tests wait more than they compute.
        Suite("ctest", ["ctest", "--test-dir", "build", "--parallel", str(2 * int(jobs)), "--output-on-failure", "--no-tests=error",
                        "--output-junit", str(ctest_report)], junit(ctest_report), report=ctest_report),
        Suite("app-lint", npm_run + ["lint"], folder=app, exists_if=app_package),
        Suite("app-format", npm_run + ["format:check"], folder=app, exists_if=app_package),
        Suite("app-check", npm_run + ["check"], folder=app, exists_if=app_package),
        Suite("app-test", npm_run + ["test", "--", "--reporter=default", "--reporter=json",
                                     f"--outputFile.json={vitest_report}"],
              vitest(vitest_report), folder=app, exists_if=app_package, report=vitest_report),
        Suite("browser", npm_run + ["test"], last_line, folder=browser, exists_if=browser / "package.json"),
    ]


def run_logged(suite: Suite, log_path: Path) -> int:
    """Runs the suite in a process group of its own, so that nothing that it started outlives it."""
    environment = os.environ | {"NO_COLOR": "1"} | suite.environment
    with log_path.open("w") as log:
        try:
            process = subprocess.Popen(suite.command, cwd=suite.folder, stdin=subprocess.DEVNULL, stdout=log,
                                       stderr=subprocess.STDOUT, env=environment, start_new_session=True)
        except OSError as error:
            log.write(f"{suite.command[0]} could not be started: {error}\n")
            return 127
        try:
            return process.wait(SUITE_SECONDS_MAX)
        except subprocess.TimeoutExpired:
            log.write(f"\nstopped after {SUITE_SECONDS_MAX} s without an end\n")
            return 124
        finally:
            end_group(process)


def end_group(process: subprocess.Popen) -> None:
    try:
        os.killpg(process.pid, signal.SIGKILL)
    except ProcessLookupError:
        pass
    process.wait()


def counted(suite: Suite, log: str, status: int) -> Count:
    """The suite's own count, made to agree with its exit status."""
    try:
        count = suite.count(log, status)
    except (OSError, ValueError, KeyError, ElementTree.ParseError):
        return Count(0, 1)  # no report: it did not run
    if status != 0 and count.failed == 0:
        count.failed = 1
    if suite.count not in (nothing_unless_failed, one_by_status) and count.passed + count.failed == 0:
        count.failed = 1  # a suite without a single test is one that did not run
    return count


def tail_of(path: Path) -> str:
    with path.open("rb") as log:
        log.seek(max(0, path.stat().st_size - TAIL_BYTES))
        return log.read().decode(errors="replace")


def show_tail(log: str) -> None:
    for line in log.splitlines()[-SHOWN_LINES:]:
        print(f"    {line}")


def run(suite: Suite) -> Count:
    if suite.report:
        suite.report.unlink(missing_ok=True)
    log_path = LOGS / f"{suite.name}.log"
    begin = time.monotonic()
    status = run_logged(suite, log_path)
    log = tail_of(log_path)
    count = counted(suite, log, status)
    word = "FAILED" if count.failed else "ok"
    print(f"{suite.name:<12}{word:<8}{count.passed:>6} passed {count.failed:>4} failed "
          f"{time.monotonic() - begin:>7.1f} s", flush=True)
    if count.failed:
        show_tail(log)
        print(f"    (all of it: {log_path.relative_to(ROOT)})", flush=True)
    return count


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("suite", nargs="*", help="only these suites, by name")
    chosen = parser.parse_args().suite
    every = [suite for suite in suites() if suite.exists_if is None or suite.exists_if.exists()]
    unknown = set(chosen) - {suite.name for suite in every}
    if unknown:
        parser.error(f"no suite {', '.join(sorted(unknown))}; there are {', '.join(suite.name for suite in every)}")
    LOGS.mkdir(parents=True, exist_ok=True)
    (LOGS / "summary.txt").unlink(missing_ok=True)
    counts = [run(suite) for suite in every if not chosen or suite.name in chosen]
    passed, failed = sum(count.passed for count in counts), sum(count.failed for count in counts)
    line = f"{passed} passed, {failed} failed"
    (LOGS / "summary.txt").write_text(line + "\n")
    print(line)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
