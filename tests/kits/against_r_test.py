#!/usr/bin/env python3
"""Stock levels by the program and by R's own distributions.   usage: against_r_test.py HOURWRIGHT

300 seeded questions, means from 0.01 to 20,000 and chances up to 1 - 1e-9: base stock against qpois and ppois, an uncertain rate against
qnbinom and pnbinom, the newsvendor against qnorm and qpois, costs summed term by term. Levels have to be the same, numbers agree to 1e-9."""
import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path

SEED, EACH = 20261127, 100
REFERENCE = r"""
left <- function(s, mean) if (s > 0) sum((s - 0:(s - 1)) * dpois(0:(s - 1), mean)) else 0
missing <- function(s, mean) { k <- (s + 1):(s + 60 + ceiling(40 * sqrt(mean) + mean / 2)); sum((k - s) * dpois(k, mean)) }
say <- function(...) cat(sprintf("%.17g", c(...)), "\n")
for (row in split(given, seq_len(nrow(given)))) {
  if (row$kind == 1) {
    s <- qpois(row$p, row$a)
    say(s, ppois(s, row$a), missing(s, row$a))
  } else if (row$kind == 2) {
    chance <- row$b / (row$b + row$c)
    s <- qnbinom(row$p, row$a, chance)
    say(s, pnbinom(s, row$a, chance), row$a * row$c / row$b)
  } else {
    ratio <- row$c / (row$b + row$c)
    s <- qpois(ratio, row$a)
    say(s, row$b * left(s, row$a) + row$c * missing(s, row$a), row$a + row$p * 100 * qnorm(ratio))
  }
}
"""


def spread(chance, low, high):
    return math.exp(chance.uniform(math.log(low), math.log(high)))


def questions(chance):
    for _ in range(EACH):
        mean, p = spread(chance, 0.01, 20000), 1 - spread(chance, 1e-9, 0.5)
        yield (1, mean, 0, 0, p), [{"mean": mean, "p": p}]
    for _ in range(EACH):
        shape, seen, cover, p = spread(chance, 0.5, 50), spread(chance, 100, 1e6), spread(chance, 10, 1e6), 1 - spread(chance, 1e-7, 0.5)
        yield (2, shape, seen, cover, p), [{"shape": shape, "T": seen, "L": cover, "p": p}]
    for _ in range(EACH):
        mean, over, under, sd = spread(chance, 0.1, 5000), spread(chance, 0.1, 50), spread(chance, 0.1, 5000), chance.random()
        period = {"h": over, "b": under, "mean": mean}
        yield (3, mean, over, under, sd), [period, {**period, "sd": sd * 100}]


def ours(program, asked):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(asked, file)
        file.flush()
        done = subprocess.run([program, "kits", "stock", "--json", file.name], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def theirs(rows):
    with tempfile.NamedTemporaryFile("w", suffix=".R") as script, tempfile.NamedTemporaryFile("w", suffix=".csv") as table:
        table.write("kind,a,b,c,p\n" + "".join(",".join(map(repr, row)) + "\n" for row in rows))
        table.flush()
        script.write(f'given <- read.csv("{table.name}")\n' + REFERENCE)
        script.flush()
        done = subprocess.run(["Rscript", script.name], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return [[float(part) for part in line.split()] for line in done.stdout.splitlines()]


def near(what, a, b, relative=1e-9):
    assert abs(a - b) <= relative * max(abs(b), 1e-12), f"{what}: {a!r} here, {b!r} by R"


def main(program):
    print("seed", SEED)
    asked = list(questions(random.Random(SEED)))
    answers = iter(ours(program, [one for _, parts in asked for one in parts]))
    for (row, _), (level, second, third) in zip(asked, theirs([row for row, _ in asked])):
        answer = next(answers)
        if row[0] == 1:
            assert answer["s_no_stockout"] == level and answer["s_fill_rate"] == level + 1, (row, level, answer)
            near(row, answer["achieved"], second)
            near(row, answer["ebo_at_s"], third, 1e-8)
        elif row[0] == 2:
            assert answer["s"] == level, (row, level, answer)
            near(row, answer["achieved"], second)
            near(row, answer["mean"], third)
        else:
            assert answer["S"] == level, (row, level, answer)
            near(row, answer["cost"], second)
            near(row, next(answers)["S"], third)
    print(len(asked), "questions agree")


if __name__ == "__main__":
    main(Path(sys.argv[1]).resolve())
