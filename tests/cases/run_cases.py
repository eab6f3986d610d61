#!/usr/bin/env python3
# Golden command lines: runs each case in a folder of its own and holds text, numbers and exit code against what
# the case keeps. Not for: single laws (tests/ROOM) or published figures (tests/published).
#
# A case is a folder with
#   case.txt   first lines "# what it holds fast, and where a figure comes from"; then
#              "$ kerfdraft …"  one command line, split as a shell would, without a shell
#              "exit N"         the exit code (0 where not given)
#              "tolerance X"    relative, for numbers, after a "#" line with the reason; else see below
#              "writes NAME"    a file that must be there afterwards, held against NAME.expected
#              "writes nothing" the folder must hold no new file
#              "holds NAME TEXT" a file that must be there afterwards and hold this text; for pages and pictures
#   out.txt, err.txt           what it prints; a missing one stands for nothing
#   any other file             input; the command runs beside a copy of it; examples/ and data/ are there too
#
# Text is compared exactly but for the width of blanks; numbers may differ by one unit of their last printed digit,
# since compilers differ in the last bits and printing rounds; whole numbers below 30 are counts and must be equal.
import argparse
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

NUMBER = re.compile(r"[-+]?(?:\d[\d,]*)?\.?\d+(?:[eE][-+]?\d+)?")
HERE = Path(__file__).resolve().parent
KEPT = {"case.txt", "out.txt", "err.txt"}


class Case:
    def __init__(self, folder):
        self.folder, self.command, self.exit, self.tolerance = folder, None, 0, 0.0
        self.writes, self.holds, self.writes_nothing, self.why = [], [], False, []
        for line in (folder / "case.txt").read_text().splitlines():
            word, _, rest = line.partition(" ")
            if word == "#":
                self.why.append(rest)
            elif word == "$":
                self.command = shlex.split(rest)
            elif word == "exit":
                self.exit = int(rest)
            elif word == "tolerance":
                self.tolerance = float(rest)
            elif word == "writes":
                self.writes_nothing |= rest == "nothing"
                self.writes += [] if rest == "nothing" else [rest]
            elif word == "holds":
                name, _, held = rest.partition(" ")
                self.holds.append((name, held))
            elif line.strip():
                raise SystemExit(f"{folder / 'case.txt'}: \"{line}\" is not understood")
        if not self.command or self.command[0] != "kerfdraft" or not self.why:
            raise SystemExit(f"{folder / 'case.txt'}: needs a \"# why\" line and a \"$ kerfdraft\" line")


def close(want, got, tolerance):
    if want == got:
        return True
    decimals = len(want.partition(".")[2].partition("e")[0]) if "." in want else 0
    power = int(want.lower().partition("e")[2] or 0) if "e" in want.lower() else 0
    try:
        a, b = float(want.replace(",", "")), float(got.replace(",", ""))
    except ValueError:
        return False
    # Small whole numbers are counts and nominal sizes.
    if decimals == 0 and power == 0 and abs(a) < 30 and tolerance == 0:
        return a == b
    return abs(a - b) <= 1.01 * 10.0 ** (power - decimals) + tolerance * abs(a)


def differences(want, got, tolerance, name):
    """Lines that differ, by text or by number."""
    lines = []
    wanted, found = want.splitlines(), got.splitlines()
    for i in range(max(len(wanted), len(found))):
        a = wanted[i] if i < len(wanted) else None
        b = found[i] if i < len(found) else None
        if a is not None and b is not None:
            blanks = lambda s: " ".join(NUMBER.sub("\0", s).split())
            rules = lambda s: re.sub(r"[-─=]{3,}", "---", s)
            numbers_a, numbers_b = NUMBER.findall(a), NUMBER.findall(b)
            if rules(blanks(a)) == rules(blanks(b)) and len(numbers_a) == len(numbers_b) and all(
                    close(x, y, tolerance) for x, y in zip(numbers_a, numbers_b)):
                continue
        lines.append(f"  {name}, line {i + 1}\n    expected: {a if a is not None else '(nothing)'}\n"
                     f"    printed:  {b if b is not None else '(nothing)'}")
    return lines[:12]


def run(case, program, root):
    with tempfile.TemporaryDirectory() as work:
        work = Path(work)
        for path in case.folder.iterdir():
            if path.name not in KEPT and path.suffix != ".expected":
                (shutil.copytree if path.is_dir() else shutil.copy)(path, work / path.name)
        for shared in ("examples", "data"):
            if (root / shared).exists():
                os.symlink(root / shared, work / shared)
        before = {p.name for p in work.iterdir()}
        environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC", "HOME": str(work),
                       "KERFDRAFT_DATE": "2026-01-15"}
        for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
            if name in os.environ:
                environment[name] = os.environ[name]
        done = subprocess.run([program] + case.command[1:], cwd=work, env=environment, capture_output=True, text=True,
                              stdin=subprocess.DEVNULL, timeout=300)
        files = {p.name: p.read_text() for p in work.iterdir() if p.name not in before and p.is_file()}
    return done, files


def judge(case, done, files):
    problems = []
    if done.returncode != case.exit:
        problems.append(f"  exit code {done.returncode} instead of {case.exit}")
    for name, got in (("out.txt", done.stdout), ("err.txt", done.stderr)):
        path = case.folder / name
        problems += differences(path.read_text() if path.exists() else "", got, case.tolerance, name)
    for name in case.writes:
        expected = case.folder / f"{name}.expected"
        if name not in files:
            problems.append(f"  {name} was not written")
        else:
            problems += differences(expected.read_text() if expected.exists() else "", files[name], case.tolerance, name)
    for name, text in case.holds:
        if name not in files:
            problems.append(f"  {name} was not written")
        elif not text or text not in files[name]:
            problems.append(f"  {name} does not hold \"{text}\"")
    stray = set(files) - set(case.writes) - {name for name, _ in case.holds}
    if stray and (case.writes_nothing or case.writes or case.holds):
        problems.append(f"  wrote {', '.join(sorted(stray))}")
    return problems


def bless(case, done, files):
    for name, text in [("out.txt", done.stdout), ("err.txt", done.stderr)]:
        path = case.folder / name
        if text:
            path.write_text(text)
        elif path.exists():
            path.unlink()
    for name in case.writes:
        (case.folder / f"{name}.expected").write_text(files[name])


def self_test():
    same = [("812 cfm", "813 cfm", 0), ("1.25 Pa", "1.24  Pa", 0), ("a 1,200", "a 1,201", 0), ("-3.20", "-3.21", 0),
            ("100 Pa", "104 Pa", 0.05)]
    other = [("812 cfm", "814 cfm", 0), ("1.25 Pa", "1.28 Pa", 0), ("812 cfm", "812 Pa", 0), ("3.2", "-3.2", 0),
             ("1", "1\n2", 0), ("100 Pa", "107 Pa", 0.05), ("yes", "no", 0),
             ("2 of 3 served", "3 of 3 served", 0)]
    return [f"{a!r} and {b!r} should agree" for a, b, t in same if differences(a, b, t, "")] + \
           [f"{a!r} and {b!r} should differ" for a, b, t in other if not differences(a, b, t, "")]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--program", type=lambda p: str(Path(p).resolve()))
    parser.add_argument("--bless", action="store_true", help="keep what is printed now as expected")
    parser.add_argument("--self-test", action="store_true")
    parser.add_argument("cases", nargs="*")
    arguments = parser.parse_args()
    if arguments.self_test:
        wrong = self_test()
        print("\n".join(wrong) or "numbers and text are told apart")
        return 1 if wrong else 0
    root = HERE.parent.parent
    folders = [HERE / name for name in arguments.cases] or sorted(p.parent for p in HERE.glob("*/case.txt"))
    failed = 0
    for folder in folders:
        case = Case(folder)
        done, files = run(case, arguments.program, root)
        if arguments.bless:
            # A wrong exit code or a missing file is never kept by blessing.
            if done.returncode != case.exit or any(name not in files for name in case.writes):
                failed += 1
                print(f"{folder.name}: not blessed, exit code {done.returncode} instead of {case.exit}\n{done.stderr}")
                continue
            bless(case, done, files)
            continue
        problems = judge(case, done, files)
        if problems:
            failed += 1
            print(f"{folder.name}: {' '.join(case.why)}\n  $ {shlex.join(case.command)}\n" + "\n".join(problems))
    print(f"{len(folders) - failed} of {len(folders)} cases {'blessed' if arguments.bless else 'as expected'}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
