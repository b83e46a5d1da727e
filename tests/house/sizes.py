"""Files stay within what a reader takes in: sources and tests under 500 lines, headers under 200, no line past 200."""
import pathlib
import sys

root = pathlib.Path(sys.argv[1])
faults, count = [], 0
for folder in ("src", "tests"):
    for path in sorted((root / folder).rglob("*.[ch]pp")):
        count += 1
        lines = path.read_text().splitlines()
        limit = 200 if path.suffix == ".hpp" else 500
        if len(lines) > limit:
            faults.append(f"{path.relative_to(root)}: {len(lines)} lines, at most {limit}")
        faults += [f"{path.relative_to(root)}:{n}: longer than 160" for n, line in enumerate(lines, 1) if len(line) > 160]
print("\n".join(faults) or f"{count} files are of readable size")
sys.exit(1 if faults or count < 50 else 0)
