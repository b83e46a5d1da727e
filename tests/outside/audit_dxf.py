"""Reads DXF files with ezdxf, an independent library, and prints what is in each as one JSON object a line.

Exit code 1 when any file needs a repair: an audit with an error or with a fix.
"""
import collections
import json
import sys

import ezdxf
from ezdxf import bbox

bad = False
for path in sys.argv[1:]:
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    model = doc.modelspace()
    lines = [e for e in model if e.dxftype() in ("LINE", "ARC", "CIRCLE") and e.dxf.layer in ("outline", "hidden")]
    box = bbox.extents(lines) if lines else None
    bad = bad or bool(audit.errors or audit.fixes)
    print(json.dumps({
        "path": path,
        "errors": [e.message for e in audit.errors],
        "fixes": [e.message for e in audit.fixes],
        "units": doc.units,
        "types": dict(sorted(collections.Counter(e.dxftype() for e in model).items())),
        "layers": dict(sorted(collections.Counter(e.dxf.layer for e in model).items())),
        "known_layers": sorted(layer.dxf.name for layer in doc.layers),
        "texts": [e.dxf.text for e in model if e.dxftype() == "TEXT"],
        "box": [box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y] if box else None,
        "lines": [[e.dxf.start.x, e.dxf.start.y, e.dxf.end.x, e.dxf.end.y, e.dxf.layer] for e in model if e.dxftype() == "LINE"],
        "circles": [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius] for e in model if e.dxftype() == "CIRCLE"],
        "arcs": [[e.dxf.center.x, e.dxf.center.y, e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle] for e in model if e.dxftype() == "ARC"],
    }))
sys.exit(1 if bad else 0)
