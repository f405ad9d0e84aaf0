"""due_numpy.py MODELS.jsonl: the same due days by simulation with numpy, 1,000 paths a machine, every path of the
heaviest hypothesis: weekday shares, a wandering level, spells in which the machine stands, the days' own noise. The
paths are drawn once per machine and asked for all its tasks. Prints one JSON object."""

import json
import sys
import time

import numpy

PATHS, DAYS = 1000, 730
CHANCES = [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95]


def paths_of(model, random):
    """Use by the end of each day, one row a path."""
    share = numpy.array([model["shares"][(model["weekday"] + day) % 7] for day in range(DAYS)])
    kept = numpy.exp(-1 / model["memory"])
    long_mean = model["mean"] + model["mean_sd"] * random.standard_normal(PATHS)
    steps = numpy.sqrt(max(0.0, model["wander"] * (1 - kept * kept))) * random.standard_normal((DAYS, PATHS))
    chance = random.random((DAYS, PATHS))
    level, works = numpy.full(PATHS, model["now"]), random.random(PATHS) >= model["stands"]
    rate = numpy.empty((DAYS, PATHS))
    for day in range(DAYS):
        level = kept * level + steps[day]
        works = numpy.where(works, chance[day] >= model["stop"] * share[day], chance[day] < model["end"] * share[day])
        rate[day] = (long_mean + level) * works
    noise = numpy.sqrt(model["noise"] * share)[:, None] * random.standard_normal((DAYS, PATHS)) * (rate > 0)
    return numpy.cumsum(numpy.maximum(0, rate * share[:, None] + noise), axis=0) * model["unit"]


def due_days(use, left):
    reached = use >= left
    days = numpy.where(reached[-1], reached.argmax(axis=0), DAYS)
    return numpy.quantile(days, CHANCES, method="inverted_cdf")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        models = [json.loads(line) for line in file][:20]
    random = numpy.random.default_rng(1)
    medians = []
    begin = time.process_time()
    for model in models:
        use = paths_of(model, random)
        medians.append([float(due_days(use, left)[3]) for left in model["lefts"]])
    seconds = time.process_time() - begin
    tasks = sum(len(model["lefts"]) for model in models)
    print(json.dumps({"numpy": numpy.__version__, "tasks": tasks, "seconds": seconds, "medians": medians}))


if __name__ == "__main__":
    main()
