"""Writes DXF files with blocks as another program does: an ellipse of 800 by 200 mm with the bolt holes of a deck.

Run by tests/reference/bring_in.rs with the eight holes as JSON on its input; needs ezdxf. Prints a line of JSON for each file.
"""

import io
import json
import math
import sys

import ezdxf
from ezdxf import units

holes = json.load(sys.stdin)


def put(name, document):
    stream = io.StringIO()
    document.write(stream)
    print(json.dumps({"name": name, "text": stream.getvalue()}))


def begun(release):
    document = ezdxf.new(release)
    document.units = units.MM
    return document


def fill(block, scale, at=(0, 0)):
    """The deck at so many mm a unit, its middle at a place."""
    block.add_ellipse(at, major_axis=(400 / scale, 0), ratio=0.25)
    for x, y in holes:
        block.add_circle((at[0] + x / scale, at[1] + y / scale), 2.6 / scale)


document = begun("R2010")
fill(document.blocks.new("DECK", base_point=(5, 6)), 100, (5, 6))
document.modelspace().add_blockref(
    "DECK", (40, 70), dxfattribs={"xscale": -100, "yscale": 100, "rotation": 12.5}
)
put("mirrored, turned and scaled about its base", document)

document = begun("R2018")
inner, outer = document.blocks.new("INNER"), document.blocks.new("OUTER", base_point=(3, 0))
fill(inner, 100)
outer.add_blockref("INNER", (3, 1), dxfattribs={"xscale": 10, "yscale": 10, "rotation": 90})
document.modelspace().add_blockref(
    "OUTER", (1, 2), dxfattribs={"xscale": 10, "yscale": 10, "extrusion": (0, 0, -1)}
)
put("a block in a block, on the back of the sheet", document)

document = begun("R12")
block = document.blocks.new("EDGE")
ring = [math.tau * k / 720 for k in range(720)]
block.add_polyline2d([(400 * math.cos(a), 100 * math.sin(a)) for a in ring], close=True)
document.modelspace().add_blockref("EDGE", (0, 0))
hole = document.blocks.new("HOLE")
hole.add_circle((0, 0), 1)
for x, y in holes:
    document.modelspace().add_blockref("HOLE", (x, y), dxfattribs={"xscale": 2.6, "yscale": 2.6})
put("an old release", document)
