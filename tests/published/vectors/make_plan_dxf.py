#!/usr/bin/python3
"""Writes plan.dxf and plan_dxf.csv: an invented shop's floor plan by an independent library, and what that library
reads out of it again: of each layer the length of its lines and the corners of everything on it.

Run with Debian's python3-ezdxf (0.18.1) in this folder: /usr/bin/python3 make_plan_dxf.py
Lengths are those of the library's own flattening to a ten-thousandth of a unit, so ours agree to a thousandth of them.
"""
import math

import ezdxf
from ezdxf import path
from ezdxf.addons.drawing import RenderContext  # noqa: F401  (part of the package that is asked for)
from ezdxf.disassemble import recursive_decompose

doc = ezdxf.new("R2010")
doc.header["$INSUNITS"] = 4  # millimetres
for name, off in [("Walls", False), ("Doors", False), ("Benches", False), ("Old machines", True), ("Notes", False)]:
    layer = doc.layers.add(name)
    if off:
        layer.off()
space = doc.modelspace()
# Coordinates as a surveyor's: far from the origin.
east, north = 512_000.0, 48_000.0
space.add_lwpolyline([(east, north), (east + 7300, north), (east + 7300, north + 6100), (east, north + 6100)], close=True,
                     dxfattribs={"layer": "Walls"})
space.add_line((east + 2000, north), (east + 2000, north + 1800), dxfattribs={"layer": "Walls"})
# A bay with a round end: a bulge.
space.add_lwpolyline([(east + 7300, north + 2000, 0, 0, 0.6), (east + 7300, north + 3500, 0, 0, 0)],
                     dxfattribs={"layer": "Walls"})
leaf = doc.blocks.new("leaf")
leaf.add_line((0, 0), (900, 0), dxfattribs={"layer": "0"})
leaf.add_arc((0, 0), 900, 0, 90, dxfattribs={"layer": "0"})
space.add_blockref("leaf", (east + 3000, north), dxfattribs={"layer": "Doors"})
space.add_blockref("leaf", (east, north + 4000),
                   dxfattribs={"layer": "Doors", "rotation": 37, "xscale": -0.8, "yscale": 0.8})
space.add_circle((east + 4000, north + 3000), 450, dxfattribs={"layer": "Benches"})
space.add_ellipse((east + 5500, north + 4500), (800, 300), 0.4, 0.3, 5.1, dxfattribs={"layer": "Benches"})
space.add_polyline2d([(east + 500, north + 500), (east + 1500, north + 500), (east + 1500, north + 1300)],
                     dxfattribs={"layer": "Old machines"})
space.add_text("INVENTED SHOP", dxfattribs={"layer": "Notes", "height": 200}).set_pos((east, north))
doc.saveas("plan.dxf")

FLAT = 1e-4
lengths, corners = {}, {}
placed = [(top.dxf.layer, entity) for top in ezdxf.readfile("plan.dxf").modelspace()
          for entity in recursive_decompose([top])]
for of_block, entity in placed:
    if entity.dxftype() == "TEXT":
        continue
    points = list(path.make_path(entity).flattening(FLAT))
    # What a block holds on layer 0 is on the layer that the block is placed on (DXF reference, BLOCK).
    layer = of_block if entity.dxf.layer == "0" else entity.dxf.layer
    lengths[layer] = lengths.get(layer, 0.0) + sum(math.dist(a, b) for a, b in zip(points, points[1:]))
    box = corners.setdefault(layer, [math.inf, math.inf, -math.inf, -math.inf])
    for p in points:
        box[:] = min(box[0], p.x), min(box[1], p.y), max(box[2], p.x), max(box[3], p.y)
with open("plan_dxf.csv", "w") as out:
    out.write(f"# made by make_plan_dxf.py with ezdxf {ezdxf.__version__}\n")
    out.write("layer,length,left,bottom,right,top\n")
    for layer in sorted(lengths):
        out.write(",".join([layer] + [f"{v:.4f}" for v in [lengths[layer]] + corners[layer]]) + "\n")
