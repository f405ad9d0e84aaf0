"""How tests are named and how they wait, and that there are any."""

import re

from code_text import code_only, line_of
from tree import CPP, Tree
from violation import Violation

_TEST = re.compile(r"^[ \t]*(?:TEST|TEST_F|TEST_P|TYPED_TEST|RC_GTEST_PROP|RC_GTEST_FIXTURE_PROP)\s*\(\s*(\w+)\s*,\s*(\w+)",
                   re.MULTILINE)
_SUBJECT = re.compile(r"[A-Z][A-Za-z0-9]*")
_SENTENCE = re.compile(r"(?:[A-Z0-9][A-Za-z0-9]*)(?:_[A-Za-z0-9]+)*")
_SLEEP = re.compile(r"\b(?:sleep_for|sleep_until|usleep|nanosleep|waitForTimeout)\s*\(|\bsleep\s*\(")


def named_as_sentences(tree: Tree) -> list[Violation]:
    found = []
    for path in tree.paths(ends=CPP):
        text = code_only(tree.texts[path], path)
        for test in _TEST.finditer(text):
            subject, name = test.groups()
            words = len(re.findall(r"[A-Z][a-z]|_[A-Za-z0-9]|[A-Z]+(?![a-z])", name))
            if not _SUBJECT.fullmatch(subject) or not _SENTENCE.fullmatch(name) or words < 2:
                found.append(Violation(path, line_of(text, test.start(1)), f"{subject}, {name}: a subject, then a "
                                       "sentence in camel case: TEST(Counters, LowerReadingIsKeptAndFlagged)"))
    return found


def wait_for_something(tree: Tree) -> list[Violation]:
    """Tests wait for a condition, never for time."""
    found = []
    for path in tree.paths(ends=CPP + (".ts", ".mjs", ".js")):
        if not (path.startswith("tests/") or re.search(r"[_.]test\.\w+$", path)):
            continue
        text = code_only(tree.texts[path], path)
        found += [Violation(path, line_of(text, at.start()), "a test waits for a condition (with a deadline), not for "
                            "time to pass") for at in _SLEEP.finditer(text)]
    return found


def _headers_of(tree: Tree, path: str) -> list[str]:
    """Where the file's functions are declared: its own header, else the headers of its folder that it includes."""
    own = path.removesuffix(".cpp") + ".h"
    if own in tree.texts:
        return [own]
    folder = path.rpartition("/")[0]
    return re.findall(rf'#include "({re.escape(folder)}/[^"/]+\.h)"', tree.texts[path])


def _is_called_by_a_test(tree: Tree, path: str) -> bool:
    """Whether some test of the same folder, or of tests/, includes the header that declares the file's functions."""
    folder = path.rpartition("/")[0]
    wanted = [f'#include "{header}"' for header in _headers_of(tree, path)]
    tests = [*tree.paths(f"{folder}/", ("_test.cpp",)), *tree.paths("tests/", CPP)]
    return any(line in tree.texts[test] for test in tests for line in wanted)


def beside_the_code(tree: Tree, ratchet: list[str]) -> list[Violation]:
    """A file's test lies in its folder: under its name, or under that of what it is a part of; or in tests/, where it
    crosses modules."""
    found, needless = [], set(ratchet)
    for path in tree.paths(ends=(".cpp",)):
        if not path.startswith(("libs/", "src/")) or path.endswith("_test.cpp") or path == "src/main.cpp":
            continue
        test = path.removesuffix(".cpp") + "_test.cpp"
        if test not in tree.texts and not _is_called_by_a_test(tree, path):
            needless.discard(path)
            if path not in ratchet:
                found.append(Violation(path, 1, f"no test includes the header that declares it: write {test}"))
    found += [Violation("tests/contract/ratchets/untested_files.txt", 1, f'"{path}" has its test or is gone: take the '
                        "line out") for path in sorted(needless)]
    return found


def nothing_left_for_later(tree: Tree) -> list[Violation]:
    later = re.compile(r"\b(?:TO" r"DO|FIX" r"ME|XX" r"X)\b")
    return [Violation(path, number, "do it now or write it down as work to come; the code says what is")
            for path in tree.paths() if not path.endswith("package-lock.json")
            for number, line in enumerate(tree.lines(path), 1) if later.search(line)]
