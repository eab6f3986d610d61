#!/usr/bin/env python3
# Sums up a test run in one plain line, "N passed, N failed": cases of GoogleTest programs, and other tests.
# Not for: deciding what runs; ctest does that and its own closing line stands above.
import sys
import xml.etree.ElementTree as tree
from pathlib import Path


def main(folder):
    passed = failed = skipped = 0
    for test in tree.parse(folder / "ctest.junit").getroot().iter("testcase"):
        ok = test.get("status") == "run"
        cases = folder / f"{test.get('name')}_test.xml"
        if not cases.exists():
            # A script, or a program that ended before it could write: one test.
            if test.get("status") in ("notrun", "disabled"):
                skipped += 1
            else:
                passed, failed = (passed + 1, failed) if ok else (passed, failed + 1)
            continue
        total = tree.parse(cases).getroot()
        bad = int(total.get("failures")) + int(total.get("errors"))
        out = int(total.get("disabled")) + sum(1 for c in total.iter("testcase") if c.find("skipped") is not None)
        if not ok and bad == 0:
            bad = 1
        passed += int(total.get("tests")) - bad - out
        failed += bad
        skipped += out
    line = f"{passed} passed, {failed} failed"
    print(line + (f", {skipped} skipped" if skipped else ""))
    return 0 if failed == 0 and passed > 0 else 1


sys.exit(main(Path(sys.argv[1])))
