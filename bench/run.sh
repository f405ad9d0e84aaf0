#!/bin/sh
# Measures how fast hours are counted, due days forecast, stops planned, lives fitted, orders proposed, years rehearsed, the Floor answered and rows stored,
# and writes docs/performance.md.
#   run.sh FOLDER [MILLIONS]     where the programs of bench/CMakeLists.txt lie; millions of observations, default 10
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
programs=$1
millions=${2:-10}
results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
cut -d' ' -f1 /proc/loadavg >"$results/load"
echo "counting $millions million observations ..."
"$programs/hours_bench" "$root/tests/recordings/day" "$millions" >"$results/hours.json"
echo "the same with pandas ..."
/usr/bin/python3 "$root/bench/hours/hours_pandas.py" "$root/tests/recordings/day" "$millions" >"$results/pandas.json"
echo "forecasting due days ..."
"$programs/due_bench" >"$results/due.json"
"$programs/due_bench" --models >"$results/models.jsonl"
echo "the same with numpy ..."
/usr/bin/python3 "$root/bench/due/due_numpy.py" "$results/models.jsonl" >"$results/due_numpy.json"
echo "planning stops ..."
for machines in 1 50; do
    /usr/bin/python3 -B "$root/tests/plan/gen_plan.py" --machines $machines --seed 201 -o "$results/instance-$machines.json"
    "$programs/plan_bench" "$results/instance-$machines.json" >"$results/plan-$machines.json"
done
echo "the smaller one as one program with CBC ..."
/usr/bin/python3 -B "$root/bench/plan/cbc_peer.py" "$results/instance-1.json" >"$results/cbc.json"
echo "fitting lives ..."
"$programs/life_bench" >"$results/life.json"
"$programs/life_bench" --lives >"$results/lives.csv"
echo "the same with survreg ..."
Rscript "$root/bench/life/life_survreg.R" "$results/lives.csv" >"$results/survreg.json"
echo "proposing orders ..."
"$programs/kits_bench" >"$results/kits.json"
"$programs/kits_bench" --parts >"$results/parts.json"
echo "the same demand with numpy ..."
/usr/bin/python3 "$root/bench/kits/kits_numpy.py" "$results/parts.json" >"$results/kits_numpy.json"
echo "rehearsing years ..."
"$programs/rehearsal_bench" >"$results/rehearsal.json"
"$programs/rehearsal_bench" --shop >"$results/shop.json"
echo "the same with numpy ..."
/usr/bin/python3 "$root/bench/rehearsal/rehearsal_numpy.py" "$results/shop.json" >"$results/rehearsal_numpy.json"
echo "answering the Floor ..."
"$programs/floor_bench" "$results" >"$results/floor.json"
echo "answering a group's Floor ..."
"$programs/group_bench" "$results" >"$results/group.json"
echo "counting messages over MQTT ..."
"$programs/mqtt_bench" >"$results/mqtt.json"
echo "storing many rows ..."
"$programs/bulk_bench" "$results" >"$results/bulk.json"
/usr/bin/python3 "$root/bench/write_performance.py" "$results" >"$root/docs/performance.md"
cat "$root/docs/performance.md"
