"""docs/methods/security.md: every test that it names exists, and its table of roles is the contract's."""

import re

from tree import Tree
from violation import Violation

PAGE, CONTRACT = "docs/methods/security.md", "api/openapi.yaml"
ROLES = ("outside", "viewer", "operator", "technician", "lead")


def _tests(tree: Tree) -> set[str]:
    """ "Suite.Name" of every C++ test."""
    found = set()
    for path in tree.paths(ends=("_test.cpp",)):
        found |= {f"{suite}.{name}" for suite, name in re.findall(r"^TEST(?:_F)?\((\w+), (\w+)\)", tree.texts[path], re.M)}
    return found


def named_tests_exist(tree: Tree) -> list[Violation]:
    tests = _tests(tree)
    return [Violation(PAGE, number, f"there is no test {name}")
            for number, line in enumerate(tree.lines(PAGE), start=1) if re.match(r"\| [\d.]", line)
            for name in re.findall(r"`(\w+\.\w+)`", line) if name not in tests]


def requirements_have_tests(tree: Tree) -> list[Violation]:
    return [Violation(PAGE, number, "this requirement names no test")
            for number, line in enumerate(tree.lines(PAGE), start=1)
            if re.match(r"\| [\d.]", line) and not re.search(r"`\w+\.\w+`", line)]


def roles_of(contract: str) -> dict[str, set[str]]:
    """The contract's table: which roles have a permission."""
    rows = re.findall(r"^  ([a-z ]+): \{ roles: \[([^\]]*)\]", contract, re.M)
    return {permission: set(roles.split(", ")) for permission, roles in rows}


def roles_are_the_contracts(tree: Tree) -> list[Violation]:
    wanted, told = roles_of(tree.texts.get(CONTRACT, "")), {}
    for line in tree.lines(PAGE):
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if len(cells) == 7 and cells[0] in wanted:
            told[cells[0]] = {role for role, cell in zip(ROLES, cells[1:6]) if cell == "yes"}
    return [Violation(PAGE, 1, f"the roles of \"{one}\" are {sorted(roles)} in the contract, {sorted(told.get(one, ()))} here")
            for one, roles in wanted.items() if told.get(one) != roles]
