// A pointer dragged from a handle, told as where it is against where it began.

export interface Dragged {
  dx: number;
  dy: number;
  x: number;
  y: number;
}

/** Follows the pointer until it is let go; `done(null)` when the drag is given up. */
export function drag(event: PointerEvent, move: (by: Dragged) => void, done: (by: Dragged | null) => void): void {
  if (event.button !== 0) return;
  event.preventDefault();
  const handle = event.currentTarget as Element;
  const [x0, y0] = [event.clientX, event.clientY];
  let last: Dragged | null = null;
  const at = (e: PointerEvent): Dragged => ({ dx: e.clientX - x0, dy: e.clientY - y0, x: e.clientX, y: e.clientY });
  const moved = (e: PointerEvent) => {
    if (e.pointerId !== event.pointerId) return;
    const by = at(e);
    // A click that trembles is no drag.
    if (!last && Math.hypot(by.dx, by.dy) < 3) return;
    last = by;
    move(by);
  };
  const stop = (e: PointerEvent) => {
    if (e.pointerId !== event.pointerId) return;
    end(e.type === "pointerup" ? last : null);
  };
  const escape = (e: KeyboardEvent) => {
    if (e.key === "Escape") end(null);
  };
  const end = (with_: Dragged | null) => {
    removeEventListener("pointermove", moved);
    removeEventListener("pointerup", stop);
    removeEventListener("pointercancel", stop);
    removeEventListener("keydown", escape);
    done(with_);
  };
  handle.setPointerCapture?.(event.pointerId);
  addEventListener("pointermove", moved);
  addEventListener("pointerup", stop);
  addEventListener("pointercancel", stop);
  addEventListener("keydown", escape);
}

/** A keyboard's arrows as steps; ten at a time with Shift. Null for other keys. */
export function arrows(event: KeyboardEvent): { across: number; up: number } | null {
  const by = event.shiftKey ? 10 : 1;
  switch (event.key) {
    case "ArrowUp":
      return { across: 0, up: by };
    case "ArrowDown":
      return { across: 0, up: -by };
    case "ArrowLeft":
      return { across: -by, up: 0 };
    case "ArrowRight":
      return { across: by, up: 0 };
    default:
      return null;
  }
}
