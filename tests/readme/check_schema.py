#!/usr/bin/env python3
# What `solve --json` prints for every example follows docs/schema/solve-1.schema.json, and a changed print does not.
import json
import subprocess
import sys
from pathlib import Path

import jsonschema

root, program = Path(sys.argv[1]), sys.argv[2]
schema = json.loads((root / "docs/schema/solve-1.schema.json").read_text())
validator = jsonschema.Draft202012Validator(schema)
validator.check_schema(schema)
examples = sorted((root / "examples").glob("*.json"))
wrong = [] if len(examples) >= 8 else ["examples/ holds too few projects"]
last = None
for example in examples:
    done = subprocess.run([program, "solve", str(example), "--json"], capture_output=True, text=True)
    if done.returncode > 1:
        wrong.append(f"{example.name}: exit {done.returncode} {done.stderr}")
        continue
    last = json.loads(done.stdout)
    wrong += [f"{example.name}: {e.json_path}: {e.message[:200]}" for e in list(validator.iter_errors(last))[:5]]
if last is not None:
    last["states"][0]["ports"][0]["flow_m3_s"] = "much"
    if validator.is_valid(last):
        wrong.append("the schema takes a text for a flow")
print("\n".join(wrong) or f"{len(examples)} examples follow the schema")
sys.exit(1 if wrong else 0)
