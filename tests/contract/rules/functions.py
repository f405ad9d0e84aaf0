"""How long functions are. A simple measurer by braces: it knows no grammar, only what stands before a brace."""

import re
from dataclasses import dataclass

from code_text import code_only, scripts_of_svelte
from tree import CPP, Tree
from violation import Violation

LINES_MAX = 60
_NO_CPP_FUNCTION = re.compile(r"^\s*(?:if|else|for|while|switch|do|try|catch|return|case|default|class|struct|union|"
                              r"enum|typedef|using|namespace|inline\s+namespace)\b")
_NO_SCRIPT_FUNCTION = re.compile(r"^\s*(?:if|else|for|while|switch|do|try|catch)\b")
_CPP_NAME = re.compile(r"(~?[A-Za-z_]\w*|operator\s*[^\s(]+)\s*\(")
_INITIALIZER = re.compile(r"\)[^()]*(?<!:):(?!:).*[\w>]\s*$", re.DOTALL)  # B(int x) : x_
_ACCESS = re.compile(r"^\s*(?:public|private|protected)\s*:(?!:)")
_SCRIPT_HEAD = re.compile(r"=>\s*$|\bfunction\b[^{}]*$|^\s*(?:(?:public|private|static|async|get|set|export)\s+)*"
                          r"[\w#$]+\s*(?:<[^{}]*>)?\([^{}]*\)\s*(?::[^={}]+)?$", re.DOTALL)
_SCRIPT_NAME = re.compile(r"function\s+(\w+)|(?:const|let)\s+(\w+)|(\w+)\s*[(=:]")


@dataclass(frozen=True)
class Function:
    path: str
    name: str
    line: int
    lines: int


def _without_preprocessor(text: str) -> str:
    return re.sub(r"^[ \t]*#(?:[^\n]*\\\n)*[^\n]*", lambda found: re.sub(r"[^\n]", " ", found.group(0)), text,
                  flags=re.M)


def _cpp_name(head: str) -> str | None:
    """The name of the function whose body begins after this text, or None where no function begins."""
    if _NO_CPP_FUNCTION.match(head) or "(" not in head or re.search(r"[=(,{]\s*$", head):
        return None
    test = re.match(r"\s*(?:TEST|TEST_F|TEST_P|TYPED_TEST|RC_GTEST_PROP)\s*\(\s*(\w+)\s*,\s*(\w+)", head)
    if test:
        return f"{test[1]}.{test[2]}"
    found = _CPP_NAME.search(head)
    return re.sub(r"\s", "", found.group(1)) if found else "(lambda)"


def _script_name(head: str) -> str | None:
    if _NO_SCRIPT_FUNCTION.match(head) and "=>" not in head:
        return None
    last = head[max(head.rfind("function"), 0) :] if "=>" not in head else ""
    if last.count("(") > last.count(")") and "function" in last:
        return None  # a brace among the parameters
    if not _SCRIPT_HEAD.search(head) or re.search(r"\bdescribe(?:\.\w+)*\s*\(", head):
        return None
    found = _SCRIPT_NAME.search(head)
    return next(filter(None, found.groups()), "(arrow)") if found else "(arrow)"


def _without_braces(head: str) -> str:
    """f(a: { b: number }) -> f(a: )"""
    shorter = re.sub(r"\{[^{}]*\}", "", head)
    return head if shorter == head else _without_braces(shorter)


@dataclass
class _Brace:
    name: str | None  # of the function whose body it opens; None for every other brace
    line: int
    initializes: bool  # it stands in a constructor's list of initializers: the body is still to come
    resume_at: int | None  # it stands within parentheses: behind it the text goes on that began here


class _Walk:
    """Goes over the braces of one file. With `nested`, functions within functions are measured as well."""

    def __init__(self, path: str, text: str, name_of, nested: bool):
        self.path, self.text, self.name_of, self.nested = path, text, name_of, nested
        self.found: list[Function] = []
        self.open: list[_Brace] = []
        self.constructor: _Brace | None = None
        self.head_from, self.line = 0, 1

    def run(self) -> list[Function]:
        for at, sign in enumerate(self.text):
            if sign == "\n":
                self.line += 1
            elif sign == ";":
                self._end_statement(at)
            elif sign == "{":
                self._open_brace(at)
            elif sign == "}" and self.open:
                self._close_brace(at)
        return self.found

    def _end_statement(self, at: int) -> None:
        head = self.text[self.head_from : at]
        if head.count("(") <= head.count(")"):  # else it is a semicolon of for (;;)
            self.head_from, self.constructor = at + 1, None

    def _open_brace(self, at: int) -> None:
        head = _ACCESS.sub("", self.text[self.head_from : at])
        begin = self.line - head.lstrip().count("\n")
        head_from, self.head_from = self.head_from, at + 1
        if self.constructor and re.match(r"\s*(,|$)", head):
            last = not re.search(r"[\w>]\s*$", head)  # ", b_{" goes on; ") {" and "{" open the body
            self.open.append(_Brace(self.constructor.name, self.constructor.line, not last, None))
            return
        inside = any(brace.name for brace in self.open)
        name = self.name_of(_without_braces(head)) if self.nested or not inside else None
        initializes = not self.nested and name is not None and _INITIALIZER.search(head) is not None
        within = name is None and head.count("(") > head.count(")")
        self.open.append(_Brace(name, begin, initializes, head_from if within else None))

    def _close_brace(self, at: int) -> None:
        brace = self.open.pop()
        self.head_from = at + 1 if brace.resume_at is None else brace.resume_at
        self.constructor = brace if brace.initializes else None
        if brace.name is not None and not brace.initializes:
            self.found.append(Function(self.path, brace.name, brace.line, self.line - brace.line + 1))


def functions_of(path: str, text: str) -> list[Function]:
    if path.endswith(CPP):
        return _Walk(path, _without_preprocessor(code_only(text, path)), _cpp_name, nested=False).run()
    script = scripts_of_svelte(text) if path.endswith(".svelte") else text
    return _Walk(path, code_only(script, path), _script_name, nested=True).run()


def all_functions(tree: Tree) -> list[Function]:
    return [function for path in tree.paths(ends=CPP + (".ts", ".svelte"))
            for function in functions_of(path, tree.texts[path])]


def not_too_long(tree: Tree, ratchet: dict[str, int]) -> list[Violation]:
    """`ratchet`: "path name" -> the lines that it may have until someone shortens it."""
    found, seen = [], set()
    for function in all_functions(tree):
        key = f"{function.path} {function.name}"
        allowed = max(LINES_MAX, ratchet.get(key, 0))
        if function.lines > LINES_MAX:
            seen.add(key)
        if function.lines > allowed:
            found.append(Violation(function.path, function.line, f"{function.name} has {function.lines} lines; at most "
                                   f"{allowed}: name its steps and make them functions"))
        elif key in ratchet and function.lines < ratchet[key]:
            found.append(Violation(function.path, function.line, f"{function.name} has only {function.lines} lines now: "
                                   "say so in ratchets/long_functions.txt, or take it out there"))
    found += [Violation("tests/contract/ratchets/long_functions.txt", 1, f'"{key}" is short enough or gone: take the '
                        "line out") for key in sorted(set(ratchet) - seen)]
    return found
