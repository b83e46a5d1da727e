"""Files stay within what a reader takes in: sources and tests under 500 lines, scripts of pages under 300, headers and styles
under 200, no line past 160, no function's body past 60 lines beside its tables. With --probe: whether that is noticed."""
import pathlib
import sys

from functions import bodies

longest = 60
root = pathlib.Path(sys.argv[1])
if "--probe" in sys.argv:
    fits = "int f(int a) {\n" + "  a += 1;\n" * longest + "}\n"
    table = "std::vector<int> f() {\n  return {\n" + "      1,\n" * 2 * longest + "  };\n}\n"
    member = "struct S {\n  S(int a) : a_{a} {\n" + "    a_ += 1;\n" * (longest + 1) + "  }\n  int a_;\n};\n"
    lambdas = fits.replace("  a += 1;\n", "  const auto add = [&](int b) {\n    a += b;\n  };\n", 1)
    lengths = [bodies(text)[0][1] for text in (fits, table, member, lambdas)]
    sys.exit(0 if lengths == [longest, 2, longest + 1, longest + 2] else f"measured as {lengths}")
faults, count = [], 0
for folder in ("src", "tests"):
    kinds = ("*.[ch]pp", "*.js", "*.css", "*.py") if folder == "src" else ("*.[ch]pp",)
    for path in sorted(found for kind in kinds for found in (root / folder).rglob(kind)):
        count += 1
        lines = path.read_text().splitlines()
        limit = {".hpp": 200, ".js": 300, ".css": 200}.get(path.suffix, 500)
        if len(lines) > limit:
            faults.append(f"{path.relative_to(root)}: {len(lines)} lines, at most {limit}")
        if folder == "src" and path.suffix in (".cpp", ".hpp"):
            faults += [f"{path.relative_to(root)}:{line}: a body of {n} lines, at most {longest}"
                       for line, n in bodies("\n".join(lines)) if n > longest]
        faults += [f"{path.relative_to(root)}:{n}: longer than 160" for n, line in enumerate(lines, 1) if len(line) > 160]
print("\n".join(faults) or f"{count} files are of readable size")
sys.exit(1 if faults or count < 50 else 0)
