#!/usr/bin/env python3
# The manual pages can be made, there is one for each command, and each holds the options and examples of its help.
import re
import subprocess
import sys
from pathlib import Path

tool, program, folder = sys.argv[1], sys.argv[2], Path(sys.argv[3])
subprocess.run([tool, program, str(folder)], check=True)
listed = subprocess.run([program, "--help"], capture_output=True, text=True, check=True).stdout
commands = re.findall(r"^  (\w+) ", listed.split("Subcommands:")[1].split("\n\n")[0], re.M)
wrong = [] if len(commands) >= 8 else [f"only these commands: {commands}"]
for name, arguments in [("kerfdraft", [])] + [(f"kerfdraft-{c}", [c]) for c in commands]:
    page = (folder / f"{name}.1")
    text = page.read_text().replace("\\-", "-") if page.exists() else ""
    shown = subprocess.run([program] + arguments + ["--help"], capture_output=True, text=True, check=True).stdout
    for option in set(re.findall(r"--[a-z-]+", shown)):
        if option not in text:
            wrong.append(f"{name}.1 lacks {option}")
print("\n".join(wrong) or f"{len(commands) + 1} pages")
sys.exit(1 if wrong else 0)
