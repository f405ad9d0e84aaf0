"""No place on the network is written into the code, and none of the places that packages come from is named at all."""

import json
import re

from tree import Tree
from violation import Violation

# Each name is put together here, so that this file does not name it either.
_PACKAGE_HOSTS = re.compile("|".join((
    r"registry\." r"npm", r"npm" r"js\.(?:org|com)", r"registry\." r"yarn", r"deb\." r"debian\.org", r"security\."
    r"debian\.org", r"snapshot\." r"debian\.org", r"ftp\.[\w.]*" r"debian\.org", r"py" r"pi\.org", r"python" r"hosted\.",
    r"crates" r"\.io", r"docker" r"\.io", r"ghcr" r"\.io", r"node" r"source\.com", r"raw\.github" r"usercontent",
    r"un" r"pkg\.com", r"js" r"delivr", r"cdn" r"js\.", r"fonts\.google" r"apis", r"fonts\.g" r"static", r"es" r"m\.sh",
    r"sky" r"pack\.dev", r"cloud" r"front\.net", r"proxy\.go" r"lang", r"artifact" r"ory")))
_URL = re.compile(r"\bhttps?://(\[[0-9a-fA-F:.]*\]|[^\s/\"'`<>()\[\]{}:?#,;|\\*]+)")
# Names of name spaces and of the texts that we follow; a program never calls there.
_NAMED = {
    "www.w3.org", "json-schema.org", "spec.openapis.org", "www.rfc-editor.org", "datatracker.ietf.org", "www.iso.org",
    "schemas.mtconnect.org", "mtconnect.org", "www.mtconnect.org", "docs.mtconnect.org", "model.mtconnect.org",
    "www.itl.nist.gov", "www.nist.gov", "data.nist.gov", "www.osha.gov", "www.ecfr.gov", "standards.iec.ch",
    "www.freedesktop.org", "www.iana.org", "www.sqlite.org", "sqlite.org", "www.unicode.org",
}
# RFC 2606 and RFC 6761: names that never lead anywhere.
_NOWHERE = re.compile(r"(?:^|\.)(?:example(?:\.(?:com|net|org))?|test|invalid|localhost|local)$")
_ADDRESS = re.compile(r"^\[|^\d+(?:\.\d+){3}$")
_PROSE = (".md", ".txt")
_LOCK = "package-lock.json"
_MADE_UP = "fuzz/corpus/"  # bytes that a fuzzer has made up; nobody calls what stands in them


def _leads_nowhere(host: str) -> bool:
    host = host.lower().rstrip(".").rpartition("@")[2]
    return "." not in host or "%" in host or "$" in host or bool(_NOWHERE.search(host) or _ADDRESS.search(host))


def no_package_hosts(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f'"{found[0]}": packages are named by name and version only; where they come from '
                      "is a setting of the machine")
            for path in tree.paths() for number, line in enumerate(tree.lines(path), 1)
            if (found := _PACKAGE_HOSTS.search(line))]


def no_far_addresses(tree: Tree) -> list[Violation]:
    found = []
    for path in tree.paths():
        if path.endswith(_PROSE) or path.endswith(_LOCK) or path.startswith(_MADE_UP):
            continue
        for number, line in enumerate(tree.lines(path), 1):
            for host in _URL.findall(line):
                if not _leads_nowhere(host) and host.lower() not in _NAMED:
                    found.append(Violation(path, number, f'"{host}": the program calls nobody but whom it is told to; '
                                           "in tests use 127.0.0.1 or a name under .example"))
    return found


def locks_name_no_place(tree: Tree) -> list[Violation]:
    return [Violation(path, number, 'made without "omit-lockfile-registry-resolved=true" in .npmrc: make it again with')
            for path in tree.paths(ends=(_LOCK,)) for number, line in enumerate(tree.lines(path), 1)
            if '"resolved"' in line]


def npm_packages_pinned(tree: Tree) -> list[Violation]:
    found = []
    for path in tree.paths(ends=("package.json",)):
        package = json.loads(tree.texts[path])
        wanted = package.get("dependencies", {}) | package.get("devDependencies", {})
        for name, version in wanted.items():
            if not re.fullmatch(r"\d+\.\d+\.\d+(-[\w.]+)?", version):
                line = next(n for n, text in enumerate(tree.lines(path), 1) if f'"{name}"' in text)
                found.append(Violation(path, line, f'"{name}": "{version}": pin one exact version, as in "1.2.3"'))
        lock = path.removesuffix("package.json") + _LOCK
        if wanted and lock not in tree.texts:
            found.append(Violation(path, 1, f"{lock} is missing: commit it"))
    return found


def debian_packages_pinned(tree: Tree) -> list[Violation]:
    return [Violation(path, number, f'"{line}": a line is name=version, as in "cmake=3.25.*"')
            for path in tree.paths("tools/packages/", (".txt",)) for number, line in enumerate(tree.lines(path), 1)
            if line.split("#")[0].strip() and not re.fullmatch(r"[a-z0-9][a-z0-9.+-]+=\S+", line.strip())]
