"""Prints CSV files as one JSON object of lists of rows, as Python's own reader sees them: strict about quotes."""

import csv
import json
import pathlib
import sys

tables = {}
for path in map(pathlib.Path, sys.argv[1:]):
    text = path.read_bytes().decode("utf-8")
    assert text.endswith("\r\n"), path
    with path.open(newline="", encoding="utf-8") as file:
        tables[path.stem] = list(csv.reader(file, strict=True))
json.dump(tables, sys.stdout)
