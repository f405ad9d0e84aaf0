"""write_performance.py RESULTS > docs/performance.md: the table of what bench/run.sh has measured."""

import datetime
import json
import os
import pathlib
import platform
import sys

COUNTERS = ["operating", "spindle", "feeding", "axis", "cutting"]


def processor():
    for line in pathlib.Path("/proc/cpuinfo").read_text().splitlines():
        if line.startswith("model name"):
            return line.partition(":")[2].strip()
    return platform.machine()


def memory_gib():
    kib = int(pathlib.Path("/proc/meminfo").read_text().split()[1])
    return round(kib / 2**20)


def check_same(hours, pandas):
    """Faster at another result would be no comparison."""
    for name in COUNTERS:
        if abs(hours[name] - pandas[name]) > 1e-3:
            sys.exit(f"{name}: {hours[name]} s here, {pandas[name]} s with pandas")


def rows(hours, pandas):
    count, in_texts = hours["observations"], hours["days"] * hours["per_day"]
    per_second = count / hours["run_s"]
    shdr, scan = hours["shdr_bytes"] / hours["shdr_s"], hours["shdr_bytes"] / hours["memchr_s"]
    xml, expat = hours["xml_bytes"] / hours["xml_s"], hours["xml_bytes"] / hours["expat_s"]
    faster = pandas["run_s"] / pandas["observations"] / (hours["run_s"] / count)
    faster_text = pandas["text_s"] / pandas["text_observations"] / (hours["shdr_s"] / in_texts)
    return [
        ("in memory, a whole run", f"{per_second / 1e6:.1f} M/s", "20 M/s", ""),
        ("in memory, the engine alone", f"{count / hours['engine_s'] / 1e6:.1f} M/s", "", ""),
        ("in memory, pandas " + pandas["pandas"], f"{pandas['observations'] / pandas['run_s'] / 1e6:.2f} M/s", "",
         f"after one mask, which leaves it a tenth of the rows; ours is {faster:.1f} times as fast"),
        ("from SHDR", f"{in_texts / hours['shdr_s'] / 1e6:.1f} M/s, {shdr / 1e6:.0f} MB/s", "25 % of the scan",
         f"{shdr / scan:.0%} of the scan"),
        ("from SHDR, pandas " + pandas["pandas"],
         f"{pandas['text_observations'] / pandas['text_s'] / 1e6:.2f} M/s", "",
         f"ours is {faster_text:.0f} times as fast (aim: 50)"),
        ("memchr for line ends, the same bytes", f"{scan / 1e6:.0f} MB/s", "", "physical limit"),
        ("from Streams documents", f"{in_texts / hours['xml_s'] / 1e6:.1f} M/s, {xml / 1e6:.0f} MB/s",
         "60 % of expat", f"{xml / expat:.0%} of expat"),
        ("expat with empty handlers, the same bytes", f"{expat / 1e6:.0f} MB/s", "", "physical limit"),
    ]


def print_due(due, numpy):
    per_second = due["asked"] / due["ask_s"]
    simulated = numpy["tasks"] / numpy["seconds"]
    read = due["asked"] / due["read_s"]
    print("\n# How fast due days are forecast\n")
    print("One thread, its processor time, the best of five runs; seven quantiles a task. Histories of 60 to 800 days of all kinds\n"
          "(tests/due/use_regimes.h). numpy draws 1,000 paths of 730 days a machine of its heaviest hypothesis and asks them for 40 tasks.\n")
    print("| what | task forecasts | aim | |\n| --- | --- | --- | --- |")
    print(f"| from prepared histories | {per_second / 1e6:.2f} M/s | 0.1 M/s | {per_second / simulated:,.0f} times numpy |")
    print(f"| simulated, numpy {numpy['numpy']} | {simulated:,.0f} /s | | 1,000 paths |")
    print(f"| merely reading the amounts and the counters | {read / 1e6:.0f} M/s | | physical limit |")
    print(f"| {due['machines']} machines with {due['tasks'] // due['machines']} tasks each, from their histories | "
          f"{due['cold_s']:.3f} s | 0.2 s | {due['cold_s'] / due['machines'] * 1e3:.2f} ms a machine |")


def print_plan(plans, cbc):
    one, many = plans
    print("\n# How fast stops are planned\n")
    print(f"One thread, its processor time; instances of tests/plan/gen_plan.py, seed 201, {one['days']} days. Bound and plan each by itself: the bound of 4 s is\n"
          "what 4 s of ascent prove, the plan of 4 s is made from nothing with 4 s of planned work. Methods and larger sizes: [methods/plan.md](methods/plan.md).\n")
    stations = one["stations"]
    print("| what | " + " | ".join(f"{s:g} s" for s in stations) + " |\n| --- |" + " --- |" * len(stations))
    for plan in plans:
        name = f"{plan['machines']} machine{'s' if plan['machines'] > 1 else ''}"
        print(f"| {name}, bound | " + " | ".join(f"{x:,.0f}" for x in plan["bounds"]) + " |")
        print(f"| {name}, plan | " + " | ".join(f"{x:,.0f}" for x in plan["costs"]) + " |")
        print(f"| {name}, gap | " + " | ".join(f"{1 - b / c:.1%}" for b, c in zip(plan["bounds"], plan["costs"])) + " |")
    text = lambda x: "none" if x is None else f"{x:,.0f}"
    print(f"\nCBC on the one machine as one mixed integer program: plan {text(cbc['cost'])}, bound {text(cbc['bound'])} in {cbc['seconds']:.0f} s. "
          f"Ours is {cbc['seconds'] / one['plan_seconds'][0]:.1f} times as fast with a plan\n"
          f"{one['costs'][0] / cbc['cost'] - 1:.1%} dearer after {one['plan_seconds'][0]:.1f} s." if cbc["cost"] else
          f"\nCBC found no plan for the one machine in {cbc['seconds']:.0f} s.")
    print(f"The estimate of one stop, as while it is dragged, takes {many['estimate_us']:.0f} us on {many['machines']} machines (aim: within 100 ms).")


def print_life(life, survreg):
    if abs(life["mean_shape"] / survreg["mean_shape"] - 1) > 1e-5:
        sys.exit(f"mean shape: {life['mean_shape']} here, {survreg['mean_shape']} with survreg")
    per_second = life["fits"] / life["fit_s"]
    theirs = survreg["fits"] / survreg["seconds"]
    print("\n# How fast lives are fitted\n")
    print("Weibull fits of 50 lives each, about a third of them taken out good; one thread, its processor time, the best of five runs (survreg:\n"
          f"of three). survreg fits the first {life['compared']} of the same samples; the mean shapes agree.\n")
    print("| what | fits | aim | |\n| --- | --- | --- | --- |")
    print(f"| shape and scale with their errors | {per_second:,.0f} /s | 10,000 /s | {per_second / theirs:,.0f} times survreg |")
    print(f"| with likelihood-ratio intervals for shape, scale and B10 | {life['bounded'] / life['bound_s']:,.0f} /s | | |")
    print(f"| survreg (survival {survreg['survival']}) | {theirs:,.0f} /s | | |")
    print(f"| merely taking the logarithm of every age | {life['fits'] / life['log_s']:,.0f} /s | | physical limit |")


def print_kits(kits, numpy):
    if abs(kits["met"] / numpy["met"] - 1) > 1e-9:
        sys.exit(f"days met: {kits['met']} here, {numpy['met']} with numpy")
    per_second, theirs = kits["parts"] / kits["demand_s"], numpy["parts"] / numpy["seconds"]
    print("\n# How fast orders are proposed\n")
    print(f"A shop of 200 machines: {kits['parts']:,} parts of 50 suppliers with {kits['needs']:,} needs (agreed stops, due days with a cycle, failures), {kits['days']} days ahead. One thread, its\n"
          f"processor time, the best of five runs (numpy: of three). numpy sums the demand of the first {kits['compared']} parts; the chances that their stock is enough agree to 1e-9.\n")
    print("| what | parts | aim | |\n| --- | --- | --- | --- |")
    print(f"| all orders with quantities, last days, chances, costs and reasons: {kits['propose_s']:.2f} s | {kits['parts'] / kits['propose_s']:,.0f} /s | 1 s | {kits['lines']:,} lines |")
    print(f"| the demand by day alone | {per_second:,.0f} /s | | {per_second / theirs:,.0f} times numpy |")
    print(f"| the demand by day, numpy {numpy['numpy']} | {theirs:,.0f} /s | | |")
    print(f"| merely reading the due days | {kits['parts'] / kits['read_s']:,.0f} /s | | physical limit |")


def print_rehearsal(ours, numpy):
    for name in ("failures", "stops", "tasks_done", "cost"):
        (a, a_error), (b, b_error) = ours[name], numpy[name]
        if abs(a - b) > 4 * (a_error**2 + b_error**2) ** 0.5:
            sys.exit(f"{name}: {a} +- {a_error} here, {b} +- {b_error} with numpy")
    per_second, theirs = ours["years"] / ours["seconds"], numpy["years"] / numpy["seconds"]
    print("\n# How fast years are rehearsed\n")
    print(f"A shop of {ours['machines']} machines with {ours['tasks']} tasks each on five counters and the calendar, 12 of them with a part that can fail: {ours['tasks_done'][0]:,.0f} tasks done,\n"
          f"{ours['stops'][0]:,.0f} stops and {ours['failures'][0]:,.0f} failures a year. One thread, its processor time, the best of five runs. numpy plays {numpy['years']} years of a machine at once; "
          "failures,\nstops, tasks and cost agree within four standard errors.\n")
    print("| what | shop-years | aim | |\n| --- | --- | --- | --- |")
    print(f"| rehearsed | {per_second:,.0f} /s | 1,000 /s | {per_second / theirs:,.0f} times numpy |")
    print(f"| numpy {numpy['numpy']} | {theirs:,.1f} /s | | |")


def print_floor(floor):
    print("\n# How fast the Floor is answered\n")
    print(f"`GET /api/floor` ({floor['bytes'] / 1000:,.0f} KB) of a server with {floor['machines']} machines and {floor['tasks']:,} tasks, fed meanwhile by 20 simulated agents in full work; the agents, who asks\n"
          "and the peer run on the same processors. Waits count from when an answer was due, at a fixed rate on 16 connections. The peer is a process with nothing\n"
          "but Boost.Beast, which sends the same bytes from memory; 8 connections ask each in turn, five times; the median.\n")
    print("| what | measured | aim | |\n| --- | --- | --- | --- |")
    print(f"| 99 % of the answers at {floor['rate']} a second within | {floor['p99_ms']:.1f} ms | 20 ms | half within {floor['p50_ms']:.2f} ms, all within {floor['max_ms']:.0f} ms |")
    print(f"| as fast as they come | {floor['most']:,.0f} /s | 40 % of the peer | {floor['ratio']:.0%} of the peer |")
    print(f"| bare Beast | {floor['bare_most']:,.0f} /s | | |")
    print(f"| from start to the first answer | {floor['start_s']:.2f} s | 1 s | |")
    print(f"| most memory in use | {floor['memory_mib']:.0f} MiB | 150 MiB | |")


def print_group(group):
    print("\n# How fast a group's Floor is answered, and how soon a server is replaced\n")
    print(f"{group['plants']} plants with {group['machines']:,} machines and {group['tasks']:,} tasks on a private PostgreSQL (which syncs nothing to disk) and two servers, all on the same processors.\n"
          f"`GET /api/group/floor` is {group['bytes'] / 1000:,.0f} KB. `bench/group/group_bench.cpp`.\n")
    print("| | measured | aim | beside it |")
    print("| --- | --- | --- | --- |")
    print(f"| 99 % of the answers at {group['rate']} a second within | {group['p99_ms']:.1f} ms | 100 ms | half within {group['p50_ms']:.2f} ms, all within {group['max_ms']:.0f} ms |")
    print(f"| as fast as they come | {group['most']:,.0f} /s | | {group['most'] / group['bare_most']:.0%} of the peer |")
    print(f"| bare Beast, the same bytes | {group['bare_most']:,.0f} /s | | |")
    print(f"| a server is killed: the first of its {(group['plants'] + 1) // 2} plants is taken after | {group['first_s']:.1f} s | 10 s | a sign is good for 6 s |")
    print(f"| all of them are open at the other after | {group['all_s']:.1f} s | 10 s | |")
    print(f"| from start to all {group['plants'] + 1} plants open | {group['open_s']:.1f} s | | |")
    print(f"| most memory of a server with all plants | {group['memory_mib']:.0f} MiB | | |")


def print_mqtt(mqtt):
    print("\n# How many messages over MQTT are counted\n")
    print(f"{mqtt['messages']:,} plain messages of {mqtt['machines']:,} machines with {mqtt['observations_each']} observations each, from a private mosquitto on the same processors as publisher and\n"
          "subscriber: read, put in sequence and counted. The peer is a bare Paho subscriber that only counts bytes. Each in turn, three times; the median.\n")
    print("| what | messages | observations | subscriber, CPU | broker, CPU |\n| --- | --- | --- | --- | --- |")
    for name, one in (("counted", mqtt["ours"]), ("bare Paho", mqtt["bare"])):
        print(f"| {name} | {one['messages_per_s']:,.0f} /s | {one['observations_per_s']:,.0f} /s | {one['cpu_s']:.2f} s | {one['broker_cpu_s']:.2f} s |")


def print_bulk(bulk):
    print("\n# How fast counters' days are stored in PostgreSQL\n")
    print(f"{bulk['rows']:,.0f} days of counters, each a row of eight values with its key and its machine's; PostgreSQL on this computer, by a socket, without syncing, the same for all of them; the median of\n"
          "five turns. The store copies into a temporary table and inserts from there, since COPY goes into no table whose rows are kept apart by row-level security; psql copies straight into the table, as\n"
          "a superuser. Both left the same sums.\n")
    print("| what | rows | aim | |\n| --- | --- | --- | --- |")
    print(f"| stored by COPY | {bulk['copy_per_s']:,.0f} /s | 100,000 /s | {bulk['copy_per_s'] / bulk['psql_per_s']:.0%} of psql |")
    print(f"| the same again, in the place of those | {bulk['replacing_per_s']:,.0f} /s | | |")
    print(f"| psql's `\\copy` | {bulk['psql_per_s']:,.0f} /s | | |")
    print(f"| one prepared insert for each row | {bulk['single_per_s']:,.0f} /s | | |")
    print(f"| in SQLite | {bulk['sqlite_per_s']:,.0f} /s | | |")
    print(f"\nA step of {bulk['small_step_rows']} rows takes {bulk['small_step_ms']:.1f} ms, by inserts {bulk['small_step_single_ms']:.1f} ms.")


def main():
    results = pathlib.Path(sys.argv[1])
    hours = json.loads((results / "hours.json").read_text())
    pandas = json.loads((results / "pandas.json").read_text())
    check_same(hours, pandas)
    print("# How fast hours are counted\n")
    print("Written by `make bench`. The day of tests/recordings/day, repeated; one thread, its processor time, the best of three runs;")
    print("texts lie in memory. All seven counters and every item's own are counted; pandas counts five.\n")
    load = (results / "load").read_text().strip()
    print(f"{processor()}, {os.cpu_count()} processors, {memory_gib()} GiB, {platform.system()} {platform.release()}, "
          f"{datetime.date.today()}, load at the beginning {load}; {hours['observations'] / 1e6:.1f} million observations in memory, "
          f"{hours['shdr_bytes'] / 1e6:.0f} MB SHDR, {hours['xml_bytes'] / 1e6:.0f} MB XML.\n")
    print("| what | observations, bytes | aim | |\n| --- | --- | --- | --- |")
    for row in rows(hours, pandas):
        print("| " + " | ".join(row) + " |")
    per_line_ns = hours["shdr_s"] / (hours["days"] * hours["per_day"]) * 1e9
    count_ns = hours["run_s"] / hours["observations"] * 1e9
    scan_ns = hours["memchr_s"] / (hours["days"] * hours["per_day"]) * 1e9
    print(f"\nWhat binds SHDR: a line takes {per_line_ns:.0f} ns, of which finding its end takes {scan_ns:.0f} ns and counting "
          f"{count_ns:.0f} ns; the rest is the fields' ends, the time, the key and the number.")
    print("Both ways counted the same " + ", ".join(COUNTERS) + " to the millisecond.")
    print_due(json.loads((results / "due.json").read_text()), json.loads((results / "due_numpy.json").read_text()))
    print_plan([json.loads((results / f"plan-{machines}.json").read_text()) for machines in (1, 50)],
               json.loads((results / "cbc.json").read_text()))
    print_life(json.loads((results / "life.json").read_text()), json.loads((results / "survreg.json").read_text()))
    print_kits(json.loads((results / "kits.json").read_text()), json.loads((results / "kits_numpy.json").read_text()))
    print_rehearsal(json.loads((results / "rehearsal.json").read_text()),
                    json.loads((results / "rehearsal_numpy.json").read_text()))
    print_floor(json.loads((results / "floor.json").read_text()))
    print_group(json.loads((results / "group.json").read_text()))
    print_mqtt(json.loads((results / "mqtt.json").read_text()))
    print_bulk(json.loads((results / "bulk.json").read_text()))


if __name__ == "__main__":
    main()
