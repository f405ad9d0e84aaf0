"""The demand of the same parts, day by day, with numpy.   usage: kits_numpy.py PARTS.json    prints one JSON object"""

import json
import sys
import time

import numpy

CELLS = 64  # more than any of these parts needs; what is beyond lies in the last


def at_least(need, days):
    """P(the k-th time is on day d or before) for k = 1, 2, ..."""
    first = numpy.zeros(days)
    for day, chance in need["due"]:
        first[max(day, 0):] = chance
    rows, shift, cycle = [first], 0, max(round(need["cycle"]), 1)
    while shift + cycle < days:
        shift += cycle
        rows.append(numpy.concatenate([numpy.zeros(shift), first[:days - shift]]))
    return numpy.array(rows)


def convolved(total, times, quantity):
    """total[d, n] with times[k, d] = P(k times by day d) of that quantity each."""
    summed = numpy.zeros_like(total)
    for k, chances in enumerate(times):
        by = int(k * quantity)
        if by >= CELLS or not chances.any():
            continue
        summed[:, by:] += total[:, :CELLS - by] * chances[:, None]
        summed[:, -1] += total[:, CELLS - by:].sum(axis=1) * chances
    return summed


def poisson(rate, days):
    means = rate * numpy.arange(1, days + 1)
    rows = [numpy.exp(-means)]
    for k in range(1, 30):
        rows.append(rows[-1] * means / k)
    return numpy.array(rows)


def below_of(part, days):
    taken = numpy.zeros(days, dtype=int)
    for day, quantity in part["certain"]:
        taken[max(day, 0):] += int(quantity)
    total = numpy.zeros((days, CELLS))
    total[numpy.arange(days), taken] = 1
    for need in part["expected"]:
        rows = at_least(need, days)
        ends = numpy.vstack([numpy.ones(days), rows, numpy.zeros(days)])
        total = convolved(total, ends[:-1] - ends[1:], need["quantity"])
    return convolved(total, poisson(part["rate"], days), 1).cumsum(axis=1)


def main():
    with open(sys.argv[1]) as file:
        given = json.load(file)
    best, met = 1e300, 0.0
    for _ in range(3):
        begin = time.process_time()
        met = sum(below_of(part, given["days"])[:, int(part["on_hand"])].sum() for part in given["parts"])
        best = min(best, time.process_time() - begin)
    print(json.dumps({"numpy": numpy.__version__, "parts": len(given["parts"]), "seconds": best, "met": met}))


if __name__ == "__main__":
    main()
