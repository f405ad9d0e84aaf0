"""The files of the repository as text, by path from its root; for the rules' own tests also a tree that never was."""

import functools
import subprocess
from pathlib import Path, PurePosixPath

ROOT = Path(__file__).resolve().parents[2]
CPP = (".cpp", ".h")
SCRIPT = (".ts", ".svelte", ".js", ".mjs")
FILE_BYTES_MAX = 4_000_000


class Tree:
    def __init__(self, texts: dict[str, str]):
        self.texts = texts

    def paths(self, under: str = "", ends: tuple[str, ...] = ("",)) -> list[str]:
        return [path for path in sorted(self.texts) if path.startswith(under) and path.endswith(ends)]

    def lines(self, path: str) -> list[str]:
        return self.texts[path].split("\n")

    def folders(self) -> set[str]:
        """Every folder with a file somewhere in it."""
        parents = {str(parent) for path in self.texts for parent in PurePosixPath(path).parents}
        return parents - {"."}


@functools.cache
def repository() -> Tree:
    """What is committed and what is about to be: everything but what .gitignore names and what is no text."""
    listed = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"], cwd=ROOT,
                            capture_output=True, check=True).stdout.decode()
    texts = {}
    for path in filter(None, listed.split("\0")):
        text = text_of(ROOT / path)
        if text is not None:
            texts[path] = text
    return Tree(texts)


def text_of(path: Path) -> str | None:
    """None for what is gone, is a folder, or is no text. A file too large to read keeps its place, empty."""
    if not path.is_file():
        return None
    if path.stat().st_size > FILE_BYTES_MAX:
        return ""
    try:
        return path.read_bytes().decode()
    except UnicodeDecodeError:
        return ""
