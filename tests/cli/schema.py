#!/usr/bin/python3
"""A document against a JSON Schema (2020-12), by the jsonschema library: schema.py SCHEMA DOCUMENT.

Exit 0 when it holds; else every place that does not, one a line."""
import json
import sys

from jsonschema import Draft202012Validator

schema, document = (json.load(open(path)) for path in sys.argv[1:3])
Draft202012Validator.check_schema(schema)
faults = [f"{error.json_path}: {error.message[:200]}" for error in Draft202012Validator(schema).iter_errors(document)]
print("\n".join(faults[:20]))
sys.exit(bool(faults))
