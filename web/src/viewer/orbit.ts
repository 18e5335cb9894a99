// Turning, nearing and shifting the view of the piece: mouse, fingers and keys.
import { PerspectiveCamera, Vector3 } from "three";

const HOME = { azimuth: -90, rise: 14, near: 1 };

/** A camera that goes round the piece. */
export class Orbit {
  readonly camera = new PerspectiveCamera(26, 1, 1, 10000);
  #target = new Vector3();
  #shift = new Vector3();
  #size = 100;
  #azimuth = HOME.azimuth;
  #rise = HOME.rise;
  #near = HOME.near;
  #fingers = new Map<number, PointerEvent>();
  #moved: () => void;

  constructor(moved: () => void) {
    this.#moved = moved;
  }

  /** Looks at a piece of this size, from where it was looked at before. */
  frame(radius: number, height: number, aspect: number): void {
    this.#target.set(0, height / 2, 0);
    const fit = Math.max(height * 1.02 + radius * 0.3, (radius * 2.2) / Math.min(aspect, 1.6));
    this.#size = fit / 2 / Math.tan((this.camera.fov * Math.PI) / 360) + radius * 0.6;
    this.camera.aspect = aspect;
    this.#place();
  }

  #place(): void {
    const [a, e] = [(this.#azimuth * Math.PI) / 180, (this.#rise * Math.PI) / 180];
    const far = this.#size / this.#near;
    const at = this.#target.clone().add(this.#shift);
    this.camera.position.set(at.x + far * Math.cos(e) * Math.cos(a), at.y + far * Math.sin(e), at.z - far * Math.cos(e) * Math.sin(a));
    this.camera.lookAt(at);
    this.camera.near = far / 50;
    this.camera.far = far * 6;
    this.camera.updateProjectionMatrix();
    this.camera.updateMatrixWorld();
  }

  get azimuth(): number {
    return this.#azimuth;
  }

  turn(azimuth: number, rise: number): void {
    this.#azimuth = (((this.#azimuth + azimuth) % 360) + 360) % 360;
    this.#rise = Math.min(89, Math.max(-60, this.#rise + rise));
    this.#after();
  }

  zoom(by: number): void {
    this.#near = Math.min(8, Math.max(0.5, this.#near * by));
    this.#after();
  }

  /** Shifts the view by shares of its height. */
  pan(across: number, up: number): void {
    const high = (2 * this.#size * Math.tan((this.camera.fov * Math.PI) / 360)) / this.#near;
    const right = new Vector3().setFromMatrixColumn(this.camera.matrixWorld, 0);
    const above = new Vector3().setFromMatrixColumn(this.camera.matrixWorld, 1);
    this.#shift.addScaledVector(right, -across * high).addScaledVector(above, up * high);
    this.#shift.clampLength(0, this.#size);
    this.#after();
  }

  home(): void {
    this.#azimuth = HOME.azimuth;
    this.#rise = HOME.rise;
    this.#near = HOME.near;
    this.#shift.set(0, 0, 0);
    this.#after();
  }

  #after(): void {
    this.#place();
    this.#moved();
  }

  key(event: KeyboardEvent): boolean {
    const shift = event.shiftKey;
    switch (event.key) {
      case "ArrowLeft":
        return this.#did(() => (shift ? this.pan(-0.05, 0) : this.turn(-6, 0)));
      case "ArrowRight":
        return this.#did(() => (shift ? this.pan(0.05, 0) : this.turn(6, 0)));
      case "ArrowUp":
        return this.#did(() => (shift ? this.pan(0, -0.05) : this.turn(0, 5)));
      case "ArrowDown":
        return this.#did(() => (shift ? this.pan(0, 0.05) : this.turn(0, -5)));
      case "+":
      case "=":
        return this.#did(() => this.zoom(1.15));
      case "-":
        return this.#did(() => this.zoom(1 / 1.15));
      case "0":
      case "Home":
        return this.#did(() => this.home());
      default:
        return false;
    }
  }

  #did(what: () => void): true {
    what();
    return true;
  }

  down(event: PointerEvent): void {
    this.#fingers.set(event.pointerId, event);
  }

  /** True while a finger or button is moving the view. */
  move(event: PointerEvent, height: number): boolean {
    const last = this.#fingers.get(event.pointerId);
    if (!last) return false;
    const [dx, dy] = [event.clientX - last.clientX, event.clientY - last.clientY];
    if (this.#fingers.size === 2) {
      const other = [...this.#fingers].find(([id]) => id !== event.pointerId)?.[1];
      if (other) {
        const before = Math.hypot(last.clientX - other.clientX, last.clientY - other.clientY);
        const now = Math.hypot(event.clientX - other.clientX, event.clientY - other.clientY);
        if (before > 10) this.zoom(now / before);
        this.pan(dx / 2 / height, dy / 2 / height);
      }
    } else if (event.shiftKey || last.button > 0) {
      this.pan(dx / height, dy / height);
    } else {
      this.turn(-dx * 0.4, dy * 0.3);
    }
    // The button stays the one that began.
    this.#fingers.set(event.pointerId, new PointerEvent("pointermove", { ...at(event), button: last.button, pointerId: event.pointerId }));
    return true;
  }

  up(event: PointerEvent): void {
    this.#fingers.delete(event.pointerId);
  }
}

const at = (event: PointerEvent) => ({ clientX: event.clientX, clientY: event.clientY });
