// The one store. Views read it; only its methods write it.
import type { Blank, Conflict, Edit, Edited, Event, Named, PageSpelling, PageUnit, Problem, Shelf, Spot, View, Words, WorkshopView } from "./api";
import { client, page, Refused, spellAs } from "./client";
import { Entries, type Entry } from "./entries.svelte";
import { Queue } from "./queue";
import { remembered, remember } from "./remember";
import { here, type Where } from "./where";

/** What is selected everywhere: on the piece, in the drawings, in the tables. */
export interface Chosen {
  section: number | null;
  ring: number | null;
  segment: number | null;
  band: number | null;
  loop: number | null;
}

export type Theme = "light" | "dark" | "system";

/** Makes edits to what the page shows, and shows what has come of them. */
type Keep = (edits: Edit[]) => Promise<{ taken: boolean; problems: Problem[]; conflict: Conflict | null }>;

const NOTHING: Chosen = { section: null, ring: null, segment: null, band: null, loop: null };

export class Store {
  where = $state.raw<Where>({ page: "shelf" });
  unit = $state<PageUnit>("mm");
  // How words are spelled: as those do who use the file's unit, unless the maker has chosen.
  spelling = $state<PageSpelling | "own">(remembered("spelling", ["own", "british", "american"], "own"));
  theme = $state<Theme>("system");
  shelf = $state.raw<Shelf | null>(null);
  workshop = $state.raw<WorkshopView | null>(null);
  view = $state.raw<View | null>(null);
  /** True while the shown view is a preview that the file does not hold. */
  preview = $state(false);
  /** When the edit that gave the shown view was made, for measuring how long its picture took. */
  asked: number | null = null;
  conflict = $state.raw<Conflict | null>(null);
  chosen = $state.raw<Chosen>(NOTHING);
  pointed = $state.raw<Spot | null>(null);
  /** The step of the making that is looked at; null shows the finished piece. */
  step = $state<number | null>(null);
  answering = $state(true);
  busy = $state(false);
  announcement = $state("");
  problems = $state.raw<Problem[]>([]);

  #entries = new Entries();
  #queue = new Queue();
  // The version that edits build on: the last one kept, never a preview's.
  #base = "";
  #seq = 0;
  // Counts what makes everything said before it outdated: undo, another unit, another page.
  #epoch = 0;
  #events: EventSource | null = null;
  #pointing: AbortController | null = null;

  start(): void {
    this.theme = remembered("theme", ["light", "dark", "system"], "system");
    this.#applyTheme();
    this.#applySpelling();
    const follow = () => void this.#go(here());
    addEventListener("hashchange", follow);
    follow();
  }

  /** Entries that were refused, by their blanks. */
  get wrong() {
    return this.#entries.refused;
  }

  async #go(where: Where): Promise<void> {
    this.where = where;
    this.#epoch += 1;
    this.#entries.forgetAll();
    this.problems = [];
    this.#events?.close();
    this.#events = null;
    if (where.page === "piece") await this.#open(where.name);
    else {
      this.view = null;
      await (where.page === "workshop" ? this.loadWorkshop() : this.loadShelf());
    }
  }

  async loadShelf(): Promise<void> {
    await this.#attempt(async () => {
      this.shelf = await client.shelf(this.#usual());
    });
  }

  // Off a piece the unit is the one last switched to.
  #usual(): PageUnit {
    this.unit = remembered("unit", ["mm", "inch"], "mm");
    return this.unit;
  }

  async loadWorkshop(): Promise<void> {
    await this.#attempt(async () => {
      this.#usual();
      this.workshop = await client.workshop(this.unit);
    });
  }

  async #open(name: string): Promise<void> {
    if (this.view?.name !== name) this.view = null;
    this.conflict = null;
    this.chosen = NOTHING;
    this.step = null;
    await this.#attempt(async () => {
      // A piece is opened in its own unit, unless the maker has switched it before.
      const switched = remembered(`unit ${name}`, ["mm", "inch", "own"], "own");
      const view = await client.view(name, switched === "own" ? null : switched);
      this.unit = view.unit;
      this.#show(view, false);
      this.#listen(name);
    });
  }

  #listen(name: string): void {
    const events = client.events(name);
    this.#events = events;
    events.addEventListener("message", (message) => this.#received(JSON.parse(message.data)));
    events.addEventListener("open", () => {
      if (!this.answering) void this.refresh();
      this.answering = true;
    });
    events.addEventListener("error", () => (this.answering = false));
  }

  #received(event: Event): void {
    if (event.event === "gone") {
      this.problems = [{ path: null, line: null, column: null, what: "the file is gone from the folder", remedy: "Undo or any change writes it again" }];
      return;
    }
    // A page that fell behind looks at everything anew.
    if (event.event !== "changed") return void this.refresh();
    if (event.client === page || (!event.broken && event.version === this.#base)) return;
    if (event.on_disk) this.announcement = "the file was changed on the disk";
    void this.refresh();
  }

  /** Fetches the piece anew: someone else has written it, or the program is back. */
  async refresh(): Promise<void> {
    const view = this.view;
    if (!view) return;
    await this.#attempt(async () => {
      const fresh = await this.#queue.newest(() => client.view(view.name, this.unit));
      if (fresh?.name === this.view?.name && fresh) await this.#showOther(fresh);
    });
  }

  // The piece as it has become otherwise than by an entry: what was refused is asked anew, for
  // it may do now, but nothing is kept.
  async #showOther(view: View): Promise<void> {
    const changed = view.version !== this.#base;
    this.#show(view, false);
    if (!changed) return;
    await this.#entries.askAnew(async (edits, wanted) => {
      const answer = await this.#queue.behind(async () =>
        wanted() && this.view?.name === view.name ? client.edit(view.name, this.unit, edits, this.#base, true, ++this.#seq) : null,
      );
      return answer?.view ? [] : answer?.problems.length ? answer.problems : null;
    });
  }

  #show(view: View, preview: boolean, asked: number | null = null): void {
    // The route is left out of previews: the last one stays until the hand lets go.
    if (preview) view = { ...view, route: this.view?.route ?? null };
    if (!preview) {
      this.#base = view.version;
      this.#entries.forgetSettled(view.blanks);
    }
    this.view = view;
    this.preview = preview;
    this.asked = asked;
    document.title = `${view.title} · Ringwright`;
  }

  /** Shows what edits would give, without keeping them. The newest wins. */
  async try(edits: Edit[]): Promise<void> {
    const view = this.view;
    if (!view) return;
    const asked = performance.now();
    await this.#attempt(async () => {
      const answer = await this.#queue.newest(() => client.edit(view.name, this.unit, edits, this.#base, true, ++this.#seq));
      if (answer?.view) this.#show(answer.view, true, asked);
    });
  }

  /** Edits the file. True when it was taken. With `entered` a refusal stays in the blank of
   * `at`, and is tried again when something else was changed. */
  async edit(edits: Edit[], at?: string, entered?: string): Promise<boolean> {
    const view = this.view;
    if (!view) return false;
    const asked = performance.now();
    const taken = await this.#enter(edits, at ?? edits[0]?.path ?? "", entered, async (edits) => {
      const answer = await client.edit(view.name, this.unit, edits, this.#base, false, ++this.#seq);
      if (answer.view) this.#show(answer.view, false, asked);
      return { taken: answer.view !== null, problems: answer.problems, conflict: answer.conflict };
    });
    if (!taken && this.preview) await this.refresh();
    return taken;
  }

  async #enter(edits: Edit[], at: string, entered: string | undefined, keep: Keep): Promise<boolean> {
    const epoch = this.#epoch;
    const paths = edits.map((edit) => edit.path);
    let taken = false;
    this.#entries.standBack(paths);
    await this.#attempt(async () => {
      const answer = await this.#queue.inOrder(() => keep(edits));
      taken = answer.taken;
      if (answer.conflict) this.conflict = answer.conflict;
      if (taken || answer.conflict) this.#entries.forget([...paths, at]);
      else this.#refused(at, { entered: entered ?? null, problems: answer.problems, edits, pending: entered !== undefined });
      if (taken && edits.some((edit) => edit.op !== "set")) this.#entries.forgetPlaces();
      if (!answer.conflict) await this.#tryAgain(epoch, taken, keep);
    });
    return taken;
  }

  #refused(at: string, entry: Entry): void {
    if (!this.#blankOf(at)) this.problems = entry.problems;
    else if (entry.problems.length || entry.entered !== null) this.#entries.refuse(at, entry);
    else this.#entries.forget([at]);
  }

  #blankOf(path: string): Blank | undefined {
    return (this.where.page === "workshop" ? this.workshop : this.view)?.blanks[path];
  }

  // A newer step, a conflict or no answer ends it: what was refused then stays as it is.
  async #tryAgain(epoch: number, changed: boolean, keep: Keep): Promise<void> {
    const taken = await this.#entries.tryAgain(changed, async (edits, wanted) => {
      const answer = await this.#queue.inOrder(async () => (wanted() && epoch === this.#epoch ? keep(edits) : null));
      return answer?.taken ? [] : answer?.problems.length ? answer.problems : null;
    });
    if (taken.length) this.announcement = taken.map((path) => `${this.#blankOf(path)?.label ?? path}: ${this.#blankOf(path)?.shown ?? ""} is taken now`).join(", ");
  }

  set(path: string, value: Words, entered?: string): Promise<boolean> {
    return this.edit([{ op: "set", path, value }], path, entered);
  }

  /** Enters once more what was refused in a blank. */
  async enterAgain(path: string): Promise<void> {
    const entry = this.wrong[path];
    if (!entry) return;
    const enter = this.where.page === "workshop" ? this.#editWorkshop : this.edit;
    await enter.call(this, entry.edits, path, entry.entered ?? undefined);
  }

  forgetEntry(path: string): void {
    this.#entries.forget([path]);
  }

  async undo(): Promise<void> {
    await this.#undoOrRedo(client.undo, "undone");
  }

  async redo(): Promise<void> {
    await this.#undoOrRedo(client.redo, "done again");
  }

  async #undoOrRedo(ask: typeof client.undo, said: string): Promise<void> {
    const view = this.view;
    if (!view) return;
    this.#epoch += 1;
    await this.#attempt(async () => {
      const answer = await this.#queue.inOrder(() => ask(view.name, this.unit));
      if (answer.conflict) this.conflict = answer.conflict;
      if (!answer.view) return;
      this.#entries.forgetAll();
      this.#show(answer.view, false);
      this.announcement = said;
    });
  }

  /** Goes on with one of the versions that are kept. */
  async take(version: string): Promise<void> {
    const view = this.view;
    if (!view) return;
    this.#epoch += 1;
    await this.#attempt(async () => {
      const answer = await this.#queue.inOrder(() => client.take(view.name, this.unit, version));
      this.conflict = answer.conflict;
      if (answer.view) await this.#showOther(answer.view);
    });
  }

  /** Replaces the whole text, as when a broken file is repaired by hand. */
  async rewrite(text: string, base: string): Promise<Problem[]> {
    const view = this.view;
    let answer: Edited | null = null;
    if (!view) return [];
    this.#epoch += 1;
    await this.#attempt(async () => {
      answer = await this.#queue.inOrder(() => client.rewrite(view.name, this.unit, text, base));
      this.conflict = answer.conflict;
      if (answer.view) await this.#showOther(answer.view);
    });
    return (answer as Edited | null)?.problems ?? [];
  }

  async switchUnit(unit: PageUnit): Promise<void> {
    this.unit = unit;
    // What was typed in the other unit means something else in this one.
    this.#epoch += 1;
    this.#entries.forgetAll();
    remember("unit", unit);
    if (this.where.page === "workshop") return this.loadWorkshop();
    if (this.where.page === "shelf") return this.loadShelf();
    if (this.view) remember(`unit ${this.view.name}`, unit);
    await this.refresh();
  }

  async switchSpelling(spelling: PageSpelling | "own"): Promise<void> {
    this.spelling = spelling;
    this.#epoch += 1;
    remember("spelling", spelling);
    this.#applySpelling();
    if (this.where.page === "workshop") return this.loadWorkshop();
    if (this.where.page === "shelf") return this.loadShelf();
    await this.refresh();
  }

  #applySpelling(): void {
    spellAs(this.spelling === "own" ? null : this.spelling);
  }

  // A word of the page's own as the reader spells it.
  spelled(british: string, american: string): string {
    const usual = this.view?.spelling ?? (this.unit === "inch" ? "american" : "british");
    return (this.spelling === "own" ? usual : this.spelling) === "american" ? american : british;
  }

  switchTheme(theme: Theme): void {
    this.theme = theme;
    remember("theme", theme);
    this.#applyTheme();
  }

  #applyTheme(): void {
    if (this.theme === "system") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = this.theme;
  }

  setInWorkshop(path: string, value: Words, entered: string): Promise<boolean> {
    return this.#editWorkshop([{ op: "set", path, value }], path, entered);
  }

  #editWorkshop(edits: Edit[], at: string, entered?: string): Promise<boolean> {
    return this.#enter(edits, at, entered, async (edits) => {
      const answer = await client.editWorkshop(this.unit, edits, this.workshop?.version ?? "");
      if (answer.workshop) this.workshop = answer.workshop;
      else if (answer.conflict) this.workshop = await client.workshop(this.unit);
      return { taken: answer.workshop !== null, problems: answer.problems, conflict: null };
    });
  }

  choose(part: Partial<Chosen>): void {
    this.chosen = { ...NOTHING, ...part };
  }

  /** What is under the pointer, at a point of the piece in mm. */
  async pointAt(at: readonly [number, number, number] | null): Promise<void> {
    this.#pointing?.abort();
    const view = this.view;
    if (!at || !view) {
      this.pointed = null;
      return;
    }
    const pointing = new AbortController();
    this.#pointing = pointing;
    try {
      const place = await client.at(view.name, this.unit, at, pointing.signal);
      if (!pointing.signal.aborted) this.pointed = place;
    } catch {
      // A caption that does not come is no trouble; the next movement asks again.
    }
  }

  showStep(step: number | null): void {
    this.step = step;
  }

  announce(said: string): void {
    this.announcement = said;
  }

  dismissProblems(): void {
    this.problems = [];
  }

  /** Work on the shelf: what went wrong is told there, and the shelf is read anew. */
  async changeShelf(work: () => Promise<Named>): Promise<string | null> {
    let made: Named = { name: null, problems: [] };
    const answered = await this.#attempt(async () => {
      made = await work();
    });
    if (answered) this.problems = made.problems;
    if (this.where.page === "shelf" && answered) this.shelf = await client.shelf(this.unit);
    return made.name;
  }

  async #attempt(work: () => Promise<unknown>): Promise<boolean> {
    this.busy = true;
    try {
      await work();
      this.answering = true;
      return true;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.status === 0) this.answering = false;
      else this.problems = error.problems;
      return false;
    } finally {
      this.busy = false;
    }
  }
}

export const store = new Store();
