"""Reads DXF files as a strict program does, and says what it found as one line of JSON each.

Run by tests/reference/strict_readers.rs with the files as arguments; needs ezdxf and shapely.
"""

import json
import math
import sys

import ezdxf
from ezdxf import path
from shapely.geometry import Polygon


def apart(points):
    """The points without those that rounding left beside another where two arcs meet."""
    kept = points[:1]
    for point in points[1:]:
        if math.dist(point, kept[-1]) > 1e-6:
            kept.append(point)
    return kept[:-1] if math.dist(kept[0], kept[-1]) <= 1e-6 else kept


def found(name):
    document = ezdxf.readfile(name)
    audit = document.audit()
    areas = {}
    space = document.modelspace()
    for entity in space:
        if entity.dxftype() in ("LWPOLYLINE", "POLYLINE", "SPLINE"):
            points = apart([(p.x, p.y) for p in path.make_path(entity).flattening(1e-5)])
            closed = entity.closed if entity.dxftype() != "POLYLINE" else entity.is_closed
            polygon = Polygon(points)
            areas.setdefault(entity.dxf.layer, []).append(
                {"area": polygon.area, "closed": bool(closed), "valid": polygon.is_valid,
                 "box": list(polygon.bounds)}
            )
    return {
        "errors": [str(error.message) for error in audit.errors],
        "fixes": [str(fix.message) for fix in audit.fixes],
        "units": document.header.get("$INSUNITS"),
        "release": document.dxfversion,
        "layers": sorted(layer.dxf.name for layer in document.layers),
        "curves": areas,
        "holes": [[c.dxf.center.x, c.dxf.center.y, c.dxf.radius] for c in space.query("CIRCLE")],
    }


for name in sys.argv[1:]:
    print(json.dumps(found(name)))
