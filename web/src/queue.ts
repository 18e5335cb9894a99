// The order of questions to the program.

/** Edits go one after another; of previews only the newest counts, and none overtakes an edit. */
export class Queue {
  #line: Promise<unknown> = Promise.resolve();
  #kept = 0;
  #previewing = false;
  #waiting: ((go: boolean) => void) | null = null;

  /** Asks when everything asked before is answered. */
  inOrder<T>(ask: () => Promise<T>): Promise<T> {
    this.#kept += 1;
    this.#drop();
    return this.#after(ask);
  }

  /** Asks when no other preview is under way; null where something newer came meanwhile. */
  async newest<T>(ask: () => Promise<T>): Promise<T | null> {
    this.#drop();
    if (this.#previewing) {
      const go = await new Promise<boolean>((resolve) => (this.#waiting = resolve));
      if (!go) return null;
    }
    this.#previewing = true;
    const kept = this.#kept;
    try {
      const answer = await this.#after(ask);
      return kept === this.#kept ? answer : null;
    } finally {
      this.#previewing = false;
      const next = this.#waiting;
      this.#waiting = null;
      next?.(true);
    }
  }

  /** Asks when everything asked before is answered, in the way of no preview. */
  behind<T>(ask: () => Promise<T>): Promise<T> {
    return this.#after(ask);
  }

  #after<T>(ask: () => Promise<T>): Promise<T> {
    const answer = this.#line.then(ask);
    this.#line = answer.catch(() => undefined);
    return answer;
  }

  #drop(): void {
    this.#waiting?.(false);
    this.#waiting = null;
  }
}
