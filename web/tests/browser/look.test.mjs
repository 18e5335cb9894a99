// For everyone: axe-core on every part, narrow screens, weight.
import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { browser, open, shop, until, visit } from "./shop.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
let at, web;
before(async () => {
  [at, web] = await Promise.all([shop(), browser()]);
});
after(async () => {
  await web?.close();
  await at?.close();
});

async function violations(page) {
  // Evaluated by the test, not by the page: its content rule allows no foreign script.
  await page.evaluate(await readFile(axe, "utf8"));
  const found = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  return found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => `${node.target} ${node.any[0]?.message ?? ""}`).join("; ")}`);
}

for (const colorScheme of ["light", "dark"]) {
  test(`axe-core finds nothing on shelf, workshop and piece, ${colorScheme}`, async () => {
    const page = await visit(at, web, { colorScheme });
    await page.getByRole("button", { name: "New piece" }).click();
    assert.deepEqual(await violations(page), [], "shelf");
    await page.getByRole("link", { name: "workshop" }).click();
    await page.getByRole("heading", { level: 2, name: "Workshop" }).waitFor();
    assert.deepEqual(await violations(page), [], "workshop");
    await open(page, "dunlin-vase");
    await page.getByRole("button", { name: /^ring 6 / }).click();
    await page.getByRole("button", { name: /^working of/ }).first().click();
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
    await page.locator("section[data-part='4'] li button").nth(4).click();
    const reach = page.getByRole("textbox", { name: /^reach/ });
    await reach.fill("wrong");
    await reach.press("Enter");
    await page.locator(".wrong").waitFor();
    assert.deepEqual(await violations(page), [], "piece");
    await page.context().close();
  });
}

for (const width of [360, 768, 1440]) {
  test(`nothing sticks out at ${width} px, and every part is reached`, async () => {
    const page = await visit(at, web, { viewport: { width, height: 800 }, hasTouch: width < 1024 });
    for (const name of ["sandpiper-bowl", "dunlin-vase"]) {
      await open(page, name);
      for (const part of ["Form", "Rings", "Knot", "Route", "To watch", "Papers"]) {
        await page.getByRole("navigation", { name: "Parts of the page" }).getByRole("button", { name: part }).click();
        assert.ok(await page.getByRole("heading", { level: 2, name: part }).isVisible());
      }
      const wide = await page.evaluate(() => [...document.querySelectorAll("body, main")].map((one) => one.scrollWidth - one.clientWidth));
      assert.ok(wide.every((more) => more <= 0), `${name}: ${wide}`);
    }
    await page.context().close();
  });
}

test("at the bench one operation fills a phone", async () => {
  const page = await visit(at, web, { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true });
  await open(page, "sandpiper-bowl");
  await page.getByRole("button", { name: "take it to the bench" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.waitFor();
  const box = await dialog.boundingBox();
  assert.ok(box.width >= 359 && box.height >= 739, JSON.stringify(box));
  await page.getByRole("button", { name: "next" }).click();
  await until(async () => (await dialog.getAttribute("aria-label")).startsWith("Operation 2"), "the next one");
  assert.deepEqual(await violations(page), []);
  await page.context().close();
});

test("touch shapes the knot on a tablet", async () => {
  const page = await visit(at, web, { viewport: { width: 768, height: 1024 }, hasTouch: true });
  await open(page, "sandpiper-bowl");
  const dot = page.getByRole("slider", { name: "height of the loops' middle" });
  await dot.scrollIntoViewIfNeeded();
  const box = await dot.boundingBox();
  assert.ok(box.width >= 24 && box.height >= 24, "a finger finds it");
  const before = await dot.getAttribute("aria-valuenow");
  const touch = await page.context().newCDPSession(page);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const point = (dy) => [{ x, y: y + dy }];
  await touch.send("Input.dispatchTouchEvent", { type: "touchStart", touchPoints: point(0) });
  for (let dy = 1; dy <= 8; dy++) await touch.send("Input.dispatchTouchEvent", { type: "touchMove", touchPoints: point(dy) });
  await touch.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
  await until(async () => (await dot.getAttribute("aria-valuenow")) !== before, "the height follows the finger");
  await page.context().close();
});

test("the page weighs no more than 450 KB compressed, before pictures", async () => {
  const dist = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../../dist");
  let sum = 0;
  for (const name of await readdir(dist, { recursive: true })) {
    // An older browser's fonts are not fetched by one that takes woff2.
    if (!/\.(html|js|css|svg|woff2)$/.test(name)) continue;
    const bytes = await readFile(path.join(dist, name));
    sum += /woff2$/.test(name) ? bytes.length : gzipSync(bytes).length;
  }
  console.log(`page weight: ${(sum / 1024).toFixed(0)} KB compressed`);
  assert.ok(sum <= 450 * 1024);
});
