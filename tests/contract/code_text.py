"""Source text with its comments and the insides of its strings blanked out; lines and columns stay where they were."""

import re

_BLANKED = re.compile(
    r"""
    //[^\n]*                                  # a comment to the end of the line
    | /\*.*?\*/                               # a comment between marks
    | <!--.*?-->                              # the same in markup
    | \bu?8?R"(?P<mark>[^()\\\s]*)\(.*?\)(?P=mark)"   # a raw string
    | "(?:\\.|[^"\\\n])*"
    | (?<![0-9A-Fa-f])'(?:\\.|[^'\\\n])*'     # not the mark between digits: 1'000
    """,
    re.VERBOSE | re.DOTALL,
)
_TEMPLATE = re.compile(r"`(?:\\.|[^`\\])*`", re.DOTALL)


def _spaces(found: re.Match) -> str:
    text = found.group(0)
    if text[0] in "\"'`":
        return text[0] + re.sub(r"[^\n]", " ", text[1:-1]) + text[-1]
    return re.sub(r"[^\n]", " ", text)


def code_only(text: str, path: str) -> str:
    bare = _BLANKED.sub(_spaces, text)
    return bare if path.endswith((".cpp", ".h")) else _TEMPLATE.sub(_spaces, bare)


def scripts_of_svelte(text: str) -> str:
    """Only what stands in <script> blocks; the rest is blank, lines stay where they were."""
    blank = lambda part: re.sub(r"[^\n]", " ", part)
    out, at = [], 0
    for found in re.finditer(r"<script[^>]*>(.*?)</script>", text, re.DOTALL):
        out += [blank(text[at : found.start(1)]), found.group(1)]
        at = found.end(1)
    return "".join(out) + blank(text[at:])


def line_of(text: str, at: int) -> int:
    return text.count("\n", 0, at) + 1
