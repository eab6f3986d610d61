#!/usr/bin/env python3
# Shows that a stale number in README.md is noticed: changes one in a copy, and expects the check to fail.
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

root, program = Path(sys.argv[1]), sys.argv[2]
with tempfile.TemporaryDirectory() as work:
    copy = Path(work)
    for part in ("tools", "tests/cases/run_cases.py", "examples", "README.md"):
        target = copy / part
        target.parent.mkdir(parents=True, exist_ok=True)
        (shutil.copytree if (root / part).is_dir() else shutil.copy)(root / part, target)
    page = copy / "README.md"
    text = page.read_text()
    changed = re.sub(r"(\n\d+) cfm through 4 in\n", "\n999 cfm through 4 in\n", text, count=1)
    assert changed != text, "README.md has no line to change"
    page.write_text(changed)
    done = subprocess.run([sys.executable, str(copy / "tools/readme"), "--check", program], capture_output=True, text=True)
    noticed = done.returncode == 1 and "999" in done.stdout
print("a stale number is noticed" if noticed else f"not noticed:\n{done.stdout}{done.stderr}")
sys.exit(0 if noticed else 1)
