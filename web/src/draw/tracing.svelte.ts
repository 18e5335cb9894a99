// The picture that is traced: where it lies behind the half-section, in mm.

interface Place {
  left: number;
  top: number;
  width: number;
  height: number;
}

class Tracing {
  address = $state<string | null>(null);
  place = $state.raw<Place | null>(null);
  /** Pixels of the picture. */
  size = $state.raw<[number, number]>([1, 1]);

  take(file: File | null): void {
    if (this.address) URL.revokeObjectURL(this.address);
    this.address = file ? URL.createObjectURL(file) : null;
    this.place = null;
  }

  measured(width: number, height: number): void {
    this.size = [width, height];
  }

  /** Two places of the picture (shares of it, from its upper left): the foot's middle and the rim's. */
  scale(foot: [number, number], rim: [number, number], height: number): void {
    const [w, h] = this.size;
    const pixels = Math.abs(foot[1] - rim[1]) * h;
    if (pixels < 2) return;
    const per = height / pixels;
    this.place = { left: -foot[0] * w * per, top: foot[1] * h * per, width: w * per, height: h * per };
  }
}

export const tracing = new Tracing();
