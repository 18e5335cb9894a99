// Leads from a finding to the blank that it is about.
import { store } from "../store.svelte";

/** Scrolls to the blank of a path and puts the cursor there; its nearest parent's where it has none. */
export function focusBlank(path: string): void {
  for (let at = path; at; at = at.replace(/(\.[^.[\]]+|\[[^\]]*\]|#\d+)$/, "")) {
    const field = document.querySelector<HTMLElement>(`[data-path="${CSS.escape(at)}"]`);
    if (field) {
      for (let parent = field.parentElement; parent; parent = parent.parentElement) {
        if (parent instanceof HTMLDetailsElement) parent.open = true;
      }
      field.scrollIntoView({ block: "center" });
      field.focus({ preventScroll: true });
      return;
    }
    if (!/[.[#]/.test(at)) break;
  }
  store.announce("there is no blank for it on the page");
}
