"""Reads the texts in files of the program's formats with Python's own modules, none of which knows how they were made,
and prints them as one JSON object. STEP is read by the grammar of ISO 10303-21:2016 (5.5, 6.4.3), written down here.

Usage: read_text.py FOLDER    (a job's output folder, or that of several rooms)
"""
import csv
import json
import pathlib
import re
import sys
import xml.etree.ElementTree

TOKEN = re.compile(r"'((?:[^']|'')*)'|([A-Z_][A-Z_0-9]*)|(#\d+)|(;)|.", re.S)
DIRECTIVE = re.compile(r"\\X2\\((?:[0-9A-F]{4})+)\\X0\\|\\X4\\((?:[0-9A-F]{8})+)\\X0\\|\\\\|''|\\")


def directive(match):
    if match[1]:
        return bytes.fromhex(match[1]).decode("utf-16-be")
    if match[2]:
        return bytes.fromhex(match[2]).decode("utf-32-be")
    if match[0] == "\\":
        raise ValueError("a backslash that begins no directive")
    return match[0][0]


def step(path):
    """Keyword and strings of every statement; a string never ends a statement, whatever stands in it."""
    statements, words, strings = [], [], []
    for string, word, _, end in ((m[1], m[2], m[3], m[4]) for m in TOKEN.finditer(path.read_bytes().decode("ascii"))):
        if string is not None:
            strings.append(DIRECTIVE.sub(directive, string))
        elif word:
            words.append(word)
        elif end:
            statements.append((words[0] if words else "", strings))
            words, strings = [], []
    return {"header": [s for w, s in statements if w == "FILE_NAME"][0][0],
            "products": [s[0] for w, s in statements if w == "PRODUCT"]}


def tables(folder):
    found = {}
    for path in sorted(folder.glob("*.csv")):
        with path.open(newline="", encoding="utf-8") as file:
            found[path.name] = list(csv.reader(file, strict=True))
    return found


def glb(path):
    data = path.read_bytes()
    length = int.from_bytes(data[12:16], "little")
    return [node.get("name", "") for node in json.loads(data[20:20 + length])["nodes"]]


folder = pathlib.Path(sys.argv[1])
out = {"csv": tables(folder)}
if (folder / "model.step").exists():
    out["step"] = step(folder / "model.step")
if (folder / "model.glb").exists():
    out["glb"] = glb(folder / "model.glb")
if (folder / "report.json").exists():
    out["report"] = json.loads((folder / "report.json").read_text(encoding="utf-8"))["job"]["name"]
out["svg"] = [xml.etree.ElementTree.parse(path).getroot().tag for path in sorted(folder.glob("drawings/*.svg"))]
print(json.dumps(out))
