// Entries that were refused: each stays in its blank with the reason and the remedy, and is
// tried again when something else was changed here.
import type { Blank, Edit, Problem } from "./api";

export interface Entry {
  /** What was typed; null where a button or a handle was refused, which leaves no words behind. */
  readonly entered: string | null;
  /** Why it was refused; none where it would do now but the maker has not said so. */
  readonly problems: Problem[];
  readonly edits: Edit[];
  /** It is taken by itself as soon as it may be. */
  readonly pending: boolean;
}

/** Makes edits: what speaks against them, none where they were made; null where they were not
 * even asked for, or cannot be told. `wanted` is false once nobody wants them any more. */
export type Ask = (edits: Edit[], wanted: () => boolean) => Promise<Problem[] | null>;

export class Entries {
  /** By the path of their blank, in the order in which they were entered. */
  refused = $state.raw<Readonly<Record<string, Entry>>>({});

  refuse(path: string, entry: Entry): void {
    const { [path]: _, ...others } = this.refused;
    this.refused = { ...others, [path]: entry };
  }

  forget(paths: readonly string[]): void {
    this.#keep((path) => !paths.includes(path));
  }

  forgetAll(): void {
    this.refused = {};
  }

  /** A place in a list is another one after entries were put in, moved or taken out. */
  forgetPlaces(): void {
    this.#keep((path) => !/[[#]/.test(path));
  }

  /** Those whose blank has what was entered, or is gone: nobody could see or take them back. */
  forgetSettled(blanks: Readonly<Record<string, Blank | undefined>>): void {
    this.#keep((path) => blanks[path] !== undefined && blanks[path].shown !== this.refused[path]?.entered);
  }

  /** Something newer is on its way for these paths, or for all: older words wait no longer. */
  standBack(paths: readonly string[] = Object.keys(this.refused)): void {
    for (const path of paths) this.#change(path, { pending: false });
  }

  /** After a change made here: one after another for as long as any is taken, then all that
   * are left together, since two may suit only each other. Where the change itself was refused,
   * only together. Gives back the paths of what was taken. */
  async tryAgain(changed: boolean, ask: Ask): Promise<string[]> {
    const taken: string[] = [];
    for (let more = changed; more; ) {
      more = false;
      for (const [path, entry] of this.#pending()) {
        if (this.refused[path] !== entry) continue;
        const problems = await ask(entry.edits, () => this.refused[path] === entry);
        if (!problems) return taken;
        if (problems.length) this.#change(path, { problems }, entry);
        else {
          taken.push(path);
          this.forget([path]);
          more = true;
        }
      }
    }
    const left = this.#pending();
    if (left.length < 2) return taken;
    const all = () => left.every(([path, entry]) => this.refused[path] === entry);
    const problems = await ask(left.flatMap(([, entry]) => entry.edits), all);
    if (problems?.length !== 0) return taken;
    const paths = left.map(([path]) => path);
    this.forget(paths);
    return [...taken, ...paths];
  }

  /** After a change made elsewhere: what speaks against each now. None is taken by itself any
   * more, for whoever changed the file may have settled it otherwise. */
  async askAnew(ask: Ask): Promise<void> {
    this.standBack();
    for (const [path, entry] of Object.entries(this.refused)) {
      if (entry.entered === null || this.refused[path] !== entry) continue;
      const problems = await ask(entry.edits, () => this.refused[path] === entry);
      if (problems) this.#change(path, { problems }, entry);
    }
  }

  #pending(): [string, Entry][] {
    return Object.entries(this.refused).filter(([, entry]) => entry.pending);
  }

  // A change for one entry never hits the one that has followed it.
  #change(path: string, change: Partial<Entry>, of = this.refused[path]): void {
    if (of && this.refused[path] === of) this.refused = { ...this.refused, [path]: { ...of, ...change } };
  }

  #keep(wanted: (path: string) => boolean): void {
    const kept = Object.entries(this.refused).filter(([path]) => wanted(path));
    if (kept.length < Object.keys(this.refused).length) this.refused = Object.fromEntries(kept);
  }
}
