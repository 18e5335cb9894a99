// A value refused because of another one is tried again when the other was changed.
import assert from "node:assert/strict";
import { after, before, beforeEach, test } from "node:test";
import { createServer } from "vite";

let vite, module;
before(async () => {
  vite = await createServer({ server: { middlewareMode: true, hmr: false, ws: false }, appType: "custom", logLevel: "error", optimizeDeps: { noDiscovery: true } });
  globalThis.document = { documentElement: { dataset: {} }, title: "" };
  globalThis.location = { hash: "#/piece/bowl" };
  globalThis.addEventListener = () => undefined;
  globalThis.EventSource = class {
    addEventListener = (name, listener) => name === "message" && (program.tell = (event) => listener({ data: JSON.stringify(event) }));
    close = () => undefined;
  };
  globalThis.fetch = (address, request) => program.answer(address, request);
  module = await vite.ssrLoadModule("/src/store.svelte.ts");
});
after(() => vite.close());

/** A program that keeps a ring no higher than its stock, and as many woods as segments. */
class Program {
  version = 1;
  values = { stock: 19, ring: 18, "section[0].turn": 0, segments: 12, woods: 12 };
  undone = [];
  asked = [];
  slow = 0;
  tell = () => undefined;

  problems({ stock, ring, segments, woods }) {
    const all = [];
    if (!Number.isFinite(Number(ring))) all.push({ path: "ring", what: `${ring} is no length` });
    if (Number(ring) > Number(stock)) all.push({ path: "ring", what: `a ring of ${ring} cannot be had from ${stock} stock` });
    if (Number(segments) !== Number(woods)) all.push({ path: "woods", what: `${woods} woods for ${segments} segments` });
    return all.map((one) => ({ line: null, column: null, remedy: "another", ...one }));
  }

  view(values = this.values) {
    const blanks = Object.fromEntries(Object.entries(values).map(([path, shown]) => [path, { shown: String(shown), label: path }]));
    return { name: "bowl", title: "Bowl", unit: "mm", version: `v${this.version}`, route: [], blanks, undo: this.undone.length, redo: 0 };
  }

  keep(values) {
    this.undone.push(this.values);
    this.values = values;
    this.version += 1;
  }

  edited(body) {
    this.asked.push(`${body.preview ? "try" : "set"} ${body.edits.map((edit) => `${edit.path} ${edit.value ?? edit.op}`).join(", ")}`);
    const none = { view: null, problems: [], conflict: null, superseded: false, seq: body.seq };
    if (body.base !== `v${this.version}` && !body.preview) return { ...none, conflict: { what: "both", theirs: `v${this.version}`, mine: null } };
    const values = { ...this.values };
    for (const edit of body.edits) if (edit.op === "set") values[edit.path] = edit.value;
    const problems = this.problems(values);
    if (problems.length) return { ...none, problems };
    if (!body.preview) this.keep(values);
    return { ...none, view: this.view(values) };
  }

  workshop(body) {
    if (!body) return this.view();
    const { view, problems, conflict } = this.edited(body);
    return { workshop: view, problems, conflict: conflict !== null };
  }

  async answer(address, { body }) {
    const sent = body ? JSON.parse(body) : null;
    if (this.slow) await new Promise((go) => setTimeout(go, this.slow));
    let said = this.view();
    if (address.includes("/workshop")) said = this.workshop(sent);
    else if (address.includes("/edit")) said = this.edited(sent);
    else if (address.includes("/undo")) {
      this.values = this.undone.pop();
      this.version += 1;
      said = { view: this.view(), problems: [], conflict: null };
    }
    return { ok: true, status: 200, text: async () => JSON.stringify(said) };
  }
}

let program, store;
const shown = (path) => store.wrong[path]?.entered ?? store.view.blanks[path].shown;
const rest = (ms = 30) => new Promise((go) => setTimeout(go, ms));
beforeEach(async () => {
  program = new Program();
  store = new module.Store();
  store.start();
  await rest();
  assert.equal(shown("ring"), "18");
});

test("the ring that was too high for its stock is taken when thicker stock is given", async () => {
  assert.equal(await store.set("ring", "28", "28"), false);
  assert.match(store.wrong.ring.problems[0].what, /28 cannot be had from 19/);
  assert.equal(await store.set("stock", "30", "30"), true);
  assert.deepEqual(program.values, { ...program.values, stock: "30", ring: "28" });
  assert.equal(store.wrong.ring, undefined);
  assert.equal(shown("ring"), "28");
  assert.match(store.announcement, /ring.*28/, "it is said, for those who do not see it");
  assert.equal(program.undone.length, 2, "each is a step of its own");
});

test("stock that is not thick enough either leaves the entry, with the reason as it now is", async () => {
  await store.set("ring", "28", "28");
  await store.set("stock", "25", "25");
  assert.equal(shown("ring"), "28");
  assert.match(store.wrong.ring.problems[0].what, /28 cannot be had from 25/);
  await store.set("stock", "30", "30");
  assert.equal(program.values.ring, "28");
});

test("of several refused entries each is taken as soon as it may be", async () => {
  await store.set("ring", "28", "28");
  await store.set("woods", "10", "10");
  await store.set("section[0].turn", "5", "5");
  assert.deepEqual(Object.keys(store.wrong), ["ring", "woods"]);
  await store.set("stock", "30", "30");
  assert.deepEqual(Object.keys(store.wrong), ["woods"]);
});

test("two entries that only suit each other are taken together", async () => {
  await store.set("segments", "10", "10");
  assert.equal(shown("segments"), "10");
  await store.set("woods", "10", "10");
  assert.deepEqual([program.values.segments, program.values.woods], ["10", "10"]);
  assert.deepEqual(store.wrong, {});
});

test("a newer entry in the same blank counts, not the older one", async () => {
  await store.set("ring", "28", "28");
  program.slow = 5;
  await Promise.all([store.set("stock", "30", "30"), store.set("ring", "20", "20")]);
  await rest();
  assert.equal(program.values.ring, "20");
  assert.deepEqual(store.wrong, {});
});

test("an entry that was given up is not tried again", async () => {
  await store.set("ring", "28", "28");
  store.forgetEntry("ring");
  await store.set("stock", "30", "30");
  assert.equal(program.values.ring, 18);
});

test("undo lets refused entries go, and what it took back does not come again by itself", async () => {
  await store.set("ring", "28", "28");
  await store.set("stock", "30", "30");
  await store.undo();
  assert.equal(program.values.ring, 18);
  await store.set("segments", "10", "10");
  await store.undo();
  assert.deepEqual(store.wrong, {});
  program.slow = 5;
  await store.set("ring", "28", "28");
  await Promise.all([store.set("stock", "40", "40"), store.undo()]);
  await rest();
  assert.deepEqual([program.values.stock, program.values.ring], [19, 18], "undo asked for before the answer comes first");
});

test("a piece that was changed elsewhere is asked, not changed: the maker takes the entry", async () => {
  await store.set("ring", "28", "28");
  await store.set("woods", "11", "11");
  program.keep({ ...program.values, stock: 30 });
  program.tell({ event: "changed", version: "v2", on_disk: true, broken: false, client: null });
  await rest();
  assert.equal(program.values.ring, 18, "nothing is written by itself");
  assert.deepEqual(store.wrong.ring.problems, [], "but it would do now");
  assert.match(store.wrong.woods.problems[0].what, /11 woods/);
  await store.set("section[0].turn", "5", "5");
  assert.equal(program.values.ring, 18, "nor later");
  await store.enterAgain("ring");
  assert.equal(program.values.ring, "28");
  assert.deepEqual(Object.keys(store.wrong), ["woods"]);
  program.keep({ ...program.values, segments: "11", woods: "11" });
  program.tell({ event: "behind" });
  await rest();
  assert.deepEqual(store.wrong, {}, "what was wished for stands, whoever did it");
});

test("a piece changed elsewhere while the entry is tried again: the entry stays, nothing is overwritten", async () => {
  await store.set("ring", "28", "28");
  const { edited } = Program.prototype;
  program.edited = (body) => {
    const said = edited.call(program, body);
    if (body.edits[0].path === "stock") program.keep({ ...program.values, ring: 17 });
    return said;
  };
  await store.set("stock", "30", "30");
  assert.equal(program.values.ring, 17);
  assert.equal(shown("ring"), "28");
  assert.equal(store.conflict, null, "no question about what nobody did just now");
});

test("a conflict is asked about; nothing refused is tried before it is answered", async () => {
  await store.set("ring", "28", "28");
  program.keep({ ...program.values, stock: 25 });
  await store.set("stock", "30", "30");
  assert.ok(store.conflict);
  assert.equal(program.asked.filter((one) => one.includes("ring 28")).length, 1);
  assert.equal(shown("ring"), "28");
});

test("places in a list may be others after a ring was put in: their entries go", async () => {
  program.values["section[0].ring[2].height"] = 18;
  await store.set("section[0].turn", "x", "x");
  program.problems = () => [{ path: null, what: "no", remedy: "", line: null, column: null }];
  await store.set("section[0].turn", "7", "7");
  await store.set("stock", "20", "20");
  program.problems = () => [];
  await store.edit([{ op: "add", path: "section[0].ring", at: 1 }]);
  assert.deepEqual(program.values["section[0].turn"], "x");
  assert.deepEqual(store.wrong, {});
  assert.equal(program.values.stock, "20", "an entry that is in no list stays and is tried again");
});

test("another unit or another opening lets refused entries go: their words mean something else there", async () => {
  await store.set("ring", "28", "28");
  await store.switchUnit("inch");
  assert.deepEqual(store.wrong, {});
  await store.set("stock", "30", "30");
  assert.equal(program.values.ring, 18);
  await store.set("ring", "40", "40");
  // The page is loaded anew: what it held is gone, the file's value is shown.
  store = new module.Store();
  store.start();
  await rest();
  assert.equal(shown("ring"), "18");
});

test("a handle that is refused leaves no words to try again, and a step without a blank is told on top", async () => {
  await store.edit([{ op: "set", path: "ring", value: 28 }]);
  assert.equal(shown("ring"), "18");
  assert.match(store.wrong.ring.problems[0].what, /28 cannot/);
  await store.set("stock", "30", "30");
  assert.equal(program.values.ring, 18);
  program.problems = () => [{ path: null, what: "too many rings", remedy: "", line: null, column: null }];
  await store.edit([{ op: "add", path: "section", at: 1 }]);
  assert.match(store.problems[0].what, /too many rings/);
});

test("the workshop's settings wait for each other too, and one that comes late is asked about", async () => {
  store.where = { page: "workshop" };
  await store.loadWorkshop();
  await store.setInWorkshop("ring", "28", "28");
  assert.match(store.wrong.ring.problems[0].what, /28 cannot/);
  await Promise.all([store.setInWorkshop("stock", "30", "30"), store.setInWorkshop("section[0].turn", "4", "4")]);
  assert.deepEqual([program.values.ring, program.values["section[0].turn"]], ["28", "4"]);
  assert.deepEqual(store.wrong, {});
  program.keep({ ...program.values, stock: 31 });
  await store.setInWorkshop("ring", "29", "29");
  assert.deepEqual([program.values.ring, shown("ring")], ["28", "29"]);
  assert.equal(store.workshop.blanks.stock.shown, "31");
  await store.enterAgain("ring");
  assert.equal(program.values.ring, "29");
});
