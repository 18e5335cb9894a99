// Where the chosen part lies on the outer wall, as lines to draw there.
import type { Pair, View } from "../api";
import type { Chosen } from "../store.svelte";

export function marksOf(view: View, chosen: Chosen): Pair[][] {
  const section = chosen.section === null ? undefined : view.sections[chosen.section];
  if (!section) return [];
  const band = chosen.band === null ? undefined : section.bands[chosen.band];
  if (band) {
    const loops = chosen.loop === null ? band.loops : band.loops.slice(chosen.loop, chosen.loop + 1);
    return loops.flatMap((loop) => [...loop.outside.upper, ...loop.outside.lower]);
  }
  const ring = chosen.ring === null ? undefined : section.rings[chosen.ring];
  const round = (z: number, from = 0, span = 360): Pair[] =>
    Array.from({ length: 91 }, (_, i) => [from + (span * i) / 90, z] as Pair);
  if (!ring) return [round(section.z0), round(section.z1)];
  if (chosen.segment === null || ring.solid) return [round(ring.z0), round(ring.z1)];
  const wide = 360 / ring.segments;
  const from = ring.start + chosen.segment * wide;
  const side = (azimuth: number): Pair[] => Array.from({ length: 9 }, (_, i) => [azimuth, ring.z0 + ((ring.z1 - ring.z0) * i) / 8] as Pair);
  return [round(ring.z0, from, wide), round(ring.z1, from, wide), side(from), side(from + wide)];
}
