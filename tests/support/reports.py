"""Reports that tests make the program write, and the schema they are held to: reports.py SCHEMA FOLDER, when all tests have ended."""
import hashlib
import json
import os
import pathlib
import sys


def keep(text):
    """Keeps a text that is a report, or several, where ctest names a folder for them."""
    folder = os.environ.get("FALLWRIGHT_REPORTS")
    if not folder or not all(word in text for word in ('"tool"', '"takeoff"', '"checks"')):
        return
    pathlib.Path(folder).mkdir(parents=True, exist_ok=True)
    kept = pathlib.Path(folder) / (hashlib.sha256(text.encode()).hexdigest() + ".json")
    own = kept.with_suffix(f".{os.getpid()}")
    own.write_text(text)
    own.rename(kept)


def keep_below(folder):
    for report in pathlib.Path(folder).rglob("report.json"):
        try:
            keep(report.read_text())
        except (OSError, UnicodeDecodeError):
            pass  # a case's own, not to be read


def reports_of(text):
    """Reports that stand one after the other, as --json prints those of several jobs; the order behind them is none."""
    text = text.lstrip()
    while text:
        report, end = json.JSONDecoder().raw_decode(text)
        if "tightest" not in report:
            yield report
        text = text[end:].lstrip()


KEYWORDS = {"$schema", "title", "description", "type", "properties", "additionalProperties", "required", "items", "enum", "const"}


def close(part):
    """No part takes a field which the schema does not know. Of keywords there are only those whose meaning never changed."""
    assert part.keys() <= KEYWORDS, part.keys() - KEYWORDS
    if "properties" in part:
        part["additionalProperties"] = False
    for inner in (*part.get("properties", {}).values(), *(part[key] for key in ("items",) if key in part)):
        close(inner)


class Judge:
    """Nearly all reports keep their schema: a validator that is made of it says so in a twentieth of the time that the one
    takes which finds every fault."""

    def __init__(self, schema):
        import fastjsonschema  # both of Debian's own Python; who only keeps reports needs neither
        import jsonschema
        close(schema)
        self.all_faults = jsonschema.Draft202012Validator(schema).iter_errors
        self.quick = fastjsonschema.compile({**schema, "$schema": "http://json-schema.org/draft-07/schema#"})
        self.refusal = fastjsonschema.JsonSchemaValueException

    def faults_of(self, report):
        try:
            self.quick(report)
            return []
        except self.refusal as refusal:
            name = report["job"]["name"] if "job" in report else "no job"
            return [f"{name}: {'/'.join(map(str, e.path))}: {e.message[:200]}" for e in self.all_faults(report)] or [f"{name}: {refusal}"]


def main(schema, folder):
    judge = Judge(json.loads(pathlib.Path(schema).read_text()))
    count, faults = 0, []
    for file in sorted(pathlib.Path(folder).glob("*.json")):
        for report in reports_of(file.read_text()):
            faults += judge.faults_of(report)
            count += 1
            if count == 1:  # what would find nothing is no judge
                assert all(judge.faults_of({**report, **fault}) for fault in ({"unknown": 1}, {"checks": [{}]}, {"checks": 1}))
                assert bool(judge.faults_of(report)) == bool(list(judge.all_faults(report)))
    print(*dict.fromkeys(faults), f"{count} reports, {len(faults)} faults", sep="\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
