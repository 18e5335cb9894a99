// The drawn surface against closed forms.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { createServer } from "vite";

let vite, revolve;
before(async () => {
  vite = await createServer({ server: { middlewareMode: true, hmr: false, ws: false }, appType: "custom", logLevel: "error", optimizeDeps: { noDiscovery: true } });
  revolve = await vite.ssrLoadModule("/src/viewer/revolve.ts");
});
after(() => vite.close());

// Area of a mesh, and how far its triangles face where its normals point.
function measured(shape) {
  const [p, n, index] = [shape.getAttribute("position"), shape.getAttribute("normal"), shape.getIndex()];
  let area = 0;
  let facing = Infinity;
  for (let i = 0; i < index.count; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => index.getX(i + k)).map((v) => [p.getX(v), p.getY(v), p.getZ(v), v]);
    const [u, w] = [b, c].map((q) => q.slice(0, 3).map((x, k) => x - a[k]));
    const cross = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
    const twice = Math.hypot(...cross);
    area += twice / 2;
    if (twice > 1e-6) facing = Math.min(facing, (cross[0] * n.getX(a[3]) + cross[1] * n.getY(a[3]) + cross[2] * n.getZ(a[3])) / twice);
  }
  return { area, facing };
}
const near = (a, b, share) => assert.ok(Math.abs(a - b) <= share * Math.abs(b), `${a} is not near ${b}`);

test("a cylinder's wall has the area 2 pi r h and faces outwards", () => {
  const shape = revolve.turned({ name: "outside", map: "skin", line: [[50, 0], [50, 80]], picture: "" }, 50, revolve.WHOLE);
  const { area, facing } = measured(shape);
  near(area, 2 * Math.PI * 50 * 80, 1e-3);
  assert.ok(facing > 0.99);
  const [p, n] = [shape.getAttribute("position"), shape.getAttribute("normal")];
  for (let i = 0; i < p.count; i++) assert.ok(p.getX(i) * n.getX(i) + p.getZ(i) * n.getZ(i) > 0);
});

test("a three-quarter turn has three quarters of a cone's area pi r s", () => {
  const shape = revolve.turned({ name: "outside", map: "skin", line: [[60, 0], [0, 80]], picture: "" }, 60, { from: 30, span: 270 });
  near(measured(shape).area, 0.75 * Math.PI * 60 * 100, 1e-3);
});

test("the picture's azimuth grows counter-clockwise from above", () => {
  const shape = revolve.turned({ name: "outside", map: "skin", line: [[50, 0], [50, 80]], picture: "" }, 50, revolve.WHOLE);
  const [p, uv] = [shape.getAttribute("position"), shape.getAttribute("uv")];
  for (let i = 0; i < p.count; i++) {
    const [x, y] = revolve.inPiece({ x: p.getX(i), y: p.getY(i), z: p.getZ(i) });
    const azimuth = (Math.atan2(y, x) / (2 * Math.PI) + 1) % 1;
    const off = Math.abs(azimuth - (uv.getX(i) % 1));
    assert.ok(Math.min(off, 1 - off) < 1e-5);
  }
});

// A cup: outer radius 50, inner 40, floor 10, height 60.
const CUP = [[0, 0], [50, 0], [50, 60], [40, 60], [40, 10], [0, 10]];

test("a wedge's face has the half-section's area and looks out of the wood", () => {
  for (const [towards, azimuth] of [[1, 0], [-1, 0], [1, 137], [-1, 300]]) {
    const { area, facing } = measured(revolve.face(CUP, 50, 60, azimuth, towards));
    near(area, 50 * 10 + 10 * 50, 1e-6);
    assert.ok(facing > 0.99);
  }
});

test("a level cut shows a ring in the wall and a disc in the floor", () => {
  near(measured(revolve.level(CUP, 50, 30, revolve.WHOLE)).area, Math.PI * (50 ** 2 - 40 ** 2), 1e-3);
  near(measured(revolve.level(CUP, 50, 5, revolve.WHOLE)).area, Math.PI * 50 ** 2, 1e-3);
});
