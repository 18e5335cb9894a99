// Steps made with the keyboard are tried at once and kept when the hand rests.
import type { Edit } from "../api";
import { store } from "../store.svelte";

export class KeySteps {
  #timer: ReturnType<typeof setTimeout> | undefined;
  #edits: Edit[] | null = null;

  try(edits: Edit[]): void {
    this.#edits = edits;
    void store.try(edits);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.keep(), 450);
  }

  keep(): void {
    clearTimeout(this.#timer);
    if (this.#edits) void store.edit(this.#edits);
    this.#edits = null;
  }
}
