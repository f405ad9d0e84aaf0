#!/usr/bin/env python3
"""Plans instances of several sizes and, where it is small enough, gives the same instance as one program to CBC and GLPK.

usage: plan_table.py HOURWRIGHT [--seed 31] [--sizes small,medium,large] [--solver-seconds 300]

Prints a table as it stands in docs/methods/plan.md. The solvers' plans are costed by themselves (their objective).
"""
import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
TESTS = HERE.parent.parent / "tests" / "plan"
SIZES = {"one": (1, 10), "three": (3, 10), "small": (10, 10), "medium": (50, 30), "large": (200, 60), "thousand": (1000, 300),
         "five-thousand": (5000, 900)}
SOLVED_BY_SOLVERS = ("one", "three")


def measured(command, limit=None):
    """What it printed, its seconds and its MiB at most."""
    with tempfile.TemporaryFile("w+") as out:
        running = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT, text=True)
        _, _, used = os.wait4(running.pid, 0)
        running.returncode = 0
        out.seek(0)
        return out.read(), used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def plan(program, instance, seconds, folder):
    target = folder / "plan.json"
    printed, _, memory = measured([program, "plan", instance, "--out", target, "--time", str(seconds), "--gap", "0",
                                   "--threads", "2", "--json"])
    told = json.loads(printed)
    subprocess.run([sys.executable, "-B", TESTS / "check_plan.py", instance, target], check=True, capture_output=True)
    return told, memory


def solved_by_cbc(instance, folder, seconds):
    """Its plan's cost, its bound, seconds of the processor and MiB; what it has not found is None."""
    model = folder / "model.lp"
    subprocess.run([sys.executable, "-B", HERE / "monolithic.py", instance, model], check=True, capture_output=True)
    cbc, cpu, memory = measured(["cbc", str(model), "sec", str(seconds), "solve"])
    best = re.search(r"Objective value:\s+([\d.]+)", cbc)
    bound = re.search(r"Lower bound:\s+([\d.]+)", cbc)
    cost = float(best[1]) if best else None
    return cost, float(bound[1]) if bound else cost, cpu, memory


def solver_rows(name, instance, folder, seconds):
    yield row(name, "CBC", *solved_by_cbc(instance, folder, seconds))
    model = folder / "model.lp"
    glpk, cpu, memory = measured(["glpsol", "--lp", str(model), "--tmlim", str(seconds)])
    found = re.findall(r"mip =\s+(\S+) >=\s+(\S+)", glpk)
    pair = [float(x) if re.fullmatch(r"[\d.e+-]+", x) else None for x in found[-1]] if found else [None, None]
    if pair[0] is not None and "INTEGER OPTIMAL SOLUTION FOUND" in glpk:
        pair[1] = pair[0]
    yield row(name, "GLPK", *pair, cpu, memory)


def row(name, how, cost, bound, seconds, memory, best_rule=None):
    text = lambda x: "none" if x is None else f"{x:,.0f}"
    gap = "" if cost is None or bound is None else f"{100 * (cost - bound) / cost:.1f} %"
    saving = "" if best_rule is None else f"{100 * (1 - cost / best_rule):.0f} %"
    return f"| {name} | {how} | {text(cost)} | {text(bound)} | {gap} | {seconds:.0f} | {memory:.0f} | {saving} |"


def main():
    options = argparse.ArgumentParser()
    options.add_argument("program")
    options.add_argument("--seed", type=int, default=31)
    options.add_argument("--sizes", default="one,three,small,medium,large")
    options.add_argument("--solver-seconds", type=int, default=300)
    asked = options.parse_args()
    print("| machines | by | cost | bound | gap | s | MiB | less than the best rule |\n| --- | --- | --- | --- | --- | --- | --- | --- |")
    with tempfile.TemporaryDirectory() as folder:
        for name in asked.sizes.split(","):
            machines, seconds = SIZES[name]
            instance = Path(folder) / "instance.json.gz"
            subprocess.run([sys.executable, "-B", TESTS / "gen_plan.py", "--machines", str(machines), "--seed",
                            str(asked.seed), "-o", instance], check=True)
            told, memory = plan(asked.program, instance, seconds, Path(folder))
            rules = [cost for cost in told["rules"].values() if cost is not None]
            print(row(f"{machines:,}", "hourwright", told["cost"], told["bound"], told["seconds"], memory,
                      min(rules) if rules else None), flush=True)
            if name in SOLVED_BY_SOLVERS:
                for line in solver_rows(f"{machines:,}", instance, Path(folder), asked.solver_seconds):
                    print(line, flush=True)


if __name__ == "__main__":
    main()
