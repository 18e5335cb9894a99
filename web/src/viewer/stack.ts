// Rings before they are turned: prisms of segments in their woods' colours.
import { BufferAttribute, BufferGeometry, Color, Vector3 } from "three";
import type { Ring, Section, Step, Wood } from "../api";
import { colourOf } from "../parts/wood";
import { onScreen } from "./revolve";

/** The rings that are glued together at a stage, and those that still lie loose above them. */
export interface Stacked {
  rings: Ring[];
  loose: Ring[];
}

/** What stands on the bench at a step before the first loop; null where the turned piece is shown. */
export function standing(sections: Section[], steps: Step[], at: number | null): Stacked | null {
  const step = at === null ? undefined : steps[at];
  if (at === null || !step || (step.kind !== "rings" && step.kind !== "stack")) return null;
  const past = steps.slice(0, at + 1);
  // Loops cannot be drawn on prisms: from the first one on the wall is shown as it will be turned.
  if (past.some((one) => one.kind === "loop")) return null;
  const stacked = sections.filter((_, i) => past.some((one) => one.kind === "stack" && one.section === i)).flatMap((section) => section.rings);
  if (step.kind === "stack") return { rings: stacked, loose: [] };
  const next = steps.slice(at).find((one) => one.kind === "stack")?.section;
  return { rings: stacked, loose: (next === null || next === undefined ? undefined : sections[next])?.rings ?? [] };
}

/** Prisms with a colour at each corner, and their edges. */
export function prisms({ rings, loose }: Stacked, woods: Wood[]): { body: BufferGeometry; edges: BufferGeometry } {
  const position: number[] = [];
  const normal: number[] = [];
  const colour: number[] = [];
  const edges: number[] = [];
  const flat = (corners: Vector3[], paint: Color) => {
    const [a, b, c] = corners as [Vector3, Vector3, Vector3, Vector3];
    const out = b.clone().sub(a).cross(c.clone().sub(a)).normalize();
    for (const i of [0, 1, 2, 0, 2, 3]) {
      position.push(...(corners[i] as Vector3).toArray());
      normal.push(...out.toArray());
      colour.push(paint.r, paint.g, paint.b);
    }
    corners.forEach((corner, i) => edges.push(...corner.toArray(), ...(corners[(i + 1) % 4] as Vector3).toArray()));
  };
  [...rings, ...loose].forEach((ring, k) => {
    // Loose rings stand apart by most of their height.
    const lift = Math.max(0, k - rings.length + 1) * 0.6 * (ring.z1 - ring.z0);
    const [low, high] = [ring.z0 + lift, ring.z1 + lift];
    const n = ring.solid ? 48 : ring.segments;
    // Outside the flats are named, inside the corners: both as the rule measures them.
    const outside = ring.solid ? ring.outside : ring.outside / Math.cos(Math.PI / n);
    const inside = ring.solid ? 0.01 : ring.inside;
    for (let i = 0; i < n; i++) {
      const paint = new Color(colourOf(woods, ring.woods[ring.solid ? 0 : i] ?? ""));
      const [from, to] = [ring.start + (360 * i) / n, ring.start + (360 * (i + 1)) / n];
      const at = (r: number, azimuth: number, z: number) => onScreen(r, azimuth, z);
      flat([at(outside, from, low), at(outside, to, low), at(outside, to, high), at(outside, from, high)], paint);
      flat([at(inside, to, low), at(inside, from, low), at(inside, from, high), at(inside, to, high)], paint);
      flat([at(inside, from, high), at(outside, from, high), at(outside, to, high), at(inside, to, high)], paint);
      flat([at(outside, from, low), at(inside, from, low), at(inside, to, low), at(outside, to, low)], paint);
    }
  });
  const body = new BufferGeometry();
  body.setAttribute("position", new BufferAttribute(new Float32Array(position), 3));
  body.setAttribute("normal", new BufferAttribute(new Float32Array(normal), 3));
  body.setAttribute("color", new BufferAttribute(new Float32Array(colour), 3));
  const lines = new BufferGeometry();
  lines.setAttribute("position", new BufferAttribute(new Float32Array(edges), 3));
  return { body, edges: lines };
}
