"""Every command, option and setting stands in the documents. The program itself says which there are."""

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
