// Shaping a piece: handles, blanks, woods, undo; with the hand and by keyboard alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browser, drag, open, shop, until, visit } from "./shop.mjs";

let at, web;
before(async () => {
  [at, web] = await Promise.all([shop(), browser()]);
});
after(async () => {
  await web?.close();
  await at?.close();
});

const number = async (page, slider) => Number(await page.getByRole("slider", { name: slider }).getAttribute("aria-valuenow"));
const said = (text, key) => Number(text.match(new RegExp(`^ *${key} *= *"?([\\d.]+)`, "m"))?.[1]);

test("reach, height and layer are dragged; the file has what the hand gave", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  for (const [slider, key, dy] of [["reach, at the loops' top", "reach", 6], ["height of the loops' middle", "height", 3], ["layer", "layer", -5]]) {
    const before = await number(page, slider);
    await drag(page, page.getByRole("slider", { name: slider, exact: true }), 0, dy);
    // The hand has let go, but answers to what it tried on its way may still come.
    const now = await until(async () => {
      const value = await number(page, slider);
      return Math.abs(value - before) > 0.2 && Math.abs(said(await at.text("sandpiper-bowl"), key) - value) < 0.06 && value;
    }, `${key} has changed, in the file too`);
    assert.ok(dy > 0 ? now < before : now > before, `${key} goes with the hand`);
  }
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("a limit is felt: the reach stops where the section ends and says so", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const slider = page.getByRole("slider", { name: "reach, at the loops' top", exact: true });
  const most = Number(await slider.getAttribute("aria-valuemax"));
  await drag(page, slider, 0, -200);
  await page.locator(".felt").waitFor();
  const text = await until(async () => {
    const value = said(await at.text("sandpiper-bowl"), "reach");
    return Math.abs(value - most) < 0.6 && value;
  }, "the reach is the most there is room for");
  assert.ok(text <= most + 0.06);
  await page.context().close();
});

test("a wrong entry stays with reason and remedy, and the last good piece in view", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const before = await at.text("sandpiper-bowl");
  const blank = page.getByRole("textbox", { name: /^reach/ });
  await blank.fill("wide");
  await blank.press("Enter");
  const alert = page.locator(".wrong");
  await alert.waitFor();
  assert.equal(await blank.inputValue(), "wide");
  assert.equal(await blank.getAttribute("aria-invalid"), "true");
  assert.match(await alert.innerText(), /\S+ .*: \S+/);
  assert.equal(await at.text("sandpiper-bowl"), before);
  await blank.fill("1 1/4 in");
  await blank.press("Enter");
  await until(async () => (await alert.count()) === 0, "the reason goes with the wrong entry");
  // 1 1/4 in = 31.75 mm, shown to 0.1 mm.
  await until(async () => Math.abs(Number(await blank.inputValue()) - 31.75) <= 0.051, "inches are understood");
  await page.context().close();
});

test("a ring's segments are given woods; undo all, redo all, reload", async () => {
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  const first = await at.text("dunlin-vase");
  await page.getByRole("button", { name: /^ring 6 / }).click();
  await page.getByRole("button", { name: /segment 3,/ }).click();
  await until(async () => (await at.text("dunlin-vase")) !== first, "the ring has its woods");
  await page.getByRole("button", { name: "round", exact: true }).click();
  const tall = page.getByRole("textbox", { name: /^floor/ });
  await tall.fill("1/2");
  await tall.press("Enter");
  await until(async () => /floor = "?(1\/2|0\.5)/.test(await at.text("dunlin-vase")), "the floor is in the file");
  const last = await at.text("dunlin-vase");
  const undo = page.getByRole("button", { name: "undo" });
  const all = async (button, end) => {
    for (let steps = 0; steps < 20 && (await at.text("dunlin-vase")) !== end; steps++) {
      const before = await at.text("dunlin-vase");
      await button.click();
      await until(async () => (await at.text("dunlin-vase")) !== before, "a step");
    }
    await until(() => button.isDisabled(), "no step is left");
    assert.equal(await at.text("dunlin-vase"), end, "to the last letter");
  };
  await all(undo, first);
  await all(page.getByRole("button", { name: "redo" }), last);
  await page.reload();
  await page.getByRole("heading", { name: "1 Form" }).waitFor();
  assert.equal(await page.getByRole("textbox", { name: /^floor/ }).inputValue(), "1/2");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("a finding's figure is put in by a click", async () => {
  // Nothing to watch in the example, whatever the tests before this one have done to it.
  await at.write("sandpiper-bowl", await at.example("sandpiper-bowl"));
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const reach = page.getByRole("textbox", { name: /^reach/ });
  await reach.fill("60");
  await page.getByRole("button", { name: "nothing to watch" }).waitFor();
  await reach.press("Enter");
  await page.getByRole("button", { name: "2 to watch" }).waitFor();
  const watch = page.locator("section[data-part='5'] li");
  const fix = watch.getByRole("button", { name: /^make the reach/ }).first();
  await fix.waitFor();
  const found = (await watch.first().innerText()).split("make the reach")[0];
  // The button says the thing and the value.
  const figure = (await fix.innerText()).match(/([\d.]+) mm$/)?.[1];
  await fix.click();
  await until(async () => (await reach.inputValue()) === figure, "the figure stands in its blank");
  await until(async () => !(await watch.allInnerTexts()).some((text) => text.startsWith(found)), "the finding is gone");
  await page.context().close();
});

test("entries that come faster than their answers are all kept", async () => {
  const page = await visit(at, web);
  await open(page, "turnstone-box");
  const blank = page.getByRole("textbox", { name: /^floor thickness/ });
  // The file is written before its answer reaches the page: the next entry is typed meanwhile.
  for (let i = 0; i < 24; i++) {
    const value = i % 2 ? "8.5" : "9.5";
    await blank.fill(value);
    await blank.press("Enter");
    await until(async () => new RegExp(`^floor = (${value}|"${value} mm")`, "m").test(await at.text("turnstone-box")), `entry ${i} is kept`);
  }
  assert.equal(await page.getByRole("alert").count(), 0);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("the same by keyboard alone: points, handles, blanks, woods, undo", async () => {
  const page = await visit(at, web);
  await open(page, "turnstone-box");
  const text = () => at.text("turnstone-box");
  const change = async (what, press) => {
    const before = await text();
    await press();
    await until(async () => (await text()) !== before, what);
  };
  // Reached by Tab, not by a click.
  const tabTo = async (name) => {
    for (let i = 0; i < 200; i++) {
      await page.keyboard.press("Tab");
      const label = await page.evaluate(() => document.activeElement?.getAttribute("aria-label") ?? document.activeElement?.textContent ?? "");
      if (name.test(label)) return;
    }
    assert.fail(`Tab does not reach ${name}`);
  };
  await tabTo(/^floor/);
  await change("a blank steps by arrows", () => page.keyboard.press("ArrowUp"));
  await tabTo(/^Point 2 of/);
  await change("a point moves by arrows", () => page.keyboard.press("Shift+ArrowRight"));
  await change("a point becomes a corner", () => page.keyboard.press("c"));
  await tabTo(/^ring 3 /);
  await page.keyboard.press("Enter");
  await tabTo(/^segment \d+,/);
  await page.keyboard.press("ArrowRight");
  await change("a segment has its wood", () => page.keyboard.press("Enter"));
  await tabTo(/^height of the loops' middle$/);
  await change("a handle moves by arrows", () => page.keyboard.press("ArrowUp"));
  await change("undo", () => page.keyboard.press("Control+z"));
  await change("redo", () => page.keyboard.press("Control+y"));
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("rings refused for their stock are taken by themselves when it is thicker; undo takes them back", async () => {
  await at.write("dunlin-vase", await at.example("dunlin-vase"));
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  const text = () => at.text("dunlin-vase");
  const height = page.locator("[data-path='section[2].ring_height']");
  const stock = page.locator("[data-path='section[2].stock']");
  const further = () => page.getByRole("article", { name: "Section shoulder" }).getByText("joints, height, place").click();
  await further();
  const [high, thick] = [await height.inputValue(), await stock.inputValue()];
  await height.fill("28 mm");
  await height.press("Enter");
  await page.locator(".wrong").waitFor();
  await stock.fill("30 mm");
  await stock.press("Enter");
  await until(async () => /ring_height = "28 mm"/.test(await text()), "the refused height is in the file");
  assert.match(await text(), /stock = "30 mm"/);
  await until(async () => (await page.locator(".wrong").count()) === 0, "no reason is left");
  assert.notEqual(await height.inputValue(), high);
  const undo = page.getByRole("button", { name: "undo" });
  await undo.click();
  await until(async () => (await height.inputValue()) === high, "undo takes the height back");
  await new Promise((go) => setTimeout(go, 300));
  assert.equal(await height.inputValue(), high, "and it does not come again");
  await undo.click();
  await until(async () => (await stock.inputValue()) === thick, "and the stock");
  // After a reload nothing of it is left: the stock alone changes.
  await height.fill("28 mm");
  await height.press("Enter");
  await page.locator(".wrong").waitFor();
  await page.reload();
  await page.getByRole("heading", { name: "1 Form" }).waitFor();
  assert.equal(await height.inputValue(), high);
  await further();
  await stock.fill("31 mm");
  await stock.press("Enter");
  await until(async () => /stock = "31 mm"/.test(await text()), "the stock is in the file");
  assert.doesNotMatch(await text(), /28 mm/);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});
