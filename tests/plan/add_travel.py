#!/usr/bin/env python3
"""Gives an instance shops to which its service crews travel.   usage: add_travel.py INSTANCE[.gz] SHOPS COST HOURS -o OUT

The machines are shared out among the shops in order. Each crew "...-service" comes to a shop for COST and HOURS a visit,
and has so many hours more in every shift in which it works, so that a visit a shift leaves it the hours that it had.
Std library only.
"""
import argparse
import gzip
import json


def load(path):
    with (gzip.open(path, "rt") if path.endswith(".gz") else open(path)) as file:
        return json.load(file)


def add_travel(instance, shops, cost, hours):
    machines = instance["machines"]
    for i, machine in enumerate(machines):
        machine["place"] = f"shop-{i * shops // len(machines) + 1}"
    for crew in instance["crews"]:
        if not crew["id"].endswith("-service"):
            continue
        crew["hours"] = [[there + hours if there > 0 else 0 for there in row] for row in crew["hours"]]
        crew["travel"] = [{"place": f"shop-{i + 1}", "cost": cost, "hours": hours} for i in range(shops)]
    instance["name"] += "-travel"
    return instance


if __name__ == "__main__":
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("instance")
    ask.add_argument("shops", type=int)
    ask.add_argument("cost", type=float)
    ask.add_argument("hours", type=float)
    ask.add_argument("-o", "--out", required=True)
    call = ask.parse_args()
    with (gzip.open(call.out, "wt") if call.out.endswith(".gz") else open(call.out, "w")) as out:
        json.dump(add_travel(load(call.instance), call.shops, call.cost, call.hours), out)
