"""Reads DXF files with ezdxf, an independent library, and prints what is in each as one JSON object a line.

Exit code 1 when any file needs a repair: an audit with an error or with a fix. With --audit nothing else is told of
them. With --plain texts are as people see
them, without the format's codes. With --ask the files' names come by standard input, and each is answered at once.
"""
import collections
import json
import re
import sys

import ezdxf
from ezdxf import bbox
from ezdxf.lldxf.encoding import decode_dxf_unicode
from ezdxf.tools.text import plain_text


def plain(text):
    text = plain_text(re.sub(r"%%(\d{3})", lambda code: f"\\U+{int(code[1]):04X}", text))
    return decode_dxf_unicode(text).encode("utf-16", "surrogatepass").decode("utf-16")


def told(path, words):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    if "--audit" in options:
        return {"path": path, "errors": [e.message for e in audit.errors], "fixes": [e.message for e in audit.fixes]}
    model = doc.modelspace()
    lines = [e for e in model if e.dxftype() in ("LINE", "ARC", "CIRCLE") and e.dxf.layer in ("FW-OUTLINE", "FW-HIDDEN")]
    box = bbox.extents(lines) if lines else None
    return {
        "path": path,
        "errors": [e.message for e in audit.errors],
        "fixes": [e.message for e in audit.fixes],
        "units": doc.units,
        "types": dict(sorted(collections.Counter(e.dxftype() for e in model).items())),
        "layers": dict(sorted(collections.Counter(e.dxf.layer for e in model).items())),
        "known_layers": sorted(layer.dxf.name for layer in doc.layers),
        "texts": [words(e.dxf.text) for e in model if e.dxftype() in ("TEXT", "DIMENSION")],
        "letters": [[e.dxf.text, e.dxf.height, e.dxf.rotation] for e in model if e.dxftype() == "TEXT"],
        "dimensions": [[*e.dxf.defpoint2.vec2, *e.dxf.defpoint3.vec2, e.dxf.actual_measurement, e.dxf.text, e.dxf.angle,
                        sorted(p.dxftype() for p in doc.blocks[e.dxf.geometry])]
                       for e in model if e.dxftype() == "DIMENSION"],
        "closed": [[[p[0], p[1]] for p in e.get_points()] for e in model if e.dxftype() == "LWPOLYLINE" and e.closed],
        "hatches": [[e.dxf.pattern_name, [[[p[0], p[1]] for p in path.vertices] for path in e.paths],
                     len(e.pattern.lines), e.dxf.pattern_angle] for e in model if e.dxftype() == "HATCH"],
        "members": [{a.dxf.tag: a.dxf.text for a in e.attribs} for e in model if e.dxftype() == "INSERT"],
        "layouts": {layout.name: [[v.dxf.width, v.dxf.height, v.dxf.view_height] for v in layout.query("VIEWPORT")]
                    for layout in doc.layouts if layout.name != "Model"},
        "box": [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y] if box else None,
        "lines": [[e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y, e.dxf.layer] for e in model if e.dxftype() == "LINE"],
        "circles": [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in model if e.dxftype() == "CIRCLE"],
        "arcs": [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle] for e in model if e.dxftype() == "ARC"],
    }


options = {argument for argument in sys.argv[1:] if argument in ("--plain", "--ask", "--audit")}
words = plain if "--plain" in options else str
bad = False
for path in map(str.rstrip, sys.stdin) if "--ask" in options else (a for a in sys.argv[1:] if a not in options):
    found = told(path, words)
    bad = bad or bool(found["errors"] or found["fixes"])
    print(json.dumps(found), flush=True)
sys.exit(1 if bad else 0)
