#!/usr/bin/env python3
"""Whether groups of lives differ, by the program and by R's `survival`.   usage: difference_against_r_test.py HOURWRIGHT

120 seeded tables of 2 to 6 groups of 4 to 40 lives, alike or not: complete with ties, taken out good at a random age, and
watched from an age on. The statistics and degrees of both tests have to agree to 1e-6 of themselves."""
import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
SEED, TABLES = 20261127, 120


def with_ties(chance, age, scale):
    age = max(1, round(20 * age / scale))
    return f"{age},{age},{chance.randint(1, 2)},0"


def taken_out(chance, age, scale):
    end = scale * chance.uniform(0.3, 2)
    return f"{age!r},{age!r},1,0" if age < end else f"{end!r},,1,0"


def entered(chance, age, scale):
    entry = scale * chance.uniform(0, 0.4)
    end = scale * chance.uniform(0.5, 2)
    if entry >= min(age, end):
        return None
    return f"{age!r},{age!r},1,{entry!r}" if age < end else f"{end!r},,1,{entry!r}"


KINDS = [with_ties, taken_out, entered]


def table(chance, kind):
    shape, scale = math.exp(chance.uniform(-0.5, 1.4)), math.exp(chance.uniform(1, 9))
    rows = []
    for group in range(chance.randint(2, 6)):
        own = scale * math.exp(chance.choice([0, chance.uniform(-0.5, 0.5)]))
        for _ in range(chance.randint(4, 40)):
            row = kind(chance, own * (-math.log(chance.random())) ** (1 / shape), scale)
            if row:
                rows.append(f"g{group},{row}")
    return "group,lower,upper,count,entry\n" + "\n".join(rows) + "\n"


def near(name, what, a, b):
    assert abs(a - b) <= 1e-6 * max(abs(a), abs(b), 1e-3), f"{name}: {what}: {a!r} here, {b!r} by R"


def main(program):
    chance = random.Random(SEED)
    print("seed", SEED)
    ranks = fits = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(TABLES):
            kind = KINDS[number % len(KINDS)]
            (Path(folder) / f"{number:03}-{kind.__name__}.csv").write_text(table(chance, kind))
        done = subprocess.run(["Rscript", HERE / "difference.R", folder], capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        for line in done.stdout.splitlines():
            name, *figures = line.split()
            command = [program, "life", "difference", "--json", Path(folder) / name]
            told = json.loads(subprocess.run(command, capture_output=True, text=True).stdout)
            near(name, "log-rank", told["log_rank"]["statistic"], float(figures[0]))
            assert told["log_rank"]["degrees"] == float(figures[1]), name
            ranks += 1
            if figures[2] != "NA":
                near(name, "Weibull", told["weibull"]["statistic"], float(figures[2]))
                assert told["weibull"]["degrees"] == float(figures[3]), name
                fits += 1
    print(f"{ranks} log-rank tests and {fits} Weibull tests agree")
    assert ranks == TABLES and fits >= 60, (ranks, fits)


if __name__ == "__main__":
    main(sys.argv[1])
