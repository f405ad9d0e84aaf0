"""Every command, option, setting and operation stands in the documents. The program itself says which commands and settings
there are, api/openapi.yaml which operations."""

import re

from tree import Tree
from violation import Violation


def _documents(tree: Tree) -> list[str]:
    return [path for path in tree.paths(ends=(".md",)) if path.startswith("docs/") or path == "README.md"]


def _mentions(text: str, words: str) -> bool:
    return re.search(rf"(?<![\w-]){re.escape(words)}(?![\w-])", text) is not None


def all_in_the_documents(tree: Tree, told: dict) -> list[Violation]:
    """`told`: {"commands": [{"name": "life fit", "options": ["--json", ..]}, ..], "settings": ["name", ..]}."""
    found = []
    texts = [tree.texts[path] for path in _documents(tree)]
    for command in told["commands"]:
        name = f"hourwright {command['name']}"
        pages = [text for text in texts if _mentions(text, name)]
        if not pages:
            found.append(Violation("docs/commands.md", 1, f"`{name}` is not described"))
            continue
        found += [Violation("docs/commands.md", 1, f"`{name}`: its option {option} is not described")
                  for option in command["options"] if not any(_mentions(text, option) for text in pages)]
    found += [Violation("docs/settings.md", 1, f"the setting `{setting}` is not described")
              for setting in told.get("settings", []) if not any(_mentions(text, setting) for text in texts)]
    return found


CONTRACT, OPERATIONS_PAGE = "api/openapi.yaml", "docs/api/README.md"


def operations_of(contract: str) -> set[str]:
    """ "GET /api/floor" and so on, of a contract laid out as ours is: paths two blanks in, methods four."""
    operations, path = set(), ""
    for line in contract.partition("\ncomponents:")[0].split("\n"):
        if named := re.fullmatch(r"  (/\S*):", line):
            path = named.group(1)
        elif method := re.fullmatch(r"    (get|post|put|delete|patch):", line):
            operations.add(f"{method.group(1).upper()} {path}")
    return operations


def operations_on_their_page(tree: Tree) -> list[Violation]:
    """Each operation has a row in the table of OPERATIONS_PAGE that says what it is for, and each row its operation."""
    operations = operations_of(tree.texts.get(CONTRACT, ""))
    rows = {}
    for number, line in enumerate(tree.texts.get(OPERATIONS_PAGE, "").split("\n"), start=1):
        row = re.match(r"\| \[?`([A-Z]+ /\S*)`(?:\]\([^)]*\))? \|\s*(.*?)\s*\|$", line)
        if row and row.group(2):
            rows[row.group(1)] = number
    missing = [Violation(OPERATIONS_PAGE, 1, f"`{one}` has no row that says what it is for") for one in operations - rows.keys()]
    stale = [Violation(OPERATIONS_PAGE, rows[one], f"`{one}` is no operation of {CONTRACT}") for one in rows.keys() - operations]
    return missing + stale


MONITORING, METRICS = "packaging/monitoring/", "src/web/metrics.cpp"


def monitored_metrics_are_there(tree: Tree) -> list[Violation]:
    """Alerts and dashboards name metrics that /metrics has."""
    metrics = tree.texts.get(METRICS, "")
    return [Violation(path, number, f"`{name}` is no metric of {METRICS}")
            for path in tree.paths(ends=(".yaml", ".json")) if path.startswith(MONITORING)
            for number, line in enumerate(tree.texts[path].split("\n"), start=1)
            for name in re.findall(r"\bhourwright_\w+", line) if f'"{name}' not in metrics]
