// Old answers must never overtake new ones.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { createServer } from "vite";

let vite, Queue;
before(async () => {
  vite = await createServer({ server: { middlewareMode: true, hmr: false, ws: false }, appType: "custom", logLevel: "error", optimizeDeps: { noDiscovery: true } });
  ({ Queue } = await vite.ssrLoadModule("/src/queue.ts"));
});
after(() => vite.close());

const later = (value, ms, log) => () =>
  new Promise((resolve) => {
    log.push(`ask ${value}`);
    setTimeout(() => resolve(value), ms);
  });

test("of many previews the first and the newest are asked, in this order", async () => {
  const queue = new Queue();
  const log = [];
  const answers = await Promise.all([1, 2, 3, 4].map((n) => queue.newest(later(n, 10, log))));
  assert.deepEqual(answers, [1, null, null, 4]);
  assert.deepEqual(log, ["ask 1", "ask 4"]);
});

test("a preview under way is dropped when an edit is kept meanwhile", async () => {
  const queue = new Queue();
  const log = [];
  const preview = queue.newest(later("preview", 20, log));
  const waiting = queue.newest(later("waiting", 20, log));
  const edit = queue.inOrder(later("edit", 1, log));
  assert.equal(await preview, null);
  assert.equal(await waiting, null);
  assert.equal(await edit, "edit");
  assert.deepEqual(log, ["ask preview", "ask edit"]);
});

test("edits are asked one after another, even when one is refused", async () => {
  const queue = new Queue();
  const log = [];
  const refused = queue.inOrder(async () => {
    log.push("first");
    throw new Error("no");
  });
  const second = queue.inOrder(later("second", 1, log));
  await assert.rejects(refused);
  assert.equal(await second, "second");
  assert.deepEqual(log, ["first", "ask second"]);
});

test("a preview after an edit waits for it", async () => {
  const queue = new Queue();
  const log = [];
  const edit = queue.inOrder(later("edit", 20, log));
  const preview = queue.newest(later("preview", 1, log));
  assert.equal(await preview, "preview");
  assert.equal(await edit, "edit");
  assert.deepEqual(log, ["ask edit", "ask preview"]);
});
