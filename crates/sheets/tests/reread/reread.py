#!/usr/bin/env python3
"""Reads the DXF and SVG templates of a folder with libraries that are not ours and
compares them: every straight length of one must be in the other.

    reread.py FOLDER        a folder as `ringwright templates` writes it

Needs ezdxf and svgelements (requirements.txt); `cargo xtask test` makes a Python
environment for it and runs it on every example. Ends with 1 if anything is off.
"""

import sys
from pathlib import Path

import ezdxf
from svgelements import SVG, Close, Line, Path as SvgPath

# How near lengths must be to each other, mm.
EXACT = 0.01
# Check bars, mm: 100 mm and 4 in.
BARS = (100.0, 101.6)
# Shorter pieces are those of curves: one is as good as another.
SHORT = 0.5


def dxf_lengths(path):
    """Straight lengths by layer, mm: one unit is one millimetre."""
    drawing = ezdxf.readfile(path)
    errors = [e.message for e in drawing.audit().errors]
    if errors:
        raise ValueError(f"{path.name}: {errors}")
    out = {}
    for entity in drawing.modelspace():
        points = []
        if entity.dxftype() == "LINE":
            points = [entity.dxf.start, entity.dxf.end]
        elif entity.dxftype() == "POLYLINE":
            points = [v.dxf.location for v in entity.vertices]
            if entity.is_closed:
                points.append(points[0])
        lengths = out.setdefault(entity.dxf.layer, [])
        lengths += [a.distance(b) for a, b in zip(points, points[1:])]
    return out


def svg_lengths(path):
    """Straight lengths of everything that is drawn as a line, mm."""
    # 96 user units to the inch, so that a size given in mm comes out as it is.
    mm = 25.4 / 96
    out = []
    for element in SVG.parse(path, ppi=96, reify=True).elements():
        if isinstance(element, SvgPath) and element.stroke.value is not None:
            straight = (s for s in element if isinstance(s, (Line, Close)) and s.start)
            out += [s.length() * mm for s in straight]
    return out


def compare(wanted, found, what):
    """The largest distance of a wanted length from the nearest that was found."""
    most = 0.0
    for length in wanted:
        nearest = min((abs(length - f) for f in found), default=float("inf"))
        if nearest > EXACT:
            raise ValueError(f"{what}: nothing is {length:.4f} long")
        most = max(most, nearest)
    return most


def main(folder):
    files = sorted(Path(folder).glob("*.dxf"))
    if not files:
        raise ValueError(f"no DXF in {folder}")
    most, count = 0.0, 0
    for file in files:
        layers = dxf_lengths(file)
        dxf = [l for lengths in layers.values() for l in lengths if l > SHORT]
        svg = [l for l in svg_lengths(file.with_suffix(".svg")) if l > SHORT]
        most = max(most, compare(dxf, svg, f"{file.stem}.svg"))
        most = max(most, compare(svg, dxf, file.name))
        most = max(most, compare(BARS, layers.get("CHECK-BARS", []), file.name))
        most = max(most, compare(BARS, svg, f"{file.stem}.svg"))
        count += len(dxf)
    print(
        f"{Path(folder).name}: {len(files)} templates, {count} lengths, "
        f"DXF and SVG differ by at most {most:.5f} mm"
    )


if __name__ == "__main__":
    try:
        main(sys.argv[1])
    except (OSError, ValueError, ezdxf.DXFError) as problem:
        sys.exit(f"{problem}")
