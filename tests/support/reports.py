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


def judge_of(schema):
    """A validator that takes no field which the schema does not know."""
    import jsonschema  # of Debian's own Python; who only keeps reports needs none

    def closed(part):
        if isinstance(part, dict):
            if "properties" in part:
                part["additionalProperties"] = False
            for inner in part.values():
                closed(inner)
    closed(schema)
    return jsonschema.Draft202012Validator(schema)


def faults_of(report, judge):
    name = report["job"]["name"] if "job" in report else "no job"
    return [f"{name}: {'/'.join(map(str, e.path))}: {e.message[:200]}" for e in judge.iter_errors(report)]


def main(schema, folder):
    judge = judge_of(json.loads(pathlib.Path(schema).read_text()))
    count, faults = 0, []
    for file in sorted(pathlib.Path(folder).glob("*.json")):
        for report in reports_of(file.read_text()):
            faults += faults_of(report, judge)
            count += 1
            if count == 1:  # what would find nothing is no judge
                assert faults_of({**report, "unknown": 1}, judge) and faults_of({**report, "checks": [{}]}, judge)
    print(*dict.fromkeys(faults), f"{count} reports, {len(faults)} faults", sep="\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
