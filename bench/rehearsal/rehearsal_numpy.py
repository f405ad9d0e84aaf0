"""rehearsal_numpy.py SHOP.json: the same shop-years with numpy, all years of a machine at once: each step takes every
year to its next event. Prints one JSON object with the means, which must agree with rehearsal_bench within the errors
of both."""

import json
import sys
import time

import numpy

YEARS = 200
NEVER = numpy.inf
IN_PRODUCTION, AT_REST, ISOLATED = 0, 1, 2
SET_UP_HOURS, SET_UP_COST = (0.0, 0.25, 0.75), (0.0, 20.0, 60.0)
LABOUR, STANDING, FAILED_COST, FAILED_HOURS = 60.0, 80.0, 900.0, 4.0
SCATTER = 0.3


class Machine:
    """One machine in many years; arrays have a row a year."""

    def __init__(self, shop, random):
        self.random, self.days = random, shop["days"]
        tasks = shop["tasks"]
        hours = numpy.array(shop["hours"])
        share = numpy.array([[1, 1, 1, 1, 1, 1 / 3, 0][day % 7] for day in range(self.days)])
        factor = random.gamma(1 / SCATTER**2, SCATTER**2, (YEARS, 1, self.days))
        use = hours[None, :, None] * share[None, None, :] * factor
        use = numpy.concatenate([use, numpy.ones((YEARS, 1, self.days))], axis=1)  # the calendar
        self.totals = numpy.concatenate([numpy.zeros((YEARS, len(hours) + 1, 1)), numpy.cumsum(use, axis=2)], axis=2)
        # Rows one above the other, so that one search serves all.
        self.lift = 1.0 + self.totals[:, :, -1].max()
        rows = self.totals.reshape(-1, self.days + 1)
        self.flat = (rows + self.lift * numpy.arange(len(rows))[:, None]).ravel()
        self.counters = len(hours) + 1
        self.energy = numpy.array([task["energy"] for task in tasks])
        self.hours = numpy.array([task["minutes"] for task in tasks]) / 60
        self.cost = numpy.array([task["cost"] for task in tasks])
        self.shape = numpy.array([task["shape"] for task in tasks])
        self.scale = numpy.array([task["scale"] for task in tasks])
        self.life_counter = numpy.array([task["counter"] for task in tasks])
        self.owner, self.counter, self.length, self.heads_up, used = [], [], [], [], []
        for n, task in enumerate(tasks):
            for on_counter, length, heads_up, there in task["intervals"]:
                self.owner.append(n)
                self.counter.append(task["counter"] if on_counter else self.counters - 1)
                self.length.append(length)
                self.heads_up.append(heads_up)
                used.append(there)
        self.owner, self.counter = numpy.array(self.owner), numpy.array(self.counter)
        self.length, self.heads_up = numpy.array(self.length), numpy.array(self.heads_up)
        self.targets = numpy.tile(self.length - numpy.array(used), (YEARS, 1))
        self.due = numpy.full((YEARS, len(tasks)), NEVER)
        self.fails = numpy.full((YEARS, len(tasks)), NEVER)
        self.sums = {name: numpy.zeros(YEARS) for name in ("failures", "stops", "tasks_done", "cost")}
        for n, task in enumerate(tasks):
            self.find_due(numpy.arange(YEARS), n, numpy.zeros(YEARS))
            if task["scale"] > 0:
                self.draw_part(numpy.arange(YEARS), n, numpy.zeros(YEARS), 0.0, task["intervals"][0][3])

    def time_of(self, years, counter, total, at):
        row = years * self.counters + counter
        place = numpy.searchsorted(self.flat, numpy.minimum(total, self.lift - 0.5) + self.lift * row)
        day = numpy.clip(place - row * (self.days + 1), 1, self.days)
        before = self.totals[years, counter, day - 1]
        rise = self.totals[years, counter, day] - before
        time_of = day - 1 + (total - before) / numpy.where(rise > 0, rise, 1)
        never = total > self.totals[years, counter, -1]
        return numpy.where(never, NEVER, numpy.maximum(time_of, at))

    def total_at(self, years, counter, at):
        day = at.astype(int)
        before = self.totals[years, counter, day]
        return before + (at - day) * (self.totals[years, counter, day + 1] - before)

    def find_due(self, years, task, at):
        first = numpy.full(len(years), NEVER)
        for i in numpy.flatnonzero(self.owner == task):
            first = numpy.minimum(first, self.time_of(years, self.counter[i], self.targets[years, i], at))
        self.due[years, task] = first

    def draw_part(self, years, task, at, now, age):
        spent = (age / self.scale[task]) ** self.shape[task]
        life = self.scale[task] * (spent - numpy.log(self.random.random(len(years)))) ** (1 / self.shape[task])
        self.fails[years, task] = self.time_of(years, self.life_counter[task], now - age + life, at)

    def begin_anew(self, years, task, at):
        for i in numpy.flatnonzero(self.owner == task):
            self.targets[years, i] = self.total_at(years, self.counter[i], at) + self.length[i]
        self.find_due(years, task, at)
        if self.scale[task] > 0:
            self.draw_part(years, task, at, self.total_at(years, self.life_counter[task], at), 0.0)

    def do_work(self, years, task, at):
        self.sums["tasks_done"][years] += 1
        self.sums["cost"][years] += self.hours[task] * LABOUR + self.cost[task]
        self.begin_anew(years, task, at)

    def step(self):
        """Every year that is not over goes on to its next event; False where there is none."""
        next_at = numpy.minimum(self.due, self.fails)
        at = next_at.min(axis=1)
        years = numpy.flatnonzero(at < self.days)
        if len(years) == 0:
            return False
        first = next_at[years].argmin(axis=1)
        failing = self.fails[years, first] < self.due[years, first]
        alone = ~failing & (self.energy[first] == IN_PRODUCTION)
        for task in numpy.unique(first[failing]):
            those = years[failing & (first == task)]
            self.sums["failures"][those] += 1
            self.sums["cost"][those] += FAILED_COST + FAILED_HOURS * STANDING
            self.begin_anew(those, task, at[those])
        for task in numpy.unique(first[alone]):
            those = years[alone & (first == task)]
            self.do_work(those, task, at[those])
        stopping = years[~failing & ~alone]
        if len(stopping):
            self.stop(stopping, at)
        return True

    def stop(self, years, at):
        now = numpy.stack([self.total_at(years, c, at[years]) for c in range(self.counters)], axis=1)
        is_near = now[:, self.counter] >= self.targets[years] - self.heads_up
        is_due = self.due[years] <= at[years][:, None]
        joins = is_due.copy()
        for i, owner in enumerate(self.owner):
            joins[:, owner] |= is_near[:, i]
        is_isolated = (is_due & (self.energy == ISOLATED)).any(axis=1)
        joins &= (self.energy != IN_PRODUCTION) & ((self.energy != ISOLATED) | is_isolated[:, None])
        state = numpy.where(is_isolated, ISOLATED, AT_REST)
        hours = joins @ self.hours + numpy.array(SET_UP_HOURS)[state]
        self.sums["stops"][years] += 1
        self.sums["cost"][years] += numpy.array(SET_UP_COST)[state] + hours * STANDING
        for task in numpy.flatnonzero(joins.any(axis=0)):
            those = years[joins[:, task]]
            self.do_work(those, task, at[those])


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        shop = json.load(file)
    random = numpy.random.default_rng(1)
    began = time.process_time()
    sums = None
    for _ in range(shop["machines"]):
        machine = Machine(shop, random)
        while machine.step():
            pass
        sums = machine.sums if sums is None else {name: sums[name] + machine.sums[name] for name in sums}
    seconds = time.process_time() - began
    told = {name: [float(value.mean()), float(value.std(ddof=1) / YEARS**0.5)] for name, value in sums.items()}
    print(json.dumps({"numpy": numpy.__version__, "years": YEARS, "seconds": seconds, **told}))


if __name__ == "__main__":
    main()
