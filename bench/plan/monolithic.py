#!/usr/bin/env python3
"""An instance (hourwright-stops-1) as one mixed integer program in CPLEX LP format, for any solver.

usage: monolithic.py INSTANCE[.gz] MODEL.lp [--relaxed]

What is decided: y[m,slot,state] a stop; x[t,slot] an execution; a[t,d,e] that execution on day e follows one on day d
(f: the first, l: the last, n: never); o[crew,slot] overtime. --relaxed leaves out that they are whole.
"""
import json
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "tests" / "plan"))
from check_plan import cycle_cost, end_cost, load  # noqa: E402  (what a cycle costs, by the judge's own definition)


class Program:
    def __init__(self, instance):
        self.instance, self.days, self.shifts = instance, instance["days"], len(instance["shifts"])
        self.costs, self.rows, self.whole, self.caps = [], [], [], []
        self.constant = 0.0
        self.crew_use, self.cell_use = {}, {}
        for number, machine in enumerate(instance["machines"]):
            self.add_machine(number, machine)
        self.add_crews()
        self.add_cells()

    def cost(self, name, amount):
        if amount:
            self.costs.append(f"{amount:+.9g} {name}")

    def row(self, terms, sense, right):
        if terms:
            self.rows.append(f"{' '.join(terms)} {sense} {right:.9g}")

    def slots(self):
        return ((day, shift) for day in range(self.days) for shift in range(self.shifts))

    def add_machine(self, number, machine):
        loads = {}
        for at, task in enumerate(machine["tasks"]):
            self.add_task(f"{number}_{at}", task, machine, loads)
        for (day, shift), (stopped, locked, hours) in loads.items():
            self.add_stop(number, machine, day, shift, stopped, locked, hours)

    def add_stop(self, number, machine, day, shift, stopped, locked, hours):
        loss = machine["loss_per_hour"][day % 7][shift]
        names = {}
        for state in ("stopped", "locked"):
            names[state] = f"y{state[0]}{number}_{day}_{shift}"
            self.whole.append(names[state])
            what = machine["stop"][state]
            self.cost(names[state], what["cost"] + what["hours"] * loss)
        for name in stopped:
            self.row([f"+1 {name}", f"-1 {names['stopped']}", f"-1 {names['locked']}"], "<=", 0)
        for name in locked:
            self.row([f"+1 {name}", f"-1 {names['locked']}"], "<=", 0)
        room = self.instance["shifts"][shift]["hours"]
        self.row([f"{h:+.9g} {n}" for n, h in hours] +
                 [f"{machine['stop'][s]['hours'] - room:+.9g} {names[s]}" for s in names], "<=", 0)
        self.row([f"+1 {n}" for n in names.values()], "<=", 1)
        self.cell_use.setdefault((machine["cell"], day, shift), []).extend(names.values())

    def may(self, task, machine, day, shift):
        if task["state"] == "running":
            return machine["loss_per_hour"][day % 7][shift] > 0
        return not any(a <= day <= b for a, b in machine["blackouts"])

    def add_task(self, key, task, machine, loads):
        crew = next(c for c in self.instance["crews"] if c["id"] == task["crew"])
        at_day = {}
        for day, shift in self.slots():
            if not self.may(task, machine, day, shift):
                continue
            name = f"x{key}_{day}_{shift}"
            at_day.setdefault(day, []).append(name)
            self.whole.append(name)
            loss = 0 if task["state"] == "running" else machine["loss_per_hour"][day % 7][shift] * task["down_hours"]
            self.cost(name, task["labour_hours"] * crew["premium_per_hour"][day % 7][shift] + loss)
            self.crew_use.setdefault((task["crew"], day, shift), []).append((name, task["labour_hours"]))
            if task["state"] != "running":
                stopped, locked, hours = loads.setdefault((day, shift), ([], [], []))
                (locked if task["state"] == "locked" else stopped).append(name)
                hours.append((name, task["down_hours"]))
        self.add_route(key, task, at_day)

    def add_route(self, key, task, at_day):
        days, age = self.days, task["age_days"]
        lengths = [age + first for first in task["first_due_days"]]
        latest = days if task["first_latest_day"] is None else task["first_latest_day"]
        into, out, start = {d: [] for d in at_day}, {d: [] for d in at_day}, []

        def arc(name, amount):
            self.cost(name, amount)
            self.caps.append(name)
            return f"+1 {name}"

        for day in at_day:
            if task["first_earliest_day"] <= day <= latest:
                into[day].append(arc(f"f{key}_{day}", cycle_cost(task, age + day, lengths)))
                start.append(into[day][-1])
            if day + task["max_gap_days"] >= days:
                out[day].append(arc(f"l{key}_{day}", end_cost(task, days - day, task["cycle_days"])))
            for gap in range(max(1, task["min_gap_days"]), task["max_gap_days"] + 1):
                if day + gap in at_day:
                    term = arc(f"a{key}_{day}_{day + gap}", cycle_cost(task, gap, task["cycle_days"]))
                    out[day].append(term)
                    into[day + gap].append(term)
        if latest >= days:
            start.append(arc(f"n{key}", end_cost(task, age + days, lengths)))
        self.row(start, "=", 1)
        for day, names in at_day.items():
            executions = [f"-1 {name}" for name in names]
            self.row(into[day] + executions, "=", 0)
            self.row(out[day] + executions, "=", 0)

    def add_crews(self):
        crews = {crew["id"]: crew for crew in self.instance["crews"]}
        for (crew_id, day, shift), uses in self.crew_use.items():
            crew = crews[crew_id]
            off = day in crew["days_off"]
            name = f"o{list(crews).index(crew_id)}_{day}_{shift}"
            self.cost(name, crew["overtime_cost_per_hour"])
            hours = 0 if off else crew["hours"][day % 7][shift]
            self.row([f"{h:+.9g} {n}" for n, h in uses if h] + [f"-1 {name}"], "<=", hours)
            self.row([f"+1 {name}"], "<=", 0 if off else crew["overtime_hours"][day % 7][shift])

    def add_cells(self):
        cells = {cell["id"]: cell for cell in self.instance["cells"]}
        for (cell, day, shift), names in self.cell_use.items():
            self.row([f"+1 {name}" for name in names], "<=", cells[cell]["max_down"][day % 7][shift])

    def write(self, file, relaxed):
        file.write("Minimize\n obj:\n" + "\n".join(self.costs) + "\nSubject To\n")
        for number, row in enumerate(self.rows):
            file.write(f" r{number}: {row}\n")
        file.write("Bounds\n")
        if relaxed:
            file.writelines(f" 0 <= {name} <= 1\n" for name in self.whole)
        file.write("" if relaxed else "Binaries\n" + "\n".join(f" {n}" for n in self.whole) + "\n")
        file.write("End\n")


if __name__ == "__main__":
    program = Program(load(sys.argv[1]))
    with open(sys.argv[2], "w", encoding="ascii") as target:
        program.write(target, "--relaxed" in sys.argv)
    print(json.dumps({"columns": len(program.whole) + len(program.caps), "rows": len(program.rows)}))
