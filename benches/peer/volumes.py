#!/usr/bin/env python3
"""Volumes by wood of a turned piece, by mesh booleans.

The outside road to the volumes that the program works out exactly: every part
is a triangle mesh, every cut is made by a mesh kernel, round walls are facets.
Shares no code with the program. Needs manifold3d and numpy (requirements.txt);
`cargo xtask bench` makes a Python environment for it and runs it.

    volumes.py PIECE.json...           one JSON object a file, in a list
    volumes.py reference/geometry_cases.json     its cases of kind "volume"
    volumes.py --facets 512 PIECE.json           no search, these facets

Input: one piece, a list of pieces, or an object with a list "cases" whose
entries hold "id", "kind": "volume", "inputs" (the piece), and, if known,
"expected" (mm3 by wood) and "relative_tolerance". Lengths mm, angles degrees,
axis +z, azimuth counter-clockwise from +x seen from above. A piece is

    {"rings":  [ring...],  "loops": [step...],        one section, or
     "wall":   {"inner_radius", "outer_radius", "bottom", "top"} for rings, or
     "sections": [{"bottom": z of its underside in the piece (0),
                   "turn": its turn against the piece (0),
                   "rings": [...], "loops": [...]}...],
     "turned": the form that all of it is cut down to (left out: the wall, or
               uncut if there is none)}

  ring   {"segments", "rotation": azimuth of the middle of segment 0,
          "filled": share of its sector that each segment fills, its sides in
          planes through the axis (1),
          "let_in": a panel of flats in a groove ("segments", "rotation",
          "apothem", "apothem_groove", "bottom", "top", "wood"), if there is one,
          "apothem_out", "apothem_in": distances to the flats (0: a disc with
          flats), "bottom", "top", and "wood": a name, or "woods": names
          repeated segment by segment, counter-clockwise from segment 0}
  step   {"tilt", "azimuth": where the cut plane climbs most, "height": where
          it meets the axis, "removed", "insert": thicknesses square to the
          plane; the removed slab is centred on the plane, the layer starts at
          the slab's lower face, the part above moves by insert - removed
          along the plane's upward normal. "turn" (0): the part above is then
          turned round the axis. "wood": name of the layer ("loop1", ...)}
  turned {"inner_radius", "outer_radius", "bottom", "top"} or
         {"polygon_r_z": [[radius, height]...] once round the half-section}

Heights in a section's rings and steps are from the section's underside. Steps
are made in the order listed; a later layer replaces what it meets. Layers are
as wide as the section's widest ring, corner to corner.

Output, for each piece: "volumes" in mm3 by wood, "facets" round the circle,
"seconds" to build the meshes, cut them and sum the volumes (median of the
repeats), "search_seconds", "deviation" from the extrapolated volumes and, if
given, "expected_deviation" from the expected ones (both largest relative over
the woods). The facet count is the smallest on a ladder from which on every
wood is within --accuracy (1e-4) of the volumes at 512 and 1024 facets
extrapolated to endless facets (the error falls as one over facets squared).
By default the facets' corners lie on the circle, as mesh kernels make them;
--true-area widens them until each polygon has its circle's area, which needs
far fewer facets: the kindest case for the mesh road.
Exit code 1 when an expected volume is missed by more than its tolerance, or
by more than --accuracy where that is wider.
"""

import argparse
import json
import math
import statistics
import sys
import time

import numpy as np
from manifold3d import CrossSection, Manifold, OpType

LADDER = [16, 20, 24, 32, 40, 48, 64, 80, 96, 128, 160, 192, 224, 264, 320, 384, 512, 768, 1024]
TRUE_AREA = False


def union(solids):
    """All of them as one solid."""
    return solids[0] if len(solids) == 1 else Manifold.batch_boolean(solids, OpType.Add)


def prism(points, bottom, top):
    """The plane figure `points` between two heights."""
    return CrossSection([np.array(points)]).extrude(top - bottom).translate((0.0, 0.0, bottom))


def regular(apothem, segments, rotation):
    """Corners of a regular polygon, the middle of its side 0 at `rotation` degrees."""
    radius = apothem / math.cos(math.pi / segments)
    turns = [math.radians(rotation) + (2 * i - 1) * math.pi / segments for i in range(segments)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in turns]


def ring_parts(ring):
    """(wood, solid) of a ring and of what is let into it, one for each wood."""
    parts, panel = segment_parts(ring), ring.get("let_in")
    if not panel:
        return parts

    def cut(apothem):
        corners = regular(apothem, int(panel["segments"]), panel["rotation"])
        return prism(corners, panel["bottom"], panel["top"])

    groove = cut(panel["apothem_groove"])
    parts = [(wood, solid - groove) for wood, solid in parts]
    same = [solid for wood, solid in parts if wood == panel["wood"]]
    parts = [(wood, solid) for wood, solid in parts if wood != panel["wood"]]
    return parts + [(panel["wood"], union([*same, cut(panel["apothem"])]))]


def open_parts(ring):
    """(wood, solid) of segments that do not meet."""
    segments, half = int(ring["segments"]), math.pi / ring["segments"] * ring["filled"]
    woods, by_wood = ring.get("woods") or [ring["wood"]], {}
    for i in range(segments):
        middle = math.radians(ring.get("rotation", 0.0)) + 2.0 * math.pi * i / segments

        def corner(apothem, side, middle=middle):
            a = middle + side * half
            r = apothem / math.cos(half)
            return (r * math.cos(a), r * math.sin(a))

        outer = [corner(ring["apothem_out"], -1), corner(ring["apothem_out"], 1)]
        inner = [corner(ring["apothem_in"], 1), corner(ring["apothem_in"], -1)]
        solid = prism([*outer, *inner], ring["bottom"], ring["top"])
        by_wood.setdefault(woods[i % len(woods)], []).append(solid)
    return [(wood, union(solids)) for wood, solids in by_wood.items()]


def segment_parts(ring):
    """(wood, solid) of a ring's segments, one for each wood."""
    if ring.get("filled", 1.0) < 1.0:
        return open_parts(ring)
    segments, rotation = int(ring["segments"]), ring.get("rotation", 0.0)
    bottom, top = ring["bottom"], ring["top"]
    outside = regular(ring["apothem_out"], segments, rotation)
    hollow = ring["apothem_in"] > 0.0
    inside = regular(ring["apothem_in"], segments, rotation) if hollow else []
    woods = ring.get("woods") or [ring["wood"]]
    if len(set(woods)) == 1:
        solid = prism(outside, bottom, top)
        if hollow:
            solid -= prism(inside, bottom - 1.0, top + 1.0)
        return [(woods[0], solid)]
    by_wood = {}
    for i in range(segments):
        j = (i + 1) % segments
        inner = [inside[j], inside[i]] if hollow else [(0.0, 0.0)]
        corners = [outside[i], outside[j], *inner]
        by_wood.setdefault(woods[i % len(woods)], []).append(prism(corners, bottom, top))
    return [(wood, union(solids)) for wood, solids in by_wood.items()]


def revolved(points, facets):
    """A half-section of (radius, height) corners, turned round the axis."""
    if TRUE_AREA:
        angle = 2.0 * math.pi / facets
        wider = math.sqrt(angle / math.sin(angle))
        points = [[r * wider, z] for r, z in points]
    area = sum(
        r0 * z1 - r1 * z0 for (r0, z0), (r1, z1) in zip(points, points[1:] + points[:1])
    )
    outline = points if area > 0.0 else points[::-1]
    return Manifold.revolve(CrossSection([np.array(outline, dtype=float)]), facets)


def turned_form(form, facets):
    """A wall between two radii, or a half-section."""
    if "polygon_r_z" in form:
        return revolved(form["polygon_r_z"], facets)
    inner, outer = form["inner_radius"], form["outer_radius"]
    bottom, top = form["bottom"], form["top"]
    return revolved([[inner, bottom], [outer, bottom], [outer, top], [inner, top]], facets)


def merged(parts):
    """Parts with each wood's solids joined to one, empty ones dropped."""
    by_wood = {}
    for wood, solid in parts:
        if not solid.is_empty():
            by_wood.setdefault(wood, []).append(solid)
    return [(wood, union(solids)) for wood, solids in by_wood.items()]


def cut_and_rejoin(parts, step, name, width):
    """One step: saw a slab out of every part, glue a layer in, move what is above."""
    tilt, azimuth = math.radians(step["tilt"]), math.radians(step.get("azimuth", 0.0))
    normal = np.array(
        [-math.sin(tilt) * math.cos(azimuth), -math.sin(tilt) * math.sin(azimuth), math.cos(tilt)]
    )
    middle = step["height"] * normal[2]
    low, high = middle - step["removed"] / 2.0, middle + step["removed"] / 2.0
    moved = normal * (step["insert"] - step["removed"])
    turn = step.get("turn", 0.0)
    after = []
    for wood, solid in parts:
        above, rest = solid.split_by_plane(normal, low)
        after.append((wood, rest))
        if high > low:
            above = above.trim_by_plane(normal, high)
        after.append((wood, above.translate(moved).rotate((0.0, 0.0, turn))))
    if step["insert"] > 0.0:
        reach = (2.0 * width + step["insert"] + step["removed"]) / normal[2]
        layer = prism(regular(width, 24, 0.0), step["height"] - reach, step["height"] + reach)
        layer = layer.trim_by_plane(normal, low).trim_by_plane(-normal, -(low + step["insert"]))
        after.append((name, layer))
    return merged(after)


def section_parts(section, facets, first_loop):
    """(wood, solid) of a section after all of its steps, in the piece's place."""
    if "wall" in section:
        parts = [("wall", turned_form(section["wall"], facets))]
        width = section["wall"]["outer_radius"]
    else:
        rings = section["rings"]
        parts = merged([part for ring in rings for part in ring_parts(ring)])
        width = max(r["apothem_out"] / math.cos(math.pi / r["segments"]) for r in rings)
    for number, step in enumerate(section.get("loops", []), start=first_loop):
        parts = cut_and_rejoin(parts, step, step.get("wood", f"loop{number}"), width)
    turn, bottom = section.get("turn", 0.0), section.get("bottom", 0.0)
    return [
        (wood, solid.rotate((0.0, 0.0, turn)).translate((0.0, 0.0, bottom)))
        for wood, solid in parts
    ]


def volumes(piece, facets):
    """Volume in mm3 by wood, with `facets` round every circle."""
    form = None
    if "turned" in piece:
        form = turned_form(piece["turned"], facets)
    elif "wall" in piece:
        form = turned_form(piece["wall"], facets)
    by_wood, first_loop = {}, 1
    for section in piece.get("sections") or [piece]:
        for wood, solid in section_parts(section, facets, first_loop):
            finished = solid ^ form if form is not None else solid
            by_wood[wood] = by_wood.get(wood, 0.0) + finished.volume()
        first_loop += len(section.get("loops", []))
    return dict(sorted(by_wood.items()))


def deviation(found, wanted):
    """Largest relative difference over the wanted woods."""
    return max(
        (abs(found.get(wood, 0.0) - v) / v if v else abs(found.get(wood, 0.0)))
        for wood, v in wanted.items()
    )


def extrapolated(piece):
    """Volumes for endless facets from 512 and 1024."""
    coarse, fine = volumes(piece, 512), volumes(piece, 1024)
    return {wood: v + (v - coarse.get(wood, 0.0)) / 3.0 for wood, v in fine.items()}


def facets_for(piece, wanted, accuracy):
    """Fewest facets on the ladder from which on all rungs are accurate enough."""
    enough = LADDER[-1]
    for facets in reversed(LADDER[:-1]):
        if deviation(volumes(piece, facets), wanted) > accuracy:
            break
        enough = facets
    return enough


def measure(case, options):
    """One piece's line of the output."""
    piece = case.get("inputs", case)
    started = time.perf_counter()
    if options.facets:
        wanted, facets = None, options.facets
    else:
        wanted = extrapolated(piece)
        facets = facets_for(piece, wanted, options.accuracy)
    searched = time.perf_counter() - started
    seconds, found = [], {}
    for _ in range(options.repeat):
        started = time.perf_counter()
        found = volumes(piece, facets)
        seconds.append(time.perf_counter() - started)
    result = {
        "id": case.get("id", case.get("title", "piece")),
        "volumes": found,
        "total": sum(found.values()),
        "facets": facets,
        "seconds": statistics.median(seconds),
        "search_seconds": searched,
    }
    if wanted:
        result["deviation"] = deviation(found, wanted)
        result["extrapolated"] = wanted
    expected = case.get("expected")
    if expected:
        best = wanted or found
        result["expected_deviation"] = deviation(best, expected)
        allowed = max(case.get("relative_tolerance", 0.0), options.accuracy)
        result["expected_met"] = result["expected_deviation"] <= allowed
    return result


def cases_in(path):
    """The pieces of a file."""
    with open(path, encoding="utf-8") as file:
        data = json.load(file)
    if isinstance(data, dict) and "cases" in data:
        return [case for case in data["cases"] if case.get("kind") == "volume"]
    return data if isinstance(data, list) else [data]


def main():
    """Reads the pieces, prints the list."""
    parser = argparse.ArgumentParser(description="Volumes by wood, by mesh booleans.")
    parser.add_argument("files", nargs="+", metavar="PIECE.json")
    parser.add_argument("--accuracy", type=float, default=1e-4, help="relative, each wood")
    parser.add_argument("--facets", type=int, help="use these facets; no search")
    parser.add_argument("--repeat", type=int, default=3, help="timed runs")
    parser.add_argument("--true-area", action="store_true", help="polygons as large as their circles")
    options = parser.parse_args()
    global TRUE_AREA
    TRUE_AREA = options.true_area
    results = [measure(case, options) for path in options.files for case in cases_in(path)]
    json.dump(results, sys.stdout, indent=2)
    print()
    return 0 if all(r.get("expected_met", True) for r in results) else 1


if __name__ == "__main__":
    sys.exit(main())
