#!/usr/bin/env python3
"""Holds the rules of the house against the repository; ends with a line "N passed, N failed". A skipped test counts as
failed where HW_PROGRAM_REQUIRED is set, as in make test."""

import os
import sys
import unittest
from pathlib import Path

sys.dont_write_bytecode = True
FOLDER = Path(__file__).resolve().parent


def main() -> int:
    sys.path.insert(0, str(FOLDER))
    suite = unittest.defaultTestLoader.discover(str(FOLDER), top_level_dir=str(FOLDER))
    result = unittest.TextTestRunner(stream=sys.stdout, verbosity=1).run(suite)
    failed = len(result.failures) + len(result.errors)
    if "HW_PROGRAM_REQUIRED" in os.environ:
        failed += len(result.skipped)
    print(f"{result.testsRun - len(result.failures) - len(result.errors) - len(result.skipped)} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
