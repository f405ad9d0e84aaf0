"""Lists of what broke a rule before the rule was there. They may only get shorter.

The first line of a list says since when it holds. A list that begins anew (because the rule itself was made stricter) gets
a new date there, so that everybody sees it in the change.
"""

import subprocess
from pathlib import Path

FOLDER = Path(__file__).resolve().parent / "ratchets"


def entries_of(text: str) -> list[str]:
    lines = (line.split("#")[0].strip() for line in text.splitlines())
    return [line for line in lines if line]


def read(name: str) -> list[str]:
    return entries_of((FOLDER / name).read_text())


def read_with_lines(name: str) -> dict[str, int]:
    """Entries that end with a number of lines: "path name lines"."""
    return {entry.rpartition(" ")[0]: int(entry.rpartition(" ")[2]) for entry in read(name)}


def _git(*words: str) -> str:
    return subprocess.run(["git", *words], cwd=FOLDER, capture_output=True, text=True, check=True).stdout


def committed_before(name: str) -> str | None:
    """The last committed text of the list that differs from the present one."""
    now = (FOLDER / name).read_text()
    for commit in _git("log", "--format=%H", "--", name).split():
        shown = subprocess.run(["git", "show", f"{commit}:./{name}"], cwd=FOLDER, capture_output=True, text=True)
        if shown.returncode == 0 and shown.stdout != now:
            return shown.stdout
    return None


def grown(before: str, now: str) -> list[str]:
    """The entries of `now` that `before` did not have, or had with a smaller number at the end. None are new where the
    list begins anew."""
    if before.split("\n")[0] != now.split("\n")[0]:
        return []

    def split(text: str) -> dict[str, int]:
        out = {}
        for entry in entries_of(text):
            key, _, number = entry.rpartition(" ")
            out[key if number.isdigit() else entry] = int(number) if number.isdigit() else 0
        return out

    old = split(before)
    return [key for key, number in split(now).items() if key not in old or number > old[key]]
