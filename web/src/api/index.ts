export type * from "./types";

/** (radius, height) or (azimuth, height): mm, degrees. */
export type Pair = [number, number];
