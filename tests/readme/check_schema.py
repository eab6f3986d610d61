#!/usr/bin/env python3
# What `solve --json` and `check --json` print for every example follows their schemas, and a changed print does not.
import json
import subprocess
import sys
from pathlib import Path

import jsonschema

root, program = Path(sys.argv[1]), sys.argv[2]
examples = sorted((root / "examples").glob("*.json"))
wrong = [] if len(examples) >= 8 else ["examples/ holds too few projects"]


def spoil_solve(printed):
    printed["states"][0]["ports"][0]["flow_m3_s"] = "much"


def spoil_check(printed):
    printed["findings"][0]["severity"] = "dreadful"


for command, spoil in [("solve", spoil_solve), ("check", spoil_check)]:
    schema = json.loads((root / f"docs/schema/{command}-1.schema.json").read_text())
    validator = jsonschema.Draft202012Validator(schema)
    validator.check_schema(schema)
    last = None
    for example in examples:
        done = subprocess.run([program, command, str(example), "--json"], capture_output=True, text=True)
        if done.returncode > 1:
            wrong.append(f"{command} {example.name}: exit {done.returncode} {done.stderr}")
            continue
        last = json.loads(done.stdout)
        wrong += [f"{command} {example.name}: {e.json_path}: {e.message[:200]}"
                  for e in list(validator.iter_errors(last))[:5]]
    if last is not None:
        spoil(last)
        if validator.is_valid(last):
            wrong.append(f"the schema of {command} takes what is wrong")
print("\n".join(wrong) or f"{len(examples)} examples follow the schemas")
sys.exit(1 if wrong else 0)
