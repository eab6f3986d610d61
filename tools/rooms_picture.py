#!/usr/bin/env python3
# Draws docs/architecture.svg from the tables of docs/architecture.md: rooms in layers, each on those it stands on.
#   tools/rooms_picture.py > docs/architecture.svg
# Not for: checking; tests/arch says where picture and table disagree.
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tests/arch"))
from check_house import read_table  # noqa: E402

WORDS = {"base": "results, units", "physics": "the laws", "catalogue": "tables", "shop": "the project, edits",
         "pieces": "the drawing", "drawing": "pictures, charts", "network": "the solver", "hand": "pencil method",
         "judge": "sheet, findings", "doubt": "bands, chances", "field": "instruments", "files": "JSON",
         "papers": "documents", "paint": "pixels, PDF", "desk": "the window", "design": "sizes, routes"}
WIDE, HIGH, GAP_X, GAP_Y, EDGE = 116, 36, 26, 36, 24


def layers(rooms):
    depth = {}
    for room, (under, _) in rooms.items():
        depth[room] = 1 + max((depth[name] for name in under), default=-1)
    # As near as may be to those above: long arrows are the ones that are hard to follow.
    for room in reversed(rooms):
        above = [depth[other] for other in rooms if room in rooms[other][0]]
        depth[room] = min(above) - 1 if above else depth[room]
    rows = [[r for r in rooms if depth[r] == d] for d in range(max(depth.values()) + 1)]
    # A few sweeps put each room over the middle of those it stands on.
    place = {room: (i + 0.5) / len(row) for row in rows for i, room in enumerate(row)}
    for _ in range(20):
        for row in rows:
            near = {room: [place[n] for n in rooms[room][0]] + [place[o] for o in rooms if room in rooms[o][0]]
                    for room in row}
            row.sort(key=lambda room: (sum(near[room]) / len(near[room]) if near[room] else 0.5, room))
            for i, room in enumerate(row):
                place[room] = (i + 0.5) / len(row)
    return rows


def main():
    rooms, apps = read_table(ROOT)
    rows = layers(rooms)
    width = max(len(row) for row in rows) * (WIDE + GAP_X) - GAP_X + 2 * EDGE
    top = EDGE + len(apps) * 38
    height = top + len(rows) * (HIGH + GAP_Y) - GAP_Y + EDGE
    at = {}
    for d, row in enumerate(rows):
        step = (width - 2 * EDGE) / len(row)
        for i, room in enumerate(row):
            at[room] = (EDGE + (i + 0.5) * step, top + (len(rows) - 1 - d) * (HIGH + GAP_Y) + HIGH / 2)
    out = [f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" '
           'font-family="sans-serif" role="img">',
           "<title>Rooms of kerfdraft: each stands on the rooms its arrows point to</title>",
           '<defs><marker id="tip" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="7" markerHeight="7" '
           'orient="auto"><path d="M0 0 L10 5 L0 10 z" fill="#555"/></marker></defs>',
           f'<rect width="{width}" height="{height}" fill="#fff"/>']
    for room, (under, _) in rooms.items():
        for name in under:
            (x1, y1), (x2, y2) = at[room], at[name]
            share = (x2 - x1) / max(y2 - y1, 1)
            out.append(f'<g><title>{room} stands on {name}</title><line x1="{x1 + share * HIGH / 2:.0f}" '
                       f'y1="{y1 + HIGH / 2:.0f}" x2="{x2 - share * HIGH / 2:.0f}" y2="{y2 - HIGH / 2:.0f}" '
                       'stroke="#555" stroke-width="1.5" marker-end="url(#tip)"/></g>')
    for room, (x, y) in at.items():
        fill = "#e8e8e8" if not rooms[room][0] else "#eef4fa"
        out.append(f'<rect x="{x - WIDE / 2:.0f}" y="{y - HIGH / 2:.0f}" width="{WIDE}" height="{HIGH}" rx="4" '
                   f'fill="{fill}" stroke="#345"/>')
        out.append(f'<text x="{x:.0f}" y="{y - 2:.0f}" font-size="14" font-weight="bold" text-anchor="middle" '
                   f'fill="#123">{room}</text>')
        out.append(f'<text x="{x:.0f}" y="{y + 12:.0f}" font-size="10.5" text-anchor="middle" '
                   f'fill="#345">{WORDS.get(room, "")}</text>')
    for k, app in enumerate(apps):
        y = 8 + k * 38
        out.append(f'<rect x="{EDGE}" y="{y}" width="{width - 2 * EDGE}" height="30" rx="4" fill="#fff8e6" stroke="#864"/>')
        out.append(f'<text x="{width / 2:.0f}" y="{y + 20}" font-size="13" text-anchor="middle" fill="#431">'
                   f'<tspan font-weight="bold">{app}</tspan>  may use every room</text>')
    out.append("</svg>")
    print("\n".join(out))


if __name__ == "__main__":
    main()
