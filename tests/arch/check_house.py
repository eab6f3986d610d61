#!/usr/bin/env python3
# Holds the source tree against docs/architecture.md: includes, libraries, and a few habits that a grep can see.
# Not for: style inside a line; clang-format and clang-tidy do that.
#   check_house.py ROOT        one line for each breach, exit 1 where there is one
#   check_house.py --self-test shows that each rule can fail
import csv
import re
import sys
import tempfile
from pathlib import Path

# First word of a header's path (or the whole header) → the name used in the table's last column.
THIRD_PARTY = {"tl": "tl", "fmt": "fmt", "Eigen": "Eigen", "nlohmann": "nlohmann", "CLI": "CLI", "dxflib": "dxflib", "klu.h": "klu",
               "amd.h": "klu", "btf.h": "klu", "SuiteSparse_config.h": "klu"}
# Headers of the operating system, where a file needs what the standard library lacks.
SYSTEM = {"fcntl.h", "unistd.h", "signal.h", "sys/stat.h", "sys/types.h", "sys/file.h"}
# Files over this many lines must say why in docs/architecture-long-files.txt: "path: reason".
LONG = 500
MARKED = re.compile(r"\b(TO" r"DO|FIX" r"ME|XX" r"X)\b")


def table_rows(text, first):
    rows, inside = [], False
    for line in text.splitlines():
        cells = [c.strip() for c in line.strip().strip("|").split("|")]
        if cells[0] == first:
            inside = True
        elif not line.startswith("|"):
            inside = False
        elif inside and not set(cells[0]) <= set("-"):
            rows.append(cells)
    return rows


def read_table(root):
    """rooms: name → (direct, third party), in the order of the page; apps: path → third party."""
    text = (root / "docs/architecture.md").read_text()
    split = lambda cell: [w.strip() for w in cell.split(",") if w.strip() not in ("", "-")]
    rooms = {r[0]: (split(r[2]), split(r[3])) for r in table_rows(text, "room")}
    apps = {r[0]: split(r[2]) for r in table_rows(text, "program")}
    return rooms, apps


def below(rooms, room):
    seen, ahead = {room}, [room]
    while ahead:
        for under in rooms.get(ahead.pop(), ((), ()))[0]:
            if under not in seen:
                seen.add(under)
                ahead.append(under)
    return seen


def check_table(rooms):
    placed = []
    for room, (under, _) in rooms.items():
        for name in under:
            if name not in rooms:
                yield f"docs/architecture.md: {room} stands on {name}, which is not in the table"
            elif name not in placed:
                yield f"docs/architecture.md: {room} is listed before {name}, on which it stands"
        placed.append(room)


def check_includes(path, shown, rooms, allowed, third, own):
    for number, line in enumerate(path.read_text().splitlines(), 1):
        found = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
        if not found:
            continue
        kind, header = found.groups()
        head = header.split("/")[0]
        place = f"{shown}:{number}"
        if kind == '"':
            if head in rooms and "/" in header:
                if head not in allowed:
                    yield f"{place}: {own} may not include {header}"
            elif own != "apps":
                yield f'{place}: "{header}" is not written from src/ on'
            continue
        if re.match(r"Q[A-Z]|Qt", head):
            if "Qt" not in third:
                yield f"{place}: Qt belongs to paint and desk alone: {header}"
        elif head in THIRD_PARTY or header in THIRD_PARTY:
            name = THIRD_PARTY.get(header, THIRD_PARTY.get(head))
            if name not in third:
                yield f"{place}: {own} may not use {header}"
        elif "." in header and header not in SYSTEM:
            yield f"{place}: {header} is not known here; name it in tests/arch and docs/architecture.md"
        if own != "apps" and header in ("iostream", "cstdio", "stdio.h", "print"):
            yield f"{place}: a library does not print: {header}"


def check_form(path, shown):
    data = path.read_bytes()
    text = data.decode("utf-8", "replace")
    if b"\r" in data:
        yield f"{shown}: CR in the file"
    if b"\t" in data:
        yield f"{shown}: tab in the file"
    if not data.endswith(b"\n"):
        yield f"{shown}: no newline at the end"
    for number, line in enumerate(text.splitlines(), 1):
        if line != line.rstrip():
            yield f"{shown}:{number}: blank at the end of the line"
        if MARKED.search(line):
            yield f"{shown}:{number}: unfinished work is an issue, not a comment"
    if path.suffix in (".h", ".cpp"):
        if not text.startswith("// "):
            yield f"{shown}: does not begin with what the file is for"
        if path.suffix == ".h" and "#pragma once" not in text:
            yield f"{shown}: no #pragma once"


def check_long(path, shown, reasons):
    lines = len(path.read_text().splitlines())
    if lines > LONG and shown not in reasons:
        yield f"{shown}: {lines} lines; take it apart, or give the reason in docs/architecture-long-files.txt"


def check_links(root, rooms):
    for room in rooms:
        listing = root / "src" / room / "CMakeLists.txt"
        if not listing.exists():
            continue
        text = re.sub(r"#.*", "", listing.read_text())
        for uses in re.findall(r"\bUSES\b([^)]*?)(?:\bLINKS\b|\bSOURCES\b|\))", text):
            for name in uses.split():
                if name not in below(rooms, room) or name == room:
                    yield f"src/{room}/CMakeLists.txt: {room} may not use {name}"


def check_picture(root, rooms):
    picture = root / "docs/architecture.svg"
    drawn = set(re.findall(r"<title>(\w+) stands on (\w+)</title>", picture.read_text()))
    meant = {(room, under) for room, (direct, _) in rooms.items() for under in direct}
    for room, under in sorted(meant - drawn):
        yield f"docs/architecture.svg: no arrow from {room} to {under}"
    for room, under in sorted(drawn - meant):
        yield f"docs/architecture.svg: an arrow from {room} to {under} that is not in the table"


def check_sources(root):
    """Every row of data/ names a source of docs/references.bib or says that it has none; every key in the code is there."""
    bib = root / "docs/references.bib"
    known = set(re.findall(r"^@\w+\{([^,]+),", bib.read_text(), re.M)) if bib.exists() else set()
    for path in sorted((root / "data").glob("*.csv")):
        lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
        for row in csv.DictReader(lines):
            key = re.split(r"[:;,]", row.get("source") or "")[0].strip()
            if key != "no source" and key not in known:
                yield f"data/{path.name}: row {row.get('key')}: the source \"{key}\" is not in docs/references.bib"
    for path in sorted((root / "src").rglob("*")):
        if path.suffix not in (".h", ".cpp"):
            continue
        for text in re.findall(r'"((?:[^"\\\n]|\\.)*)"', path.read_text()):
            for key in re.findall(r"\b[A-Z][A-Za-z]+(?:18|19|20)\d\d(?:-\d+)?[a-z]?\b", text):
                if key not in known:
                    yield f"{path.relative_to(root).as_posix()}: the source {key} is not in docs/references.bib"


def breaches(root):
    rooms, apps = read_table(root)
    if not rooms:
        yield "docs/architecture.md: no table of rooms"
        return
    yield from check_table(rooms)
    yield from check_links(root, rooms)
    yield from check_picture(root, rooms)
    yield from check_sources(root)
    reasons = {}
    listed = root / "docs/architecture-long-files.txt"
    if listed.exists():
        reasons = dict(line.split(": ", 1) for line in listed.read_text().splitlines() if ": " in line)
    sources = [p for f in ("src", "apps", "tests", "bench") for p in sorted((root / f).rglob("*"))
               if p.suffix in (".h", ".cpp", ".py") or p.name == "CMakeLists.txt"]
    for path in sources:
        shown = path.relative_to(root).as_posix()
        part = shown.split("/")
        yield from check_form(path, shown)
        if path.suffix not in (".h", ".cpp"):
            continue
        if part[0] in ("src", "apps"):
            yield from check_long(path, shown, reasons)
        if part[0] == "src":
            if part[1] not in rooms:
                yield f"{shown}: no room {part[1]} in docs/architecture.md"
                continue
            yield from check_includes(path, shown, rooms, below(rooms, part[1]), rooms[part[1]][1], part[1])
        elif part[0] == "apps":
            third = apps.get("/".join(part[:2]), [])
            yield from check_includes(path, shown, rooms, set(rooms), third, "apps")
    if (root / "apps/cli").exists():
        with_parser = [p.name for p in sorted((root / "apps/cli").glob("*"))
                       if p.suffix in (".h", ".cpp") and "<CLI/" in p.read_text()]
        if with_parser != ["options.cpp"]:
            yield f"apps/cli: CLI11 belongs to options.cpp alone, and is in {with_parser}"


def self_test():
    page = ("| room | holds | stands on | third party |\n|---|---|---|---|\n| base | x | - | fmt |\n"
            "| physics | x | base | - |\n\n| program | holds | third party |\n|---|---|---|\n"
            "| apps/cli | x | CLI |\n")
    picture = "<title>physics stands on base</title>"
    good = {"docs/architecture.md": page, "docs/architecture.svg": picture,
            "src/base/a.h": "// A.\n#pragma once\n#include <vector>\n#include <fmt/format.h>\n",
            "src/physics/b.cpp": '// B.\n#include "base/a.h"\n',
            "src/physics/CMakeLists.txt": "kerfdraft_room(physics\n  SOURCES\n    b.cpp\n  USES base)\n",
            "docs/references.bib": "@book{Idelchik,\n}\n@misc{Moody1944,\n}\n",
            "data/a.csv": "# x\nkey,source,status\na,Idelchik: p. 1,published\nb,no source,common practice\n",
            "apps/cli/options.cpp": '// O.\n#include <CLI/CLI.hpp>\n#include "physics/b.h"\n'}
    bad = {
        "may not include physics/b.h": {"src/base/a.h": '// A.\n#pragma once\n#include "physics/b.h"\n'},
        "may not use fmt/format.h": {"src/physics/b.cpp": "// B.\n#include <fmt/format.h>\n"},
        "Qt belongs": {"src/base/a.h": "// A.\n#pragma once\n#include <QString>\n"},
        "does not print": {"src/base/a.h": "// A.\n#pragma once\n#include <iostream>\n"},
        "is not known here": {"src/base/a.h": "// A.\n#pragma once\n#include <zlib.h>\n"},
        "not written from src/": {"src/base/a.h": '// A.\n#pragma once\n#include "b.h"\n'},
        "tab in the file": {"src/base/a.h": "// A.\n#pragma once\n\tint a;\n"},
        "CR in the file": {"src/base/a.h": "// A.\n#pragma once\r\n"},
        "blank at the end": {"src/base/a.h": "// A. \n#pragma once\n"},
        "no newline": {"src/base/a.h": "// A.\n#pragma once"},
        "what the file is for": {"src/base/a.h": "#pragma once\n"},
        "no #pragma once": {"src/base/a.h": "// A.\n"},
        "unfinished work": {"src/base/a.h": "// A.\n#pragma once\n// TO" + "DO later\n"},
        "501 lines": {"src/base/a.h": "// A.\n#pragma once\n" + "int a;\n" * 499},
        "no room attic": {"src/attic/a.h": "// A.\n#pragma once\n"},
        "physics may not use files": {"src/physics/CMakeLists.txt": "kerfdraft_room(physics SOURCES b.cpp USES files)\n"},
        "no arrow from": {"docs/architecture.svg": ""},
        "an arrow from": {"docs/architecture.svg": picture + "<title>base stands on physics</title>"},
        "listed before": {"docs/architecture.md": page.replace("| base | x | -", "| base | x | physics")},
        "not in the table": {"docs/architecture.md": page.replace("| physics | x | base", "| physics | x | cellar")},
        "no table": {"docs/architecture.md": "nothing\n"},
        'source "Nobody" is not': {"data/a.csv": "key,source\na,Nobody: p. 1\n"},
        'source "" is not': {"data/a.csv": "key,source\na,\n"},
        "source Nobody1999 is not": {"src/physics/b.cpp": '// B.\nauto s = "Nobody1999, eq. 1";\n'},
        "options.cpp alone": {"apps/cli/main.cpp": "// M.\n#include <CLI/CLI.hpp>\n"},
    }

    def found(changes):
        with tempfile.TemporaryDirectory() as folder:
            for name, text in {**good, **changes}.items():
                path = Path(folder) / name
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(text.encode())
            return list(breaches(Path(folder)))

    wrong = [f"the good tree is refused: {b}" for b in found({})]
    wrong += [f"not noticed: {what}" for what, changes in bad.items() if not any(what in b for b in found(changes))]
    return wrong


if __name__ == "__main__":
    lines = self_test() if sys.argv[1] == "--self-test" else list(breaches(Path(sys.argv[1])))
    print("\n".join(lines) if lines else "as docs/architecture.md says")
    sys.exit(1 if lines else 0)
