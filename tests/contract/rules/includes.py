"""Who may include whom: the names of the folders are the architecture."""

import re

from tree import CPP, Tree
from violation import Violation

_INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
_ROOTS = ("libs/", "src/", "tests/", "bench/", "fuzz/")
# Behind a wrapper of libs/, so that one place knows their traps. bench/ measures them bare, on purpose.
_WRAPPED = re.compile(r"^(sqlite3\.h|libpq-fe\.h|libpq/|expat\.h|openssl/|mqtt/|MQTT\w+\.h|boost/(beast|asio)[/.])")


def includes_of(tree: Tree, path: str):
    for number, line in enumerate(tree.lines(path), 1):
        if found := _INCLUDE.match(line):
            yield number, found.group(2), found.group(1) == '"'


def _module(path: str) -> str:
    """src/due for src/due/x.cpp, src for src/main.cpp."""
    parts = path.split("/")
    return "/".join(parts[:2]) if len(parts) > 2 else parts[0]


def from_the_root(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f'"{name}": name our own headers from the root of the repository, as in '
                      f'"{_module(path)}/..."; others\' headers in <>')
            for path in tree.paths(ends=CPP) for number, name, own in includes_of(tree, path)
            if own and not name.startswith(_ROOTS)]


def flow_downwards(tree: Tree) -> list[Violation]:
    """A file in src/X may include src/Y only if Y sorts before X."""
    found = []
    for path in tree.paths("src/", CPP):
        for number, name, own in includes_of(tree, path):
            here, there = _module(path), _module(name)
            if own and there.startswith("src/") and here != "src" and there > here:
                found.append(Violation(path, number, f"{here} may include only what sorts before it, and {there} does "
                                       "not: declare what is needed here as a plain struct and let the caller fill it"))
    return found


def libs_know_no_shop(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f"libs/ know nothing of src/: move what is needed of {name} into libs/, or this "
                      "file into src/")
            for path in tree.paths("libs/", CPP) for number, name, own in includes_of(tree, path)
            if name.startswith("src/")]


def libs_without_circles(tree: Tree) -> list[Violation]:
    needs: dict[str, dict[str, tuple[str, int]]] = {}
    for path in tree.paths("libs/", CPP):
        for number, name, own in includes_of(tree, path):
            if name.startswith("libs/") and _module(name) != _module(path):
                needs.setdefault(_module(path), {}).setdefault(_module(name), (path, number))

    def reaches(begin: str, end: str, seen: set[str]) -> bool:
        return begin == end or any(reaches(there, end, seen | {begin}) for there in needs.get(begin, ())
                                   if there not in seen)

    return [Violation(path, number, f"{here} includes {there}, and {there} needs {here}: one of the two has to go")
            for here, others in sorted(needs.items()) for there, (path, number) in sorted(others.items())
            if reaches(there, here, set())]


def storage_only_in_main(tree: Tree) -> list[Violation]:
    return [Violation(path, number, "only src/main.cpp names storage: the service declares what it needs stored")
            for path in tree.paths("src/", CPP) for number, name, own in includes_of(tree, path)
            if name.startswith("src/storage/") and _module(path) != "src/storage" and path != "src/main.cpp"]


def wrapped_libraries(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f"<{name}> stays inside libs/: use the wrapper there")
            for folder in ("src/", "tests/") for path in tree.paths(folder, CPP)
            for number, name, own in includes_of(tree, path) if _WRAPPED.match(name)]


def once(tree: Tree) -> list[Violation]:
    return [Violation(path, 1, "a header begins with #pragma once") for path in tree.paths(ends=(".h",))
            if not tree.texts[path].startswith("#pragma once\n")]
