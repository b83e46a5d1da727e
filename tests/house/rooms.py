"""A room includes only the rooms below it, and the kernel only where it may; a file its own header first.

The table is the one in DEVELOPERS.md, read from there. With --probe wrong includes are added to what was read, and the
test passes only when each is found: a guard that cannot bark guards nothing.
"""
import pathlib
import re
import sys

ROW = re.compile(r"^\| `(\w+)/` \| .* \| ([^|]+) \| (yes|in \.cpp|no) \|$", re.M)
# A room names in its row the libraries that its own files include; they are known by how their headers begin.
LIBRARIES = {"CGAL": "CGAL/", "Boost.Polygon": "boost/polygon/", "Boost.Container": "boost/container/",
             "Boost.Geometry": "boost/geometry", "Boost.Math": "boost/math/", "Eigen": "Eigen/", "toml++": "toml++/",
             "nlohmann-json": "nlohmann/", "GLPK": "glpk", "cairo": "cairo", "zlib": "zlib", "CLI11": "CLI/",
             "spdlog": "spdlog/"}
INSIDE = re.compile(r"Inside `(\w+)` only")


class Table:
    """Of each room: the rooms it may see, of which of them which headers alone, its libraries, where it sees the kernel."""

    def __init__(self, text):
        rows = ROW.findall(text)
        self.rooms = [room for room, _, _ in rows]
        self.kernel = {room: kernel for room, _, kernel in rows}
        self.direct, self.libraries, self.only, self.faults = {}, {}, {}, []
        for room, uses, _ in rows:
            plain, _, some = uses.partition("; of ")
            names = {name.strip() for name in plain.split(",")} - {"std"}
            if "all" in names:
                names = names - {"all"} | set(self.rooms) - {room}
            self.libraries[room] = names & LIBRARIES.keys()
            self.direct[room] = names & set(self.rooms)
            self.faults += [f"DEVELOPERS.md: '{n}' in the row of '{room}' is neither a room nor a library that is known"
                            for n in sorted(names - self.libraries[room] - self.direct[room])]
            if some:
                of, _, headers = some.partition(" ")
                self.direct[room].add(of)
                self.only[room, of] = {f"{h}.hpp" for h in re.split(r", | and ", headers.strip())}

    def allowed(self, room):
        seen, todo = {room}, sorted(self.direct[room])
        while todo:
            below = todo.pop()
            if below not in seen:
                seen.add(below)
                todo += sorted(self.direct[below])
        return seen


def inside_of(text):
    """The room whose own a header says it is; none for one that others see."""
    found = INSIDE.search(re.sub(r"\n/// ?", " ", text.split("#pragma once")[0]))
    return found[1] if found else None


def faults_in(table, inner, room, path, text):
    includes = re.findall(r'^#include (.*)$', text, re.M)
    own = f'"{path[:-len(".cpp")]}.hpp"'
    if own in includes[1:]:  # a header that leans on what its users include is found out so
        yield f"{path}: its own header comes first"
    allowed = table.allowed(room)
    for line, include in enumerate(text.splitlines(), 1):
        at = f"{path}:{line}"
        ours = re.match(r'#include "((\w+)/([^"]+))"', include)
        if ours and ours[2] not in allowed:
            yield f"{at}: room '{room}' must not include from '{ours[2]}'"
        elif ours and ours[3] not in table.only.get((room, ours[2]), {ours[3]}):
            yield f"{at}: room '{room}' must not include '{ours[3]}' from '{ours[2]}'"
        elif ours and inner.get(ours[1], room) != room:
            yield f"{at}: '{ours[1]}' is for '{inner[ours[1]]}' only"
        for library, begin in LIBRARIES.items():
            if include.startswith(f"#include <{begin}") and library not in table.libraries[room]:
                yield f"{at}: the row of '{room}' does not name {library}"
        if re.match(r"#include <[A-Za-z0-9]+(_[A-Za-z0-9]+)*\.hxx>", include):
            hidden = path.endswith(".cpp") or path in inner
            if table.kernel[room] != "yes" and not (hidden and table.kernel[room] == "in .cpp"):
                yield f"{at}: the geometry kernel must not be seen here"


def main():
    root = pathlib.Path(sys.argv[1])
    source = root / "src"
    table = Table((root / "DEVELOPERS.md").read_text(encoding="utf-8"))
    texts = {str(path.relative_to(source)): path.read_text(encoding="utf-8") for path in sorted(source.rglob("*.[ch]pp"))}
    inner = {path: room for path, text in texts.items() if path.endswith(".hpp") and (room := inside_of(text))}
    if "--probe" in sys.argv:
        wrong = [("rules", "rules/probe.hpp", '#include "measure/measure.hpp"\n#include <gp_Pnt.hxx>\n'),
                 ("study", "study/probe.hpp", '#include "rules/book.hpp"\n#include "rules/limits.hpp"\n'),
                 ("drawing", "drawing/probe.cpp", '#include "parts/pieces.hpp"\n'),
                 ("measure", "measure/probe.hpp", "#include <gp_Pnt.hxx>\n"),
                 ("rules", "rules/probe.cpp", '#include <cmath>\n#include "rules/probe.hpp"\n#include <glpk.h>\n')]
        found = [fault for probe in wrong for fault in faults_in(table, inner, *probe)]
        return 0 if len(found) == 7 else 1
    rooms = {p.name for p in source.iterdir() if p.is_dir()}
    faults = list(table.faults)
    if rooms != set(table.rooms):
        return print(f"rooms and table differ: {sorted(rooms ^ set(table.rooms))}") or 1
    faults += [f"{path}: stands in another room than '{room}', which it is said to be inside of"
               for path, room in inner.items() if not path.startswith(room + "/")]
    for path, text in texts.items():
        faults += faults_in(table, inner, path.split("/")[0], path, text)
    print("\n".join(faults) or f"{len(texts)} files keep to their rooms")
    return 1 if faults or len(texts) < 50 else 0


sys.exit(main())
