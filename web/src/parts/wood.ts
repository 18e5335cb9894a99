// How a wood is told apart on the page: a colour for looks, a hatch and letters for everyone.
import type { Wood } from "../api";

export function woodOf(woods: Wood[] | undefined, name: string): Wood | undefined {
  return woods?.find((wood) => wood.name === name || wood.label === name);
}

export function colourOf(woods: Wood[] | undefined, name: string): string {
  return woodOf(woods, name)?.colour ?? "#b9a888";
}

export function swatch(woods: Wood[] | undefined, name: string): string {
  return `background:${colourOf(woods, name)}`;
}

export const DARK = "#000000";
export const LIGHT = "#ffffff";

/** Ink that is read on a wood's colour: where both contrast alike (4.58 : 1) the scale tips. */
export function inkOn(colour: string): string {
  const part = (from: number) => parseInt(colour.slice(from, from + 2), 16) / 255;
  const linear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  const light = 0.2126 * linear(part(1)) + 0.7152 * linear(part(3)) + 0.0722 * linear(part(5));
  return light > 0.179 ? DARK : LIGHT;
}
