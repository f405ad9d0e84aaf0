"""The same five counters on the same repeated day, as one writes them with pandas. One JSON object on standard output.

hours_pandas.py RECORDINGS [MILLIONS]     like hours_bench

Timed twice: the counting alone, where a frame with all observations lies in memory in order of time, narrowed to the six
items that the counters need by one mask; and from the text of the log.
"""

import csv
import io
import json
import lzma
import sys
import time

import numpy as np
import pandas as pd

# All items of the machine that some counter uses, as hours_bench takes them in.
ITEMS = ["avail", "power", "execution", "Srpm", "S2rpm", "Fact", "Xfrt", "Zfrt", "Cfrt", "Sload", "S1load", "S2load", "Xload",
         "Zload", "Cload", "Xabs", "Zabs", "auto_time", "total_time", "cut_time", "PartCountAct"]
WORDS = {"ACTIVE": 1.0, "AVAILABLE": 1.0, "ON": 1.0}
UNKNOWN = -1.0  # none of the items below is ever negative on this day
DAY_NS = 86_400_000_000_000


def read_text(text):
    """A log to a frame: what pandas' own readers do fastest. Fields behind the third are conditions'."""
    raw = pd.read_csv(io.StringIO(text), sep="|", header=None, names=range(7), usecols=[0, 1, 2], dtype=str,
                      keep_default_na=False, quoting=csv.QUOTE_NONE)
    raw = raw[raw[1].isin(ITEMS)]
    frame = pd.DataFrame({"time": pd.to_datetime(raw[0], utc=True).astype("int64"),
                          "item": pd.Categorical(raw[1], categories=ITEMS).codes})
    unknown = raw[2].str.upper() == "UNAVAILABLE"
    number = pd.to_numeric(raw[2], errors="coerce")
    frame["value"] = number.fillna(raw[2].map(WORDS)).fillna(0.0).mask(unknown, UNKNOWN)
    return frame.reset_index(drop=True)


def repeated(day, count):
    copies = -(-count // len(day))
    frame = pd.concat([day] * copies, ignore_index=True)
    frame["time"] += np.repeat(np.arange(copies) * DAY_NS, len(day))
    return frame


def count_hours(frame):
    used = [ITEMS.index(name) for name in ("execution", "Srpm", "S2rpm", "Fact", "Xfrt", "Zfrt")]
    rows = frame[frame["item"].isin(used)].drop_duplicates(["time", "item"], keep="last")
    wide = rows.pivot(index="time", columns="item", values="value").ffill()
    seconds = np.append(np.diff(wide.index.to_numpy()), frame["time"].iloc[-1] - wide.index[-1])
    execution, spindle1, spindle2, path, axis_x, axis_z = (wide[item] > 0 for item in used)
    spindle, axis = spindle1 | spindle2, path | axis_x | axis_z
    states = {"operating": execution, "spindle": spindle, "feeding": path, "axis": axis,
              "cutting": execution & spindle & path}
    return {name: int(seconds[state.to_numpy()].sum()) / 1e9 for name, state in states.items()}


def best_of(times, run):
    best = None
    for _ in range(times):
        begin = time.process_time()
        result = run()
        took = time.process_time() - begin
        best = took if best is None else min(best, took)
    return best, result


def main():
    folder = sys.argv[1]
    with lzma.open(f"{folder}/lathe-l_2016-05-23.shdr.xz", "rt") as log:
        text = log.read()
    days = [text.replace("2016-05-23T", f"2016-05-{n:02}T") for n in range(1, 9)]
    text_s, _ = best_of(2, lambda: count_hours(read_text("".join(days))))
    day = read_text(text)
    frame = repeated(day, int(float(sys.argv[2] if len(sys.argv) > 2 else 10) * 1e6))
    run_s, counted = best_of(2, lambda: count_hours(frame))
    print(json.dumps({"observations": len(frame), "run_s": run_s, "text_observations": len(day) * len(days),
                      "text_s": text_s, "pandas": pd.__version__, **counted}))


if __name__ == "__main__":
    main()
