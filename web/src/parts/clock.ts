// When something was saved, as people say it.

/** The time of today, or the day. */
export function clock(ms: number): string {
  const at = new Date(ms);
  const today = at.toDateString() === new Date().toDateString();
  return today
    ? at.toLocaleTimeString(undefined, { hour: "2-digit", minute: "2-digit", hour12: false })
    : at.toLocaleDateString(undefined, { day: "numeric", month: "short", year: "numeric" });
}
