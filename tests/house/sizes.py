"""Files stay within what a reader takes in: sources and tests under 500 lines, scripts of pages under 300, headers and styles
under 200, no line past 160."""
import pathlib
import sys

root = pathlib.Path(sys.argv[1])
faults, count = [], 0
for folder in ("src", "tests"):
    kinds = ("*.[ch]pp", "*.js", "*.css", "*.py") if folder == "src" else ("*.[ch]pp",)
    for path in sorted(found for kind in kinds for found in (root / folder).rglob(kind)):
        count += 1
        lines = path.read_text().splitlines()
        limit = {".hpp": 200, ".js": 300, ".css": 200}.get(path.suffix, 500)
        if len(lines) > limit:
            faults.append(f"{path.relative_to(root)}: {len(lines)} lines, at most {limit}")
        faults += [f"{path.relative_to(root)}:{n}: longer than 160" for n, line in enumerate(lines, 1) if len(line) > 160]
print("\n".join(faults) or f"{count} files are of readable size")
sys.exit(1 if faults or count < 50 else 0)
