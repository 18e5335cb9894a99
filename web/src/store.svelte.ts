// The one store. Views read it; only its methods write it.
import type { Conflict, Edit, Edited, Event, Named, PageUnit, Problem, Shelf, Spot, View, Words, WorkshopView } from "./api";
import { client, page, Refused } from "./client";
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

/** A wrong entry: it stays in its blank with the reason and the remedy. */
export interface Wrong {
  entered: string;
  problems: Problem[];
}

export type Theme = "light" | "dark" | "system";

const NOTHING: Chosen = { section: null, ring: null, segment: null, band: null, loop: null };

class Store {
  where = $state.raw<Where>({ page: "shelf" });
  unit = $state<PageUnit>("mm");
  theme = $state<Theme>("system");
  shelf = $state.raw<Shelf | null>(null);
  workshop = $state.raw<WorkshopView | null>(null);
  view = $state.raw<View | null>(null);
  /** True while the shown view is a preview that the file does not hold. */
  preview = $state(false);
  /** When the edit that gave the shown view was made, for measuring how long its picture took. */
  asked: number | null = null;
  wrong = $state.raw<Record<string, Wrong>>({});
  conflict = $state.raw<Conflict | null>(null);
  chosen = $state.raw<Chosen>(NOTHING);
  place = $state.raw<Spot | null>(null);
  /** The step of the making that is looked at; null shows the finished piece. */
  step = $state<number | null>(null);
  answering = $state(true);
  busy = $state(false);
  said = $state("");
  trouble = $state.raw<Problem[]>([]);

  #queue = new Queue();
  // The version that edits build on: the last one kept, never a preview's.
  #base = "";
  #seq = 0;
  #events: EventSource | null = null;
  #looking: AbortController | null = null;

  start(): void {
    this.theme = remembered("theme", ["light", "dark", "system"], "system");
    this.#dress();
    const follow = () => void this.#go(here());
    addEventListener("hashchange", follow);
    follow();
  }

  async #go(where: Where): Promise<void> {
    this.where = where;
    this.trouble = [];
    this.#events?.close();
    this.#events = null;
    if (where.page === "piece") await this.#open(where.name);
    else {
      this.view = null;
      await (where.page === "workshop" ? this.loadWorkshop() : this.loadShelf());
    }
  }

  async loadShelf(): Promise<void> {
    await this.#guard(async () => {
      this.shelf = await client.shelf(this.#usual());
    });
  }

  // Off a piece the unit is the one last switched to.
  #usual(): PageUnit {
    this.unit = remembered("unit", ["mm", "inch"], "mm");
    return this.unit;
  }

  async loadWorkshop(): Promise<void> {
    await this.#guard(async () => {
      this.#usual();
      this.workshop = await client.workshop(this.unit);
    });
  }

  async #open(name: string): Promise<void> {
    if (this.view?.name !== name) this.view = null;
    this.wrong = {};
    this.conflict = null;
    this.chosen = NOTHING;
    this.step = null;
    await this.#guard(async () => {
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
    events.addEventListener("message", (message) => this.#heard(JSON.parse(message.data)));
    events.addEventListener("open", () => {
      if (!this.answering) void this.refresh();
      this.answering = true;
    });
    events.addEventListener("error", () => (this.answering = false));
  }

  #heard(event: Event): void {
    if (event.event === "gone") {
      this.trouble = [{ path: null, line: null, column: null, what: "the file is gone from the folder", remedy: "Undo or any change writes it again" }];
      return;
    }
    // A page that fell behind looks at everything anew.
    if (event.event !== "changed") return void this.refresh();
    if (event.client === page || (!event.broken && event.version === this.#base)) return;
    if (event.on_disk) this.said = "the file was changed on the disk";
    void this.refresh();
  }

  /** Fetches the piece anew: someone else has written it, or the program is back. */
  async refresh(): Promise<void> {
    const view = this.view;
    if (!view) return;
    await this.#guard(async () => {
      const fresh = await this.#queue.newest(() => client.view(view.name, this.unit));
      if (fresh && fresh.name === this.view?.name) this.#show(fresh, false);
    });
  }

  #show(view: View, preview: boolean, asked: number | null = null): void {
    // The route is left out of previews: the last one stays until the hand lets go.
    if (preview) view = { ...view, route: this.view?.route ?? null };
    if (!preview) this.#base = view.version;
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
    await this.#guard(async () => {
      const answer = await this.#queue.newest(() => client.edit(view.name, this.unit, edits, this.#base, true, ++this.#seq));
      if (answer?.view) this.#show(answer.view, true, asked);
    });
  }

  /** Edits the file. True when it was taken. */
  async edit(edits: Edit[], at?: string, entered?: string): Promise<boolean> {
    const view = this.view;
    if (!view) return false;
    const asked = performance.now();
    let taken = false;
    await this.#guard(async () => {
      const answer = await this.#queue.inOrder(() =>
        client.edit(view.name, this.unit, edits, this.#base, false, ++this.#seq),
      );
      if (answer.conflict) this.conflict = answer.conflict;
      if (answer.view) {
        this.#show(answer.view, false, asked);
        taken = true;
      }
      const blank = at ?? edits[0]?.path ?? "";
      this.#note(blank, answer.problems.length && !answer.view ? { entered: entered ?? "", problems: answer.problems } : null);
      if (!taken && this.preview) await this.refresh();
    });
    return taken;
  }

  set(path: string, value: Words, entered?: string): Promise<boolean> {
    return this.edit([{ op: "set", path, value }], path, entered);
  }

  #note(path: string, wrong: Wrong | null): void {
    const { [path]: _, ...others } = this.wrong;
    this.wrong = wrong ? { ...others, [path]: wrong } : others;
  }

  forgive(path: string): void {
    this.#note(path, null);
  }

  async undo(): Promise<void> {
    await this.#turn(client.undo, "undone");
  }

  async redo(): Promise<void> {
    await this.#turn(client.redo, "done again");
  }

  async #turn(ask: typeof client.undo, said: string): Promise<void> {
    const view = this.view;
    if (!view) return;
    await this.#guard(async () => {
      const answer = await this.#queue.inOrder(() => ask(view.name, this.unit));
      if (answer.conflict) this.conflict = answer.conflict;
      if (!answer.view) return;
      this.wrong = {};
      this.#show(answer.view, false);
      this.said = said;
    });
  }

  /** Goes on with one of the versions that are kept. */
  async take(version: string): Promise<void> {
    const view = this.view;
    if (!view) return;
    await this.#guard(async () => {
      const answer = await this.#queue.inOrder(() => client.take(view.name, this.unit, version));
      this.conflict = answer.conflict;
      if (answer.view) this.#show(answer.view, false);
    });
  }

  /** Replaces the whole text, as when a broken file is repaired by hand. */
  async rewrite(text: string, base: string): Promise<Problem[]> {
    const view = this.view;
    let answer: Edited | null = null;
    if (!view) return [];
    await this.#guard(async () => {
      answer = await this.#queue.inOrder(() => client.rewrite(view.name, this.unit, text, base));
      this.conflict = answer.conflict;
      if (answer.view) this.#show(answer.view, false);
    });
    return (answer as Edited | null)?.problems ?? [];
  }

  async switchUnit(unit: PageUnit): Promise<void> {
    this.unit = unit;
    remember("unit", unit);
    if (this.where.page === "workshop") return this.loadWorkshop();
    if (this.where.page === "shelf") return this.loadShelf();
    if (this.view) remember(`unit ${this.view.name}`, unit);
    await this.refresh();
  }

  switchTheme(theme: Theme): void {
    this.theme = theme;
    remember("theme", theme);
    this.#dress();
  }

  #dress(): void {
    if (this.theme === "system") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = this.theme;
  }

  async equip(path: string, value: Words, entered: string): Promise<boolean> {
    const shop = this.workshop;
    if (!shop) return false;
    let taken = false;
    await this.#guard(async () => {
      const answer = await client.equip(this.unit, [{ op: "set", path, value }], shop.version);
      if (answer.workshop) this.workshop = answer.workshop;
      else if (answer.conflict) this.workshop = await client.workshop(this.unit);
      taken = answer.workshop !== null;
      this.#note(path, taken ? null : { entered, problems: answer.problems });
    });
    return taken;
  }

  choose(part: Partial<Chosen>): void {
    this.chosen = { ...NOTHING, ...part };
  }

  /** What is under the pointer, at a point of the piece in mm. */
  async look(at: readonly [number, number, number] | null): Promise<void> {
    this.#looking?.abort();
    const view = this.view;
    if (!at || !view) {
      this.place = null;
      return;
    }
    const looking = new AbortController();
    this.#looking = looking;
    try {
      const place = await client.at(view.name, this.unit, at, looking.signal);
      if (!looking.signal.aborted) this.place = place;
    } catch {
      // A caption that does not come is no trouble; the next movement asks again.
    }
  }

  stand(step: number | null): void {
    this.step = step;
  }

  tell(said: string): void {
    this.said = said;
  }

  clearTrouble(): void {
    this.trouble = [];
  }

  /** Work on the shelf: what went wrong is told there, and the shelf is read anew. */
  async tend(work: () => Promise<Named>): Promise<string | null> {
    let made: Named = { name: null, problems: [] };
    const answered = await this.#guard(async () => {
      made = await work();
    });
    if (answered) this.trouble = made.problems;
    if (this.where.page === "shelf" && answered) this.shelf = await client.shelf(this.unit);
    return made.name;
  }

  async #guard(work: () => Promise<unknown>): Promise<boolean> {
    this.busy = true;
    try {
      await work();
      this.answering = true;
      return true;
    } catch (trouble) {
      if (!(trouble instanceof Refused)) throw trouble;
      if (trouble.status === 0) this.answering = false;
      else this.trouble = trouble.problems;
      return false;
    } finally {
      this.busy = false;
    }
  }
}

export const store = new Store();
