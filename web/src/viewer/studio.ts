// Light and ground: a quiet studio with one large lamp, a fill and a shadow.
import {
  CanvasTexture,
  DirectionalLight,
  Group,
  HemisphereLight,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  ShadowMaterial,
} from "three";

/** Lamps and ground for a piece of a size; follows the camera's side so that the front is lit. */
export class Studio {
  readonly group = new Group();
  readonly #key = new DirectionalLight(0xfff3e0, 2.5);
  readonly #fill = new DirectionalLight(0xdfe8ff, 0.8);
  readonly #sky = new HemisphereLight(0xfff8ee, 0xb7a58c, 1.7);
  readonly #shadow = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({ opacity: 0.13 }));
  readonly #blot: Mesh<PlaneGeometry, MeshBasicMaterial>;

  constructor() {
    this.#key.castShadow = true;
    this.#key.shadow.mapSize.set(512, 512);
    this.#key.shadow.radius = 9;
    this.#key.shadow.blurSamples = 10;
    this.#key.shadow.bias = -0.0006;
    this.#key.shadow.normalBias = 0.6;
    this.#blot = new Mesh(new PlaneGeometry(1, 1), new MeshBasicMaterial({ color: 0x000000, map: blot(), transparent: true, depthWrite: false }));
    for (const ground of [this.#shadow, this.#blot]) ground.rotation.x = -Math.PI / 2;
    this.#shadow.receiveShadow = true;
    this.group.add(this.#key, this.#key.target, this.#fill, this.#sky, this.#shadow, this.#blot);
  }

  fit(radius: number, height: number, foot: number): void {
    const size = Math.max(radius, height / 2);
    const shadow = this.#key.shadow.camera;
    Object.assign(shadow, { left: -2.2 * size, right: 2.2 * size, top: 2.2 * size, bottom: -2.2 * size, near: 0.5 * size, far: 8 * size });
    shadow.updateProjectionMatrix();
    this.#key.userData.size = size;
    this.#key.target.position.set(0, height / 2, 0);
    this.#shadow.scale.setScalar(size * 8);
    this.#shadow.position.y = -0.15;
    this.#blot.scale.setScalar(foot * 3.2);
    this.#blot.position.y = -0.1;
  }

  /** The lamp stands to the left behind the one who looks. */
  follow(azimuth: number, height: number): void {
    const size = this.#key.userData.size ?? 100;
    const at = (turn: number, far: number, up: number): [number, number, number] => {
      const a = ((azimuth + turn) * Math.PI) / 180;
      return [far * size * Math.cos(a), height / 2 + up * size, -far * size * Math.sin(a)];
    };
    this.#key.position.set(...at(-38, 2.6, 2.6));
    this.#fill.position.set(...at(70, 3, 0.8));
  }

  dark(dark: boolean): void {
    this.#shadow.material.opacity = dark ? 0.4 : 0.13;
    this.#blot.material.opacity = dark ? 1 : 0.75;
    this.#sky.intensity = dark ? 1.35 : 1.7;
  }
}

// The soft dark under the foot.
function blot(): CanvasTexture {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 128;
  const pen = canvas.getContext("2d");
  if (pen) {
    const shade = pen.createRadialGradient(64, 64, 20, 64, 64, 64);
    shade.addColorStop(0, "rgba(16,10,4,0.55)");
    shade.addColorStop(0.45, "rgba(16,10,4,0.22)");
    shade.addColorStop(1, "rgba(16,10,4,0)");
    pen.fillStyle = shade;
    pen.fillRect(0, 0, 128, 128);
  }
  return new CanvasTexture(canvas);
}
