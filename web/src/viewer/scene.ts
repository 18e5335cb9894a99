// The piece in three dimensions. Rendered when something changes, never otherwise.
import {
  BufferGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshStandardMaterial,
  NearestFilter,
  NeutralToneMapping,
  NoToneMapping,
  VSMShadowMap,
  Plane,
  Raycaster,
  Scene as Three,
  Vector2,
  Vector3,
  WebGLRenderer,
  type Texture,
} from "three";
import type { FormView, Pair, Pictures, SurfacePart, Wood } from "../api";
import { face, inPiece, level, onScreen, onWall, radiusAt, turned, WHOLE, type Turn } from "./revolve";
import { Orbit } from "./orbit";
import { Newest, texture } from "./pictures";
import { prisms, type Stacked } from "./stack";
import { Studio } from "./studio";

/** What is cut away to look inside. */
export interface Cut {
  wedge: number;
  at: number;
  level: number | null;
}

/** Lines on the outer wall that mark what is chosen, as (azimuth, height). */
export type Marks = Pair[][];

const SMALL = 512;
const LARGE = 1536;
const FACE = 768;
/** As fine as pictures come. */
const FINEST = 4096;
/** Of a picture's full sharpness, what a moving one keeps at least. */
const COARSEST = 0.2;
/** Most pixels of one picture of the piece. */
const MOST_PIXELS = 6e6;
/** A cut face whose picture is on its way. */
const PLAIN = 0xcbb68e;

export class Scene {
  readonly orbit: Orbit;
  readonly #renderer: WebGLRenderer;
  readonly #three = new Three();
  readonly #studio = new Studio();
  readonly #body = new Group();
  readonly #marks = new Group();
  readonly #stack = new Group();
  readonly #plane = new Plane(new Vector3(0, -1, 0), 0);
  readonly #surfaces = new Newest();
  readonly #faces = new Newest();
  #form: FormView | null = null;
  #pictures: Pictures | null = null;
  #upto = "";
  #skins: Texture[] = [];
  #cut: Cut = { wedge: 0, at: -45, level: null };
  #shown: Cut = this.#cut;
  #marked: { lines: Marks; colour: string } = { lines: [], colour: "#000000" };
  #asked = 0;
  #resting: ReturnType<typeof setTimeout> | undefined;
  #ratio = 1;
  #still: ReturnType<typeof setTimeout> | undefined;
  #moving = false;
  /** A hand holds what is changed: nothing is drawn sharp before it lets go. */
  #held = false;
  #stale: Mesh<BufferGeometry, MeshStandardMaterial>[] = [];
  /** How sharp a moving picture may be. */
  #share = 1;

  constructor(
    readonly canvas: HTMLCanvasElement,
    readonly drawn: (ms: number) => void = () => undefined,
  ) {
    // Edges are smoothed by drawing finer than the screen shows, not by the renderer: one that
    // has no graphics card pays for its own smoothing with every triangle, four times over.
    this.#renderer = new WebGLRenderer({ canvas, antialias: false, alpha: true });
    this.#renderer.toneMapping = NeutralToneMapping;
    this.#renderer.toneMappingExposure = 1.02;
    this.#renderer.shadowMap.enabled = true;
    this.#renderer.shadowMap.type = VSMShadowMap;
    this.#renderer.shadowMap.autoUpdate = false;
    this.#renderer.localClippingEnabled = true;
    this.#three.add(this.#studio.group, this.#body, this.#marks, this.#stack);
    this.orbit = new Orbit(() => this.#turning());
  }

  resize(width: number, height: number): void {
    if (!width || !height) return;
    const finest = Math.sqrt(MOST_PIXELS / (width * height));
    this.#ratio = Math.min(Math.max(2, 1.5 * devicePixelRatio), 3, finest);
    this.#renderer.setPixelRatio(this.#ratio);
    this.#renderer.setSize(width, height, false);
    this.#frame();
    this.ask();
  }

  #frame(): void {
    const form = this.#form;
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (!form || !w || !h) return;
    this.orbit.frame(form.radius, form.height, w / h);
    this.#studio.fit(form.radius, form.height, form.outer[0]?.[0] ?? form.radius);
  }

  dark(dark: boolean): void {
    this.#studio.dark(dark);
    this.ask();
  }

  /** Shows a form with its pictures: small ones at once, large ones when the hand rests. What
   * a dragging hand changes is drawn as coarsely as what it turns. */
  async show(form: FormView, pictures: Pictures, resting: boolean, upto: string): Promise<boolean> {
    clearTimeout(this.#resting);
    this.#upto = upto;
    this.#held = !resting;
    const small = await this.#load(form, SMALL, !resting);
    if (!small) return false;
    // The first picture after letting go comes as quickly as those before it.
    this.#turning();
    this.#put(form, pictures, small);
    if (!resting) return true;
    this.#resting = setTimeout(() => void this.#refine(form, pictures, small).catch(() => undefined), 60);
    return true;
  }

  // The outer wall first: it is most of what is seen. A machine that draws slowly gets all at once.
  async #refine(form: FormView, pictures: Pictures, small: Texture[]): Promise<void> {
    const outside = form.parts.findIndex((part) => part.name === "outside");
    let wall: Texture | undefined;
    if (!this.#slow && outside >= 0) {
      const got = await this.#surfaces.ask((signal) => texture(this.#address(form, outside, LARGE, false), signal));
      if (!got) return;
      wall = got;
      this.#put(form, pictures, small.with(outside, got));
    }
    const large = await this.#load(form, LARGE, false, wall);
    if (large) this.#put(form, pictures, large);
  }

  #address(form: FormView, i: number, width: number, hasty: boolean): string {
    const part = form.parts[i];
    const w = part?.name === "outside" ? width : part?.name === "inside" ? (hasty ? width / 2 : width) : Math.min(width, 1024) / (part?.name === "rim" ? 1 : 2);
    return `${part?.picture}&w=${Math.round(w)}${this.#upto}`;
  }

  // While a hand drags, rim, floor and foot keep the pictures they have, and the inside is coarse.
  #load(form: FormView, width: number, hasty: boolean, wall?: Texture): Promise<Texture[] | null> {
    const last = this.#form?.parts.map((part) => part.name);
    return this.#surfaces.ask((signal) =>
      Promise.all(
        form.parts.map((part, i) => {
          if (wall && part.name === "outside") return wall;
          const kept = hasty && part.name !== "outside" && part.name !== "inside" ? this.#skins[last?.indexOf(part.name) ?? -1] : undefined;
          return kept ?? texture(this.#address(form, i, width, hasty), signal);
        }),
      ),
    );
  }

  #put(form: FormView, pictures: Pictures, skins: Texture[]): void {
    const first = this.#form === null;
    const moved = first || this.#form?.height !== form.height || this.#form?.radius !== form.radius;
    for (const old of this.#skins) if (!skins.includes(old)) old.dispose();
    this.#form = form;
    this.#pictures = pictures;
    this.#skins = skins;
    if (moved) this.#frame();
    void this.#build().catch(() => undefined);
  }

  cut(cut: Cut): void {
    this.#cut = cut;
    if (this.#form) void this.#build().catch(() => undefined);
  }

  // Surfaces and the faces of cuts stand at once, the faces plain until their pictures are there.
  async #build(): Promise<void> {
    const [form, cut] = [this.#form, this.#cut];
    if (!form) return;
    this.#shown = cut;
    this.#clear(this.#body);
    this.#plane.constant = cut.level ?? form.height * 2;
    const turn = turnOf(cut);
    form.parts.forEach((part, i) => {
      const mesh = this.#add(turned(part, form.radius, turn), this.#skins[i], part.name === "inside" || part.name === "floor" ? 0.6 : 0.42, true);
      mesh.userData.part = part;
    });
    const faces = this.#facesOf(form, cut).map(({ shape, address, clipped }) => ({ mesh: this.#add(shape, undefined, 0.75, clipped, true), address }));
    this.mark(this.#marked.lines, this.#marked.colour);
    await this.#faces.ask((signal) =>
      Promise.all(
        faces.map(async ({ mesh, address }) => {
          const skin = await texture(`${address}&w=${FACE}${this.#upto}`, signal);
          // A face that was cleared meanwhile takes its picture with it.
          if (!mesh.parent) return skin.dispose();
          mesh.material.map = skin;
          mesh.material.color.set(0xffffff);
          mesh.material.needsUpdate = true;
          this.ask();
        }),
      ),
    );
  }

  #facesOf(form: FormView, cut: Cut): { shape: BufferGeometry; address: string; clipped: boolean }[] {
    const [turn, pictures] = [turnOf(cut), this.#pictures];
    if (!pictures) return [];
    const faces = [];
    if (cut.wedge > 0) {
      for (const [azimuth, towards] of [[turn.from, -1], [turn.from + turn.span, 1]] as const) {
        faces.push({ shape: face(form.outline, form.radius, form.height, azimuth, towards), address: `${pictures.section}&az=${azimuth}`, clipped: true });
      }
    }
    if (cut.level !== null) {
      faces.push({ shape: level(form.outline, form.radius, cut.level, turn), address: `${pictures.level}&z=${cut.level}`, clipped: false });
    }
    return faces;
  }

  #add(shape: BufferGeometry, skin: Texture | undefined, roughness: number, clipped: boolean, owned = false): Mesh<BufferGeometry, MeshStandardMaterial> {
    const material = new MeshStandardMaterial({ map: skin ?? null, color: skin ? 0xffffff : PLAIN, roughness, metalness: 0 });
    // Where there is no wood the picture is clear: gaps of open rings are looked through.
    if (skin) material.alphaTest = 0.5;
    if (clipped) material.clippingPlanes = [this.#plane];
    material.clipShadows = true;
    const mesh = new Mesh(shape, material);
    mesh.castShadow = mesh.receiveShadow = true;
    mesh.userData.owned = owned;
    this.#body.add(mesh);
    return mesh;
  }

  // What is taken off the scene is let go after the next picture: were the last user of a
  // shader gone before its follower is drawn, the shader would be compiled again each time.
  #clear(group: Group): void {
    this.#stale.push(...(group.children as Mesh<BufferGeometry, MeshStandardMaterial>[]));
    group.clear();
  }

  #letGo(): void {
    for (const { geometry, material, userData } of this.#stale.splice(0)) {
      geometry.dispose();
      if (userData.owned) material.map?.dispose();
      material.dispose();
    }
  }

  /** Shows rings as they stand before turning, in place of the piece; null shows the piece. */
  showStack(stacked: Stacked | null, woods: Wood[], height: number): void {
    this.#clear(this.#stack);
    this.#body.visible = this.#marks.visible = stacked === null;
    if (stacked) {
      const { body, edges } = prisms(stacked, woods);
      const mesh = new Mesh(body, new MeshStandardMaterial({ vertexColors: true, roughness: 0.75 }));
      mesh.castShadow = mesh.receiveShadow = true;
      // Rings that stand apart are higher than the piece: they are drawn smaller.
      body.computeBoundingBox();
      this.#stack.scale.setScalar(Math.min(1, height / Math.max(1, body.boundingBox?.max.y ?? 1)));
      this.#stack.add(mesh, new LineSegments(edges, new LineBasicMaterial({ color: 0x241c12, transparent: true, opacity: 0.45 })));
    }
    this.ask();
  }

  /** Marks what is chosen on the outer wall. */
  mark(lines: Marks, colour: string): void {
    this.#marked = { lines, colour };
    this.#clear(this.#marks);
    // A mark is seen at once; the sharp picture may come after it.
    if (this.#slow) this.#turning();
    const form = this.#form;
    const { at, wedge } = this.#shown;
    const away = (azimuth: number) => wedge > 0 && ((((azimuth - at + wedge / 2) % 360) + 360) % 360) < wedge;
    if (form && lines.length) {
      const points: Vector3[] = [];
      for (const line of lines) {
        line.forEach(([azimuth, z], i) => {
          const last = line[i - 1];
          if (!last || Math.abs(azimuth - last[0]) > 30 || away(azimuth)) return;
          for (const [a, h] of [last, [azimuth, z] as Pair]) points.push(onScreen(radiusAt(form.outer, h) + form.radius * 0.004, a, h));
        });
      }
      this.#marks.add(new LineSegments(new BufferGeometry().setFromPoints(points), new LineBasicMaterial({ color: colour, clippingPlanes: [this.#plane] })));
    }
    this.ask();
  }

  /** The point of the turned piece under a place on the screen. */
  pick(clientX: number, clientY: number): readonly [number, number, number] | null {
    if (!this.#body.visible) return null;
    const box = this.canvas.getBoundingClientRect();
    const at = new Vector2(((clientX - box.left) / box.width) * 2 - 1, 1 - ((clientY - box.top) / box.height) * 2);
    const ray = new Raycaster();
    ray.setFromCamera(at, this.orbit.camera);
    const high = this.#shown.level;
    const hit = ray.intersectObjects(this.#body.children, false).find(({ point }) => high === null || point.y <= high + 0.01);
    if (!hit) return null;
    const part = hit.object.userData.part as SurfacePart | undefined;
    return inPiece(part?.map === "skin" && hit.uv ? onWall(part, hit.uv.x, hit.uv.y) : hit.point);
  }

  #turning(): void {
    this.#moving = true;
    this.ask();
    this.#rest();
  }

  // Sharp again when nothing has moved for a while, counted from the last picture: a slow
  // machine takes longer for one than a hand takes to move on.
  #rest(): void {
    clearTimeout(this.#still);
    this.#still = setTimeout(() => {
      if (this.#asked || this.#held) return;
      this.#moving = false;
      this.ask();
    }, 180);
  }

  /** Asks for a new picture at the next frame. */
  ask(): void {
    if (this.#asked) return;
    this.#asked = requestAnimationFrame(() => this.#draw());
  }

  #draw(): void {
    this.#asked = 0;
    const start = performance.now();
    // While something moves a slow machine gets a coarser picture, and at rest one not much finer
    // than the screen. A new size empties the canvas, so that it is set only before a picture.
    const share = this.#moving ? this.#share : this.#slow ? Math.min(1, (1.25 * devicePixelRatio) / this.#ratio) : 1;
    const ratio = this.#ratio * share;
    if (this.#renderer.getPixelRatio() !== ratio) this.#renderer.setPixelRatio(ratio);
    this.#studio.follow(this.orbit.azimuth, this.#form?.height ?? 0);
    // The lamp goes with the one who looks, and its shadow with it: at rest, when it is dear.
    this.#renderer.shadowMap.needsUpdate = !this.#moving || share === 1;
    const shaders = this.#renderer.info.programs?.length;
    this.#renderer.render(this.#three, this.orbit.camera);
    this.#letGo();
    if (this.#moving) this.#rest();
    // A picture whose shaders had to be made first says nothing of the next.
    if (this.#renderer.info.programs?.length === shaders) requestAnimationFrame(() => this.#took(performance.now() - start, share));
    this.drawn(performance.now() - start);
  }

  get #slow(): boolean {
    return this.#share < 0.5;
  }

  // How slow a machine is shows in how long it is until it can draw again: the browser waits
  // for what was drawn after this has returned.
  #took(ms: number, share: number): void {
    // Longer than any picture takes: the page was out of sight.
    if (ms > 3000) return;
    const was = this.#slow;
    if (ms > 45) this.#share = Math.max(COARSEST, Math.min(this.#share, share * Math.max(0.4, Math.sqrt(40 / ms))));
    else if (ms < 25) this.#share = Math.min(1, Math.max(share, this.#share * 1.25));
    // What rests was drawn too coarsely.
    if (was && !this.#slow && !this.#moving) this.ask();
  }

  /**
   * The view without grain, light or marks, every wood in its own colour: what the picture
   * says, so that it can be held against the model. RGBA, rows from the bottom.
   */
  async plain(): Promise<{ width: number; height: number; rgba: Uint8Array } | null> {
    const [form, cut] = [this.#form, this.#shown];
    if (!form) return null;
    const signal = new AbortController().signal;
    const flat = (address: string, width: number) => texture(`${address}&w=${width}&grain=0${this.#upto}`, signal);
    const shapes = form.parts.map((part) => ({ shape: turned(part, form.radius, turnOf(cut)), address: part.picture, clipped: true }));
    const group = new Group();
    for (const { shape, address, clipped } of [...shapes, ...this.#facesOf(form, cut)]) {
      const map = await flat(address, FINEST);
      map.minFilter = map.magFilter = NearestFilter;
      map.generateMipmaps = false;
      group.add(new Mesh(shape, new MeshBasicMaterial({ map, clippingPlanes: clipped ? [this.#plane] : [] })));
    }
    const plain = new Three();
    plain.add(group);
    const renderer = this.#renderer;
    const toned = renderer.toneMapping;
    renderer.toneMapping = NoToneMapping;
    renderer.render(plain, this.orbit.camera);
    const gl = renderer.getContext();
    const { width, height } = this.canvas;
    const rgba = new Uint8Array(width * height * 4);
    gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, rgba);
    renderer.toneMapping = toned;
    for (const child of group.children as Mesh<BufferGeometry, MeshBasicMaterial>[]) child.material.map?.dispose();
    this.#clear(group);
    this.#draw();
    return { width, height, rgba };
  }

  /** The picture as it stands, for paper. */
  snapshot(): string {
    this.#moving = false;
    this.#draw();
    return this.canvas.toDataURL("image/png");
  }

  dispose(): void {
    this.#surfaces.stop();
    this.#faces.stop();
    clearTimeout(this.#resting);
    clearTimeout(this.#still);
    cancelAnimationFrame(this.#asked);
    this.#clear(this.#body);
    this.#clear(this.#marks);
    this.#clear(this.#stack);
    this.#letGo();
    for (const skin of this.#skins) skin.dispose();
    this.#renderer.dispose();
  }
}

function turnOf(cut: Cut): Turn {
  return cut.wedge > 0 ? { from: cut.at + cut.wedge / 2, span: 360 - cut.wedge } : WHOLE;
}
