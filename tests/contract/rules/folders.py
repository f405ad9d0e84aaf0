"""Every folder that someone may open first says in a README.md what it is."""

import re

from tree import CPP, Tree
from violation import Violation

# In a sentence as **In**, or as the head of a column: | in |
_LABEL = {word: re.compile(rf"\*\*{word}\*\*|\| *{word} *\|", re.IGNORECASE) for word in ("in", "out", "refuses")}
_HIDDEN_PREFIX = "."


def _to_be_explained(tree: Tree) -> list[str]:
    """The first level, the modules of libs/ and src/, the parts of tests/ and of the app."""
    def wanted(folder: str) -> bool:
        depth = folder.count("/")
        if folder.startswith(_HIDDEN_PREFIX):
            return False
        return depth == 0 or (depth == 1 and folder.startswith(("libs/", "src/", "tests/"))) or (
            depth == 2 and folder.startswith("app/src/"))

    return sorted(filter(wanted, tree.folders()))


def explained(tree: Tree) -> list[Violation]:
    return [Violation(f"{folder}/README.md", 1, "is missing: say in a few lines what the folder holds")
            for folder in _to_be_explained(tree) if f"{folder}/README.md" not in tree.texts]


def modules_say_what_they_refuse(tree: Tree) -> list[Violation]:
    """In, out, refuses, one worked example with numbers."""
    found = []
    for folder in _to_be_explained(tree):
        readme = f"{folder}/README.md"
        text = tree.texts.get(readme)
        if text is None or not folder.startswith(("libs/", "src/")) or not tree.paths(f"{folder}/", CPP):
            continue
        missing = [word for word in ("in", "out", "refuses") if not _LABEL[word].search(text)]
        if "xample" not in text or not any(sign.isdigit() for sign in text):
            missing.append("a worked example with numbers")
        if missing:
            found.append(Violation(readme, 1, f"a module says what goes **In**, what comes **Out**, what it "
                                   f"**Refuses** (or has a table with these columns), with an example in numbers; "
                                   f"missing: {', '.join(missing)}"))
    return found
