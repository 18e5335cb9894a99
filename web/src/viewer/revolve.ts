// The turned piece as surfaces: lines turned round the axis, and the faces of its cuts.
// Data: mm, z up. On the screen's side y is up: (x, y, z) becomes (x, z, -y).
import { BufferAttribute, BufferGeometry, Shape, ShapeUtils, Vector2, Vector3 } from "three";
import type { Pair, SurfacePart } from "../api";

/** The part of the turn that is shown, in degrees. */
export interface Turn {
  from: number;
  span: number;
}

export const WHOLE: Turn = { from: 0, span: 360 };
/** Faces in a whole turn: at 96 the chord of a wall of 100 mm is off it by 0.05 mm. */
const ROUND = 96;
/** How far a drawn line may be off the true one, mm, and how far its normal may turn from one
 * station to the next, as a cosine (10°). Software renderers pay for every triangle. */
const OFF = 0.08;
const BEND = 0.985;

export function onScreen(radius: number, azimuth: number, z: number): Vector3 {
  const a = (azimuth * Math.PI) / 180;
  return new Vector3(radius * Math.cos(a), z, -radius * Math.sin(a));
}

/** Back from the screen's frame to the piece's. */
export function inPiece(point: Vector3): readonly [number, number, number] {
  return [point.x, -point.z, point.y];
}

interface Station {
  at: Pair;
  normal: Pair;
  along: number;
}

// Normals of a line whose wood is on its left: they point to its right. Sharp turns keep their edge.
function normals(line: Pair[]): Station[] {
  const steps = line.slice(1).map(([r, z], i) => {
    const [r0, z0] = line[i] as Pair;
    const length = Math.hypot(r - r0, z - z0) || 1;
    return { length, normal: [(z - z0) / length, -(r - r0) / length] as Pair };
  });
  const total = steps.reduce((sum, step) => sum + step.length, 0) || 1;
  const out: Station[] = [];
  let along = 0;
  line.forEach((at, i) => {
    const [before, after] = [steps[i - 1], steps[i]];
    const share = along / total;
    along += after?.length ?? 0;
    if (!before || !after) {
      out.push({ at, normal: (before ?? after)?.normal ?? [1, 0], along: share });
    } else if (before.normal[0] * after.normal[0] + before.normal[1] * after.normal[1] < 0.8) {
      out.push({ at, normal: before.normal, along: share }, { at, normal: after.normal, along: share });
    } else {
      const [nr, nz] = [before.normal[0] + after.normal[0], before.normal[1] + after.normal[1]];
      const length = Math.hypot(nr, nz) || 1;
      out.push({ at, normal: [nr / length, nz / length], along: share });
    }
  });
  return out;
}

// Few stations that say the same: the longest steps that stay by the line and hardly turn.
function thinned(all: Station[]): Station[] {
  const serves = (from: number, to: number) => {
    const [a, b] = [all[from], all[to]];
    if (!a || !b || a.normal[0] * b.normal[0] + a.normal[1] * b.normal[1] < BEND) return false;
    const [dr, dz] = [b.at[0] - a.at[0], b.at[1] - a.at[1]];
    const length = Math.hypot(dr, dz);
    if (length === 0) return false;
    for (let i = from + 1; i < to; i++) {
      const [r, z] = all[i]?.at ?? a.at;
      if (Math.abs((r - a.at[0]) * dz - (z - a.at[1]) * dr) > OFF * length) return false;
    }
    return true;
  };
  const out: Station[] = [];
  let from = 0;
  while (from < all.length) {
    out.push(all[from] as Station);
    let to = from + 1;
    while (to + 1 < all.length && serves(from, to + 1)) to++;
    from = to;
  }
  return out;
}

/** One part of the surface, over the turn that is shown. */
export function turned(part: SurfacePart, radius: number, turn: Turn): BufferGeometry {
  const stations = thinned(normals(part.line));
  const round = Math.max(2, Math.ceil((ROUND * turn.span) / 360));
  const across = round + 1;
  const position = new Float32Array(stations.length * across * 3);
  const normal = new Float32Array(stations.length * across * 3);
  const uv = new Float32Array(stations.length * across * 2);
  stations.forEach(({ at: [r, z], normal: [nr, nz], along }, row) => {
    for (let i = 0; i < across; i++) {
      const azimuth = turn.from + (turn.span * i) / round;
      const a = (azimuth * Math.PI) / 180;
      const [c, s] = [Math.cos(a), Math.sin(a)];
      const v = row * across + i;
      position.set([r * c, z, -r * s], v * 3);
      normal.set([nr * c, nz, -nr * s], v * 3);
      uv.set(part.map === "skin" ? [azimuth / 360, along] : [disc(r * c, radius), disc(r * s, radius)], v * 2);
    }
  });
  const index: number[] = [];
  for (let row = 0; row + 1 < stations.length; row++) {
    for (let i = 0; i < round; i++) {
      const [a, b] = [row * across + i, row * across + i + 1];
      index.push(a, b, a + across, b, b + across, a + across);
    }
  }
  return geometry(position, normal, uv, index);
}

const disc = (at: number, radius: number) => at / (2 * radius) + 0.5;

function geometry(position: Float32Array, normal: Float32Array, uv: Float32Array, index: number[]): BufferGeometry {
  const made = new BufferGeometry();
  made.setAttribute("position", new BufferAttribute(position, 3));
  made.setAttribute("normal", new BufferAttribute(normal, 3));
  made.setAttribute("uv", new BufferAttribute(uv, 2));
  made.setIndex(index);
  return made;
}

/** The true point under a place of a turned part: facets lie a little off the round wall. */
export function onWall(part: SurfacePart, u: number, share: number): Vector3 {
  const lengths = part.line.slice(1).map(([r, z], i) => Math.hypot(r - (part.line[i] as Pair)[0], z - (part.line[i] as Pair)[1]));
  let left = share * lengths.reduce((sum, length) => sum + length, 0);
  const step = lengths.findIndex((length) => (left -= length) <= 0);
  const i = step < 0 ? lengths.length - 1 : step;
  const [[r0, z0], [r1, z1]] = [part.line[i] as Pair, part.line[i + 1] as Pair];
  const t = 1 + Math.min(0, left) / (lengths[i] || 1);
  return onScreen(r0 + (r1 - r0) * t, u * 360, z0 + (z1 - z0) * t);
}

/** The face of a wedge cut: the half-section at one azimuth, seen from the side `towards`. */
export function face(outline: Pair[], radius: number, height: number, azimuth: number, towards: 1 | -1): BufferGeometry {
  const points = outline.map(([r, z]) => new Vector2(r, z));
  const clean = new Shape(points).extractPoints(1).shape;
  if (ShapeUtils.isClockWise(clean)) clean.reverse();
  const triangles = ShapeUtils.triangulateShape(clean, []);
  const position = new Float32Array(clean.length * 3);
  const normal = new Float32Array(clean.length * 3);
  const uv = new Float32Array(clean.length * 2);
  const out = onScreen(towards, azimuth + 90, 0);
  clean.forEach(({ x: r, y: z }, i) => {
    position.set(onScreen(r, azimuth, z).toArray(), i * 3);
    normal.set(out.toArray(), i * 3);
    uv.set([r / radius, z / height], i * 2);
  });
  const index = triangles.flatMap(([a, b, c]) => (towards > 0 ? [a, c, b] : [a, b, c])) as number[];
  return geometry(position, normal, uv, index);
}

/** The face of a level cut: rings between the radii where the outline passes a height. */
export function level(outline: Pair[], radius: number, z: number, turn: Turn): BufferGeometry {
  const radii: number[] = [];
  outline.forEach(([r0, z0], i) => {
    const [r1, z1] = outline[(i + 1) % outline.length] as Pair;
    if (z0 <= z !== z1 <= z) radii.push(r0 + ((r1 - r0) * (z - z0)) / (z1 - z0));
  });
  // A solid bottom reaches the axis.
  if (radii.length % 2) radii.push(0);
  radii.sort((a, b) => a - b);
  const round = Math.max(2, Math.ceil((ROUND * turn.span) / 360));
  const position: number[] = [];
  const normal: number[] = [];
  const uv: number[] = [];
  const index: number[] = [];
  for (let pair = 0; pair + 1 < radii.length; pair += 2) {
    const first = position.length / 3;
    for (let i = 0; i <= round; i++) {
      for (const r of [radii[pair] ?? 0, radii[pair + 1] ?? 0]) {
        const at = onScreen(r, turn.from + (turn.span * i) / round, z);
        position.push(...at.toArray());
        normal.push(0, 1, 0);
        uv.push(disc(at.x, radius), disc(-at.z, radius));
      }
    }
    for (let i = 0; i < round; i++) {
      const a = first + 2 * i;
      index.push(a, a + 1, a + 2, a + 1, a + 3, a + 2);
    }
  }
  return geometry(new Float32Array(position), new Float32Array(normal), new Float32Array(uv), index);
}

/** The outer radius at a height, read off the drawn line. */
export function radiusAt(line: Pair[], z: number): number {
  let best = line[0]?.[0] ?? 0;
  for (let i = 0; i + 1 < line.length; i++) {
    const [r0, z0] = line[i] as Pair;
    const [r1, z1] = line[i + 1] as Pair;
    if ((z0 <= z && z <= z1) || (z1 <= z && z <= z0)) return z1 === z0 ? Math.max(r0, r1) : r0 + ((r1 - r0) * (z - z0)) / (z1 - z0);
    if (z > z1) best = r1;
  }
  return best;
}
