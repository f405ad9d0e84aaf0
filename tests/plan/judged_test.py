#!/usr/bin/env python3
"""Has the program plan instances and check_plan.py judge the plans.   usage: judged_test.py HOURWRIGHT"""
import json
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).resolve().parent
# machines, weeks, seed, hours of crews offered for each one expected
INSTANCES = [(1, 4, 901, 1.3), (4, 12, 902, 1.3), (6, 8, 903, 1.1), (12, 26, 904, 1.5), (30, 12, 905, 1.3)]


def make(folder, machines, weeks, seed, supply):
    path = folder / f"m{machines}-s{seed}.json.gz"
    subprocess.run([sys.executable, "-B", HERE / "gen_plan.py", "--machines", str(machines), "--weeks", str(weeks),
                    "--seed", str(seed), "--supply", str(supply), "-o", path], check=True)
    return path


def with_travel(instance):
    path = instance.with_name("travel-" + instance.name)
    subprocess.run([sys.executable, "-B", HERE / "add_travel.py", instance, "2", "250", "1.5", "-o", path], check=True)
    return path


def judge(instance, plan):
    done = subprocess.run([sys.executable, "-B", HERE / "check_plan.py", instance, plan, "--json"],
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return json.loads(done.stdout)


def plan_and_judge(program, folder, instance):
    plan = folder / "plan.json"
    done = subprocess.run([program, "plan", instance, "--out", plan, "--time", "3", "--json"], capture_output=True,
                          text=True)
    assert done.returncode == 0, done.stderr
    told, judged = json.loads(done.stdout), judge(instance, plan)
    assert abs(told["cost"] - judged["cost"]) < 0.01, (told, judged)
    assert 0 < told["bound"] <= told["cost"]
    rules = {name: cost for name, cost in told["rules"].items() if cost is not None}
    assert all(told["cost"] <= cost for cost in rules.values()), told
    print(instance.name, told)


def end_early(program, folder, how):
    instance, plan = make(folder, 40, 12, 906, 1.3), folder / f"ended-{int(how)}.json"
    running = subprocess.Popen([program, "plan", instance, "--out", plan, "--time", "60"], stdout=subprocess.DEVNULL)
    try:
        running.wait(3)
    except subprocess.TimeoutExpired:
        running.send_signal(how)
    status = running.wait(30)
    if how == signal.SIGKILL:
        assert status == -signal.SIGKILL and not list(folder.glob("ended-9*")), status
    else:
        assert status == 0, status
        judge(instance, plan)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as name:
        for one in INSTANCES:
            plan_and_judge(sys.argv[1], Path(name), make(Path(name), *one))
        plan_and_judge(sys.argv[1], Path(name), with_travel(make(Path(name), 12, 12, 907, 1.3)))
        end_early(sys.argv[1], Path(name), signal.SIGINT)
        end_early(sys.argv[1], Path(name), signal.SIGKILL)
