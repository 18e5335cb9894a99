// Addresses inside the page.

export type Where = { page: "shelf" } | { page: "workshop" } | { page: "piece"; name: string };

/** Where the address bar says that we are. */
export function here(): Where {
  const [page, name] = location.hash.replace(/^#\/?/, "").split("/");
  if (page === "workshop") return { page };
  if (page === "piece" && name) return { page, name: decodeURIComponent(name) };
  return { page: "shelf" };
}

export const shelfAddress = "#/";
export const workshopAddress = "#/workshop";
export const pieceAddress = (name: string) => `#/piece/${encodeURIComponent(name)}`;

export function go(address: string): void {
  location.hash = address;
}
