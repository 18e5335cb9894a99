// Every call to the program behind the page, in one place.
import type {
  Edit,
  Edited,
  Kept,
  Named,
  NewRequest,
  PageSpelling,
  PageUnit,
  Problem,
  Shelf,
  Spot,
  TextAnswer,
  View,
  WorkshopEdited,
  WorkshopView,
} from "./api";

/** A call that was refused with problems, or not answered at all (status 0). */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly problems: Problem[],
  ) {
    super(problems[0]?.what ?? "the program does not answer");
  }
}

/** This page's own name, so that its edits are not taken for someone else's. */
export const page = crypto.randomUUID();

async function call<T>(path: string, body?: unknown, signal?: AbortSignal): Promise<T> {
  let answer: Response;
  try {
    answer = await fetch(path, {
      method: body === undefined ? "GET" : "POST",
      headers: body === undefined ? {} : { "content-type": "application/json" },
      body: body === undefined ? null : JSON.stringify(body),
      signal: signal ?? null,
    });
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Refused(0, []);
  }
  if (answer.status === 204) return null as T;
  const text = await answer.text();
  const said = parsed(text);
  if (!answer.ok) throw new Refused(answer.status, said?.problems ?? [problem(said?.what ?? plain(answer.status, text), said?.remedy)]);
  return said as T;
}

/** Fetches a paper; refused with the program's reason where there is none. */
export async function paper(address: string): Promise<Blob> {
  const answer = await fetch(address).catch(() => null);
  if (!answer) throw new Refused(0, []);
  if (answer.ok) return answer.blob();
  const text = await answer.text();
  throw new Refused(answer.status, parsed(text)?.problems ?? [problem(plain(answer.status, text))]);
}

// An answer that is no JSON is told as it stands.
function parsed(text: string) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

const plain = (status: number, text: string) => text.slice(0, 200) || `the program answered ${status}`;

export function problem(what: string, remedy = ""): Problem {
  return { path: null, line: null, column: null, what, remedy };
}

// How words are spelled; as those do who use the file's unit where nothing is chosen.
let spelling: PageSpelling | null = null;

export function spellAs(choice: PageSpelling | null): void {
  spelling = choice;
}

// Whom an answer is for: the unit, and the spelling where one is chosen.
const reader = (unit: PageUnit | null) =>
  [unit && `unit=${unit}`, spelling && `spelling=${spelling}`].filter(Boolean).join("&");

const name = encodeURIComponent;
const piece = (of: string, what = "") => `/api/piece/${name(of)}${what}`;

export const client = {
  shelf: (unit: PageUnit) => call<Shelf>(`/api/shelf?${reader(unit)}`),
  create: (answers: NewRequest) => call<Named>("/api/shelf/new", answers),
  duplicate: (of: string) => call<Named>(`/api/shelf/${name(of)}/duplicate`, {}),
  rename: (of: string, to: string) => call<Named>(`/api/shelf/${name(of)}/rename`, { to }),
  remove: (of: string) => call<Named>(`/api/shelf/${name(of)}/delete`, {}),
  restore: (id: string) => call<Named>(`/api/bin/${name(id)}/restore`, {}),
  bring: (as: string, text: string) => call<Named>("/api/shelf/import", { name: as, text }),
  file: (of: string) => `/api/shelf/${name(of)}/file`,
  workshop: (unit: PageUnit) => call<WorkshopView>(`/api/workshop?${reader(unit)}`),
  editWorkshop: (unit: PageUnit, edits: Edit[], base: string) =>
    call<WorkshopEdited>(`/api/workshop?${reader(unit)}`, { edits, base }),
  view: (of: string, unit: PageUnit | null) => call<View>(piece(of, `?${reader(unit)}`)),
  edit: (of: string, unit: PageUnit, edits: Edit[], base: string, preview: boolean, seq: number) =>
    call<Edited>(piece(of, `/edit?${reader(unit)}`), { edits, base, preview, client: page, seq }),
  undo: (of: string, unit: PageUnit) => call<Edited>(piece(of, `/undo?${reader(unit)}`), {}),
  redo: (of: string, unit: PageUnit) => call<Edited>(piece(of, `/redo?${reader(unit)}`), {}),
  take: (of: string, unit: PageUnit, version: string) => call<Edited>(piece(of, `/take?${reader(unit)}`), { version }),
  text: (of: string) => call<TextAnswer>(piece(of, "/text")),
  rewrite: (of: string, unit: PageUnit, text: string, base: string) =>
    call<Edited>(piece(of, `/text?${reader(unit)}`), { text, base }),
  versions: (of: string) => call<Kept[]>(piece(of, "/versions")),
  at: (of: string, unit: PageUnit, [x, y, z]: readonly [number, number, number], signal: AbortSignal) =>
    call<Spot | null>(piece(of, `/at?${reader(unit)}&x=${x.toFixed(3)}&y=${y.toFixed(3)}&z=${z.toFixed(3)}`), undefined, signal),
  events: (of: string) => new EventSource(piece(of, `/events?client=${page}`)),
  plan: (of: string, unit: PageUnit, options: Record<string, string>) =>
    `${piece(of, "/plan.pdf")}?${reader(unit)}&${new URLSearchParams(options)}`,
  drawing: (address: string, unit: PageUnit) => `${address}&${reader(unit)}`,
  words: (of: string, unit: PageUnit) => piece(of, `/plan.txt?${reader(unit)}`),
  exact: (of: string, unit: PageUnit) => piece(of, `/exact.txt?${reader(unit)}`),
  templates: (of: string, unit: PageUnit) => piece(of, `/templates.zip?${reader(unit)}`),
  drawings: (of: string, unit: PageUnit) => piece(of, `/drawings.zip?${reader(unit)}`),
};
