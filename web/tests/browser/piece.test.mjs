// The piece in three dimensions: it is there, it turns, it is cut, its making is walked through.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browser, open, shop, until, visit } from "./shop.mjs";

let at, web;
before(async () => {
  [at, web] = await Promise.all([shop(), browser()]);
});
after(async () => {
  await web?.close();
  await at?.close();
});

// How much of the canvas is wood: pixels that are neither paper nor shadow (which are grey).
async function wood(page) {
  const shot = await page.locator("canvas").screenshot({ type: "png" });
  return page.evaluate(async (bytes) => {
    const image = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const pen = canvas.getContext("2d");
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, image.width, image.height);
    let coloured = 0;
    for (let i = 0; i < data.length; i += 4) if (Math.max(data[i], data[i + 1], data[i + 2]) - Math.min(data[i], data[i + 1], data[i + 2]) > 36) coloured += 1;
    return coloured / (data.length / 4);
  }, [...shot]);
}

test("the piece is seen, also after turning it and cutting it", async () => {
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  const whole = await until(async () => {
    const share = await wood(page);
    return share > 0.1 && share;
  }, "the piece is seen", 60_000);
  const canvas = page.locator("canvas");
  await canvas.focus();
  for (const key of ["ArrowLeft", "ArrowLeft", "ArrowUp", "+", "-", "Home"]) await page.keyboard.press(key);
  await until(async () => Math.abs((await wood(page)) - whole) < 0.05, "it is as it was after Home", 60_000);
  const level = page.getByRole("slider", { name: "level" });
  await level.focus();
  for (let i = 0; i < 5; i++) await page.keyboard.press("PageDown");
  await until(async () => (await wood(page)) < 0.8 * whole, "a level cut takes wood away", 60_000);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("the making is walked through step by step", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const line = page.getByRole("slider", { name: "The making" });
  await line.focus();
  await page.keyboard.press("Home");
  assert.equal(await line.getAttribute("aria-valuenow"), "1");
  await page.locator("section[data-part='4'] [aria-expanded=true]").waitFor({ state: "attached" });
  await page.keyboard.press("End");
  assert.equal(await line.getAttribute("aria-valuetext"), "finished");
  await page.context().close();
});

test("an operation shows its drawing, and what holds the piece is a sentence", async () => {
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  await page.locator("section[data-part='4']").getByRole("button", { name: /first cut/i }).first().click();
  const drawing = page.getByRole("img", { name: /^Drawing for operation/ });
  await drawing.scrollIntoViewIfNeeded();
  await until(() => drawing.evaluate((img) => img.complete && img.naturalWidth > 100), "the drawing is there");
  await page.getByText("what holds it on the lathe").click();
  const block = page.getByRole("textbox", { name: /^waste block/ });
  await block.fill("particleboard");
  await block.press("Enter");
  await until(async () => /\[holding\]\s+block = "particleboard"/.test(await at.text("dunlin-vase")), "the file says what holds it");
  await until(async () => (await page.locator("[data-part='5'] li", { hasText: "waste block of particleboard" }).count()) > 0, "and what comes of it is watched");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});
