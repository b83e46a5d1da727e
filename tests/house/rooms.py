"""A room includes only the rooms below it, and the kernel only where it may; a file its own header first.

The table is the one in DEVELOPERS.md. With --probe a wrong include is added to what was read, and the test passes only
when it is found: a guard that cannot bark guards nothing.
"""
import pathlib
import re
import sys

DIRECT = {
    "units": [],
    "points": [],
    "diag": ["units"],
    "survey": ["units", "points"],
    "job": ["diag", "units", "survey"],
    "facts": ["survey"],
    "brep": ["diag", "points"],
    "parts": ["job", "brep", "facts"],
    "intake": ["job", "brep"],
    "measure": ["parts", "points", "facts"],
    "rules": ["job", "facts"],
    "study": ["measure", "rules"],
    "takeoff": ["job", "facts"],
    "revision": ["rules", "takeoff"],
    "drawing": ["parts", "facts", "takeoff", "rules", "revision"],
    "exchange": ["parts", "drawing"],
    "report": ["rules", "takeoff", "facts", "revision"],
    "page": ["report", "drawing", "exchange"],
    "app": ["intake", "measure", "drawing", "exchange", "report", "page", "parts", "rules", "study", "takeoff", "revision", "job", "facts"],
}
# A study asks what would be under the limits, and whether advice that is followed holds; it words nothing of that.
ONLY_HEADERS = {("study", "rules"): {"limits.hpp", "joists.hpp", "check.hpp", "result.hpp", "road.hpp"}}
# In headers of `parts` the kernel's types are part of the meaning; the rooms below `parts` and above it keep it in .cpp.
KERNEL_IN_HEADERS = {"brep", "parts"}
KERNEL_IN_SOURCES = {"brep", "parts", "intake", "measure", "study", "drawing", "exchange"}
INNER_HEADERS = {  # seen by their own room only
    "measure/alcove.hpp", "measure/apart.hpp", "measure/detail.hpp", "measure/foremost.hpp", "measure/rim.hpp", "measure/sides.hpp",
    "measure/surface.hpp",
    "drawing/projection.hpp", "drawing/pen.hpp", "drawing/scene.hpp", "drawing/views.hpp",
    "exchange/document.hpp", "exchange/mesh.hpp", "exchange/palette.hpp", "exchange/stl.hpp",
    "intake/faces.hpp", "intake/step_solid.hpp",
}


def allowed(room):
    seen = {room}
    todo = list(DIRECT[room])
    while todo:
        below = todo.pop()
        if below not in seen:
            seen.add(below)
            todo += DIRECT[below]
    return seen


def faults_in(room, path, text):
    includes = re.findall(r'^#include (.*)$', text, re.M)
    own = f'"{path[:-len(".cpp")]}.hpp"'
    if own in includes[1:]:  # a header that leans on what its users include is found out so
        yield f"{path}: its own header comes first"
    for line, include in enumerate(text.splitlines(), 1):
        ours = re.match(r'#include "(\w+)/([^"]+)', include)
        if ours and ours[1] not in allowed(room):
            yield f"{path}:{line}: room '{room}' must not include from '{ours[1]}'"
        elif ours and ours[2] not in ONLY_HEADERS.get((room, ours[1]), {ours[2]}):
            yield f"{path}:{line}: room '{room}' must not include '{ours[2]}' from '{ours[1]}'"
        kernel = re.match(r"#include <[A-Za-z0-9]+(_[A-Za-z0-9]+)*\.hxx>", include)
        if not kernel:
            continue
        may = KERNEL_IN_SOURCES if path.endswith(".cpp") or path in INNER_HEADERS else KERNEL_IN_HEADERS
        if room not in may:
            yield f"{path}:{line}: the geometry kernel must not be seen here"


def main():
    source = pathlib.Path(sys.argv[1]) / "src"
    rooms = {p.name for p in source.iterdir() if p.is_dir()}
    faults = [f"rooms and table differ: {sorted(rooms ^ set(DIRECT))}"] if rooms != set(DIRECT) else []
    count = 0
    for path in sorted(source.rglob("*.[ch]pp")):
        count += 1
        room = path.relative_to(source).parts[0]
        faults += faults_in(room, str(path.relative_to(source)), path.read_text())
    if "--probe" in sys.argv:
        found = list(faults_in("rules", "rules/probe.hpp", '#include "measure/measure.hpp"\n#include <gp_Pnt.hxx>\n'))
        found += faults_in("study", "study/probe.hpp", '#include "rules/book.hpp"\n#include "rules/limits.hpp"\n')
        found += faults_in("rules", "rules/probe.cpp", '#include <cmath>\n#include "rules/probe.hpp"\n')
        return 0 if len(found) == 4 else 1
    print("\n".join(faults) or f"{count} files keep to their rooms")
    return 1 if faults or count < 50 else 0


sys.exit(main())
