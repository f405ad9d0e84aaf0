"""docs/methods/security.md: every test that it names exists. There and in docs/set-up/people.md, the table of roles is
the contract's."""

import re

from tree import Tree
from violation import Violation

PAGE, CONTRACT = "docs/methods/security.md", "api/openapi.yaml"
PAGES_WITH_ROLES = (PAGE, "docs/set-up/people.md")


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


def roles_of(contract: str) -> dict[str, tuple[set[str], str]]:
    """The contract's table: which roles have a permission, and what for."""
    rows = re.findall(r"^  ([a-z ]+): \{ roles: \[([^\]]*)\], says: \"?([^\"}]*)\"? \}", contract, re.M)
    return {permission: (set(roles.split(", ")), says.strip()) for permission, roles, says in rows}


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip("|").split("|")]


def _told(page: list[str]) -> dict[str, tuple[int, set[str], str]]:
    """The page's table of roles: the line, who has it, and what for, by permission. The columns are of the words above
    it; what for stands in a column of its own or, as **permission**: what for, before them."""
    heads, told = [], {}
    for number, line in enumerate(page, start=1):
        cells = _cells(line) if line.startswith("|") else []
        if not cells:
            heads = []
        elif "technician" in cells:
            heads = [head.replace("outside service", "outside") for head in cells]
        elif heads and not re.match(r"[-:]+$", cells[1]):
            permission, _, says = cells[0].replace("**", "").partition(": ")
            roles = {head for head, cell in zip(heads, cells) if cell == "yes"}
            told[permission] = (number, roles, says or cells[-1])
    return told


def roles_are_the_contracts(tree: Tree, page: str) -> list[Violation]:
    wanted, told = roles_of(tree.texts.get(CONTRACT, "")), _told(tree.lines(page))
    missing = [Violation(page, 1, f'the contract\'s permission "{one}" is not in the table')
               for one in wanted if one not in told]
    foreign = [Violation(page, line, f'the contract has no permission "{one}"')
               for one, (line, _, _) in told.items() if one not in wanted]
    other = [Violation(page, told[one][0], f'"{one}" in the contract: {sorted(roles)}, to {says}')
             for one, (roles, says) in wanted.items() if one in told and told[one][1:] != (roles, says)]
    return missing + foreign + other
