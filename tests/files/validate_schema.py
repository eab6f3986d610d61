"""Holds docs/schema against every project file of the source tree, with the validator of python3-jsonschema.

A good file must pass; the files below must fail, so that the schema is known to refuse something.
Returns 77, which the test program takes as "skipped", where the validator is not installed.
"""
import copy
import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    # The interpreter found by the build may be another one than the system's, for which the package is made.
    import os

    if sys.executable != "/usr/bin/python3" and os.path.exists("/usr/bin/python3"):
        os.execv("/usr/bin/python3", ["/usr/bin/python3", *sys.argv])
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

schema = json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))
root = pathlib.Path(sys.argv[2])
if not hasattr(jsonschema, "Draft202012Validator"):
    print("skipped: python3-jsonschema is too old for draft 2020-12")
    sys.exit(77)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)

files = [root / "tests/files/data/minimal.json"]
files += sorted((root / "tests/formats/v1").glob("*.json"))
files += sorted((root / "examples").glob("**/*.json"))
failures = 0
projects = 0
for path in files:
    project = json.loads(path.read_text(encoding="utf-8"))
    if not isinstance(project, dict) or "setting" not in project:
        continue
    projects += 1
    for error in validator.iter_errors(project):
        failures += 1
        print(f"{path}: {error.json_path}: {error.message}")

good = json.loads((root / "tests/files/data/minimal.json").read_text(encoding="utf-8"))


def spoil(change):
    project = copy.deepcopy(good)
    change(project)
    return project


spoilt = {
    "unknown key": spoil(lambda p: p["setting"].update(colour="red")),
    "missing key": spoil(lambda p: p["setting"].pop("name")),
    "no unit": spoil(lambda p: p["ducts"][0]["corners"][0]["leg"].update(bore="4")),
    "unit of another kind": spoil(lambda p: p["ducts"][0]["corners"][0]["leg"].update(bore="4 cfm")),
    "number for a text": spoil(lambda p: p["ducts"][0]["corners"][0]["leg"].update(bore=4)),
    "unknown word": spoil(lambda p: p["setting"].update(who="nobody")),
    "zero id": spoil(lambda p: p["ducts"][0].update(id="0000")),
    "two-dimensional point": spoil(lambda p: p["ducts"][0]["corners"][0].update(at=["1 ft", "2 ft"])),
    "two ways to end": spoil(lambda p: p["ducts"][0]["to"].update(open=True)),
    "one corner": spoil(lambda p: p["ducts"][0].update(corners=p["ducts"][0]["corners"][:1])),
    "newer format": spoil(lambda p: p.update(format=2)),
}
for name, project in spoilt.items():
    if validator.is_valid(project):
        failures += 1
        print(f"the schema takes a project with: {name}")

print(f"{projects} projects pass, {len(spoilt)} spoilt ones are refused" if failures == 0 else f"{failures} failures")
sys.exit(1 if failures or projects < 2 else 0)
