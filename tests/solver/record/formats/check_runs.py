#!/usr/bin/python3
"""Holds real run folders to what solver/record/formats says of them.

    check_runs.py FORMATS RUN...

Every run.json holds nothing but members that the schema describes, of the kind that it says, and is
valid by python3-jsonschema where that is installed; travel.csv, beyond.csv, surface.csv and
opening.csv have the columns of the list. A folder that is no run is a failure."""

import csv
import json
import pathlib
import re
import sys

try:
    import jsonschema
except ImportError:
    jsonschema = None

formats, runs = pathlib.Path(sys.argv[1]), [pathlib.Path(run) for run in sys.argv[2:]]
schema = json.loads((formats / "run.schema.json").read_text())
with open(formats / "columns.csv", newline="") as text:
    columns = list(csv.DictReader(text))
tools = ["plunger", "left shoulder", "right shoulder", "left frame", "right frame"]
failures = 0


def fail(what):
    global failures
    failures += 1
    print("FAILED  " + what)


def described(value, rule, path):
    """Fails for each member that the schema does not know; kinds are looked at, too."""
    if "$ref" in rule:
        rule = {**schema["$defs"][rule["$ref"].rsplit("/", 1)[1]], **{k: v for k, v in rule.items() if k != "$ref"}}
    if "anyOf" in rule and value is not None:
        rule = next(each for each in rule["anyOf"] if each.get("type") != "null")
        return described(value, rule, path)
    kinds = rule.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    kind = {dict: "object", list: "array", str: "string", bool: "boolean", int: "integer", float: "number",
            type(None): "null"}[type(value)]
    if kinds and kind not in kinds and not (kind == "integer" and "number" in kinds):
        fail("%s: %s is no %s" % (path, kind, " or ".join(kinds)))
    if "enum" in rule and value not in rule["enum"]:
        fail("%s: %r is none of %s" % (path, value, rule["enum"]))
    if isinstance(value, list):
        for i, item in enumerate(value):
            described(item, rule["items"], "%s.%d" % (path, i))
    if isinstance(value, dict):
        for name, member in value.items():
            rules = [rule["properties"][name]] if name in rule.get("properties", {}) else \
                [form for pattern, form in rule.get("patternProperties", {}).items() if re.search(pattern, name)]
            rest = rule.get("additionalProperties")
            if not rules and isinstance(rest, dict):
                rules = [rest]
            if not rules:
                fail("%s.%s is not described" % (path, name))
            for each in rules:
                described(member, each, path + "." + name)


def heads(file, told):
    """The columns that the list has for a file; `told`: those that it has, for a TOOL or FLAW each."""
    rows = [column["column"] for column in columns if column["file"] == file]
    result, repeated = [], []
    names = tools if file == "travel.csv" else [name for name in ("flaw", "flaw2", "flaw3") if name + " opening [mm]" in told]
    for row in rows + [""]:
        if row.startswith(("TOOL ", "FLAW ")):
            repeated.append(row[4:])
            continue
        result += [name + rest for name in names for rest in repeated]
        repeated = []
        if row:
            result.append(row)
    return result


if jsonschema:
    jsonschema.Draft202012Validator.check_schema(schema)
if not runs:
    fail("no run was named")
tables = 0
for run in runs:
    if not (run / "run.json").is_file():
        fail("%s is no run folder" % run)
        continue
    told = json.loads((run / "run.json").read_text())
    described(told, schema, str(run))
    if jsonschema:
        for error in jsonschema.Draft202012Validator(schema).iter_errors(told):
            fail("%s: %s: %s" % (run, ".".join(map(str, error.path)), error.message[:200]))
    for file in ("travel.csv", "beyond.csv", "surface.csv", "opening.csv"):
        if not (run / file).is_file():
            continue
        tables += 1
        with open(run / file, newline="") as text:
            written = next(csv.reader(text))
        expected = heads("travel.csv" if file == "beyond.csv" else file, written)
        if file == "surface.csv" and told.get("made_with", {}).get("dimension") == 3:
            expected += heads("surface.csv of a body", written)
        if written != expected:
            fail("%s/%s: its columns are not those of columns.csv: %s" %
                 (run, file, sorted(set(written) ^ set(expected)) or "another order"))
print("%d runs and %d tables%s: %d failed" %
      (len(runs), tables, ", validated by jsonschema" if jsonschema else
       "; python3-jsonschema is not installed, so members and kinds alone were looked at", failures))
sys.exit(1 if failures else 0)
