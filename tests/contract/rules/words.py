"""Names that say nothing, and names for which the list of words has another one."""

import re
from pathlib import PurePosixPath

from code_text import code_only, line_of, scripts_of_svelte
from tree import CPP, SCRIPT, Tree
from violation import Violation

_EMPTY = {"util", "utils", "common", "helper", "helpers", "manager", "managers", "misc"}
_EMPTY_STEMS = _EMPTY | {"data", "info", "base", "impl"}
# What the trade or an open standard calls otherwise (the list of words of the design); key: words of an identifier.
_ANOTHER_WORD = {
    ("checklist",): "round",
    ("check", "list"): "round",
    ("employee",): "person",
    ("facility",): "plant",
    ("hour", "meter"): "counter",
    ("hourmeter",): "counter",
    ("inventory",): "stores",
    ("pre", "warning"): "heads_up",
    ("prewarning",): "heads_up",
    ("early", "warning"): "heads_up",
    ("spare", "part"): "part",
    ("spare", "parts"): "parts",
    ("warehouse",): "stores",
    ("work", "order"): "stop (the planned time) or job_card (the sheet)",
    ("workorder",): "stop (the planned time) or job_card (the sheet)",
    ("work", "orders"): "stops or job_cards",
    ("workorders",): "stops or job_cards",
}
_IDENTIFIER = re.compile(r"(?<![\w:])(?P<std>std(?:::\w+)*::)?(?P<name>[A-Za-z_]\w*)")
_WORD = re.compile(r"[A-Z]+(?![a-z])|[A-Z]?[a-z]+|\d+")


def words_of(identifier: str) -> list[str]:
    return [word.lower() for word in _WORD.findall(identifier)]


def _identifiers(tree: Tree):
    """Each identifier of our own code once a file, with the line where it first stands."""
    for path in tree.paths(ends=CPP + SCRIPT):
        text = tree.texts[path]
        bare = code_only(scripts_of_svelte(text) if path.endswith(".svelte") else text, path)
        bare = re.sub(r"^\s*#\s*include.*$|^\s*import\b.*$", lambda found: " " * len(found.group(0)), bare, flags=re.M)
        seen = set()
        for found in _IDENTIFIER.finditer(bare):
            if not found["std"] and found["name"] not in seen:
                seen.add(found["name"])
                yield path, line_of(bare, found.start("name")), found["name"]


def identifiers_say_something(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f'"{name}": "{word}" says nothing; name the thing by what it is or does')
            for path, number, name in _identifiers(tree) for word in sorted(_EMPTY & set(words_of(name)))]


def files_say_something(tree: Tree) -> list[Violation]:
    found = []
    for path in tree.paths():
        parts = PurePosixPath(path).parts
        names = [(part, set(words_of(part)) & _EMPTY) for part in parts[:-1]]
        stem = parts[-1].split(".")[0]
        names.append((stem, set(words_of(stem)) & _EMPTY | ({stem} & _EMPTY_STEMS)))
        found += [Violation(path, 1, f'"{name}": "{word}" says nothing; name the file by the one idea that it holds')
                  for name, empty in names for word in sorted(empty)]
    return found


def the_right_word(tree: Tree) -> list[Violation]:
    found = []
    for path, number, name in _identifiers(tree):
        words = words_of(name)
        for wrong, right in _ANOTHER_WORD.items():
            if any(tuple(words[at : at + len(wrong)]) == wrong for at in range(len(words))):
                found.append(Violation(path, number, f'"{name}": our word for {" ".join(wrong)} is {right}'))
    return found
