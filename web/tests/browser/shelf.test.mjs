// The shelf: from nothing to a vessel with a knot that fits; names, copies, bin, files.
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

test("a new vessel with a fitting knot, from nothing", async () => {
  const page = await visit(at, web);
  let clicks = 0;
  const click = async (name) => {
    await page.getByRole("button", { name, exact: true }).click();
    clicks += 1;
  };
  await click("New piece");
  await page.getByRole("textbox", { name: "Title" }).fill("Plover vase");
  await click("Make it");
  await page.getByRole("heading", { name: "Plover vase" }).waitFor();
  await page.getByRole("heading", { name: "3 Knot" }).waitFor();
  assert.ok(await page.getByRole("slider", { name: "reach, at the loops' top" }).isVisible());
  assert.equal(await page.locator("li.stops").count(), 0, "nothing stops the work");
  console.log(`a new vessel with a fitting knot: ${clicks} clicks`);
  assert.ok(clicks <= 3);
  assert.match(await at.text("Plover vase").catch(() => at.text("plover-vase")), /loops = 4/);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("duplicate, rename, delete and put back", async () => {
  const page = await visit(at, web);
  await page.getByRole("button", { name: "duplicate Sandpiper bowl" }).first().click();
  await until(async () => (await page.getByText("Sandpiper bowl").count()) === 2, "the copy stands on the shelf");
  await page.getByRole("button", { name: "rename Turnstone box" }).click();
  await page.getByRole("textbox", { name: "New name of Turnstone box" }).fill("gift");
  await page.keyboard.press("Enter");
  await until(() => at.there("gift"), "the file has its new name");
  assert.equal(await at.there("turnstone-box"), false);
  const text = await at.text("gift");
  await page.getByRole("button", { name: "delete Turnstone box" }).click();
  await until(async () => !(await at.there("gift")), "the file is in the bin");
  await page.getByText("bin, 1").click();
  await page.getByRole("button", { name: /put back gift/ }).click();
  await until(() => at.there("gift"), "the file is back");
  assert.equal(await at.text("gift"), text, "as it was");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("a file is brought in, a broken one too, and taken out", async () => {
  const page = await visit(at, web);
  const text = await at.text("dunlin-vase");
  const input = page.locator("input[type=file]");
  await input.setInputFiles({ name: "brought.toml", mimeType: "application/toml", buffer: Buffer.from(text) });
  await until(() => at.there("brought"), "it stands in the folder");
  assert.equal(await at.text("brought"), text);
  await input.setInputFiles({ name: "torn.toml", mimeType: "application/toml", buffer: Buffer.from("ringwright = 1\nunit = \"cm\"\n") });
  await page.getByText("the file cannot be used").waitFor();
  const [taken] = await Promise.all([page.waitForEvent("download"), page.getByRole("link", { name: "take as a file: Dunlin vase" }).first().click()]);
  assert.match(taken.suggestedFilename(), /dunlin-vase|brought/);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("the workshop's settings are changed, and a wrong entry stays with its remedy", async () => {
  const page = await visit(at, web);
  await page.getByRole("link", { name: "workshop" }).click();
  const kerf = page.getByRole("textbox", { name: /kerf/ }).first();
  await kerf.fill("much");
  await kerf.press("Enter");
  await page.getByRole("alert").waitFor();
  assert.equal(await kerf.inputValue(), "much");
  await kerf.fill("1.3");
  await kerf.press("Enter");
  await until(async () => (await page.getByRole("alert").count()) === 0, "the remedy goes");
  assert.match(await kerf.inputValue(), /^1\.30?$/);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("the workshop's air, forces and glue are set in the page's unit and kept in the file's", async () => {
  const page = await visit(at, web);
  await page.getByRole("link", { name: "workshop" }).click();
  await page.getByRole("button", { name: "inch", exact: true }).click();
  const warm = page.getByRole("textbox", { name: "temperature in the shop, °F" });
  await warm.fill("59");
  await warm.press("Enter");
  const workshop = () => at.text("workshop").catch(() => "");
  await until(async () => /shop_temperature = 15/.test(await workshop()), "59 °F is 15 °C in a file of millimetres");
  const force = page.getByRole("textbox", { name: "force of the tool, lbf" });
  await force.fill("20");
  await force.press("Enter");
  await until(async () => /tool_force = 88\.964/.test(await workshop()), "20 lbf is 88.964 N");
  await until(async () => (await force.inputValue()) === "20", "and 20 lbf on the page");
  const index = page.getByRole("textbox", { name: "the index mark, seen from the axis, °" });
  await index.fill("0.1");
  await index.press("Enter");
  await until(async () => /index = 0\.1/.test(await workshop()), "how exactly one works is kept too");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("words are spelled as the reader has chosen, in any unit, and so it stays", async () => {
  const page = await visit(at, web);
  const spoken = () => page.evaluate(() => document.documentElement.lang);
  await page.getByRole("link", { name: "workshop" }).click();
  await page.getByRole("button", { name: "mm", exact: true }).click();
  assert.equal(await spoken(), "en-GB");
  await page.getByRole("combobox", { name: "Spelling" }).selectOption("american");
  await until(async () => (await spoken()) === "en-US", "the page is American");
  await open(page, "sandpiper-bowl");
  await page.getByText("centered").first().waitFor();
  await until(async () => /\bmiter\b/.test(await page.textContent("body")), "the plan is American too");
  assert.doesNotMatch(await page.textContent("body"), /\bmitre\b/);
  await page.reload();
  await page.getByText("centered").first().waitFor();
  assert.equal(await spoken(), "en-US");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});
