"""The area of the parallel of a polygon at each of some distances, as shapely finds it.

Run by tests/reference/strict_readers.rs. Standard input: a line of JSON for each polygon, {"points": [[x, y], ...],
"distances": [...]}. Standard output: a line with the list of areas for each.
"""

import json
import sys

from shapely.geometry import Polygon

for line in sys.stdin:
    task = json.loads(line)
    polygon = Polygon(task["points"])
    print(json.dumps([polygon.buffer(d, quad_segs=400).area for d in task["distances"]]))
