// Two tabs, a file changed on disk, a broken one, a program stopped and started; papers.
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

const floor = (page) => page.getByRole("textbox", { name: /^floor/ });

test("a second tab sees what the first one changes", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const other = await page.context().newPage();
  await other.goto(page.url());
  await floor(other).waitFor();
  await floor(page).fill("13");
  await floor(page).press("Enter");
  await until(async () => (await floor(other).inputValue()) === "13", "the other tab follows");
  await floor(other).fill("12");
  await floor(other).press("Enter");
  await until(async () => (await floor(page).inputValue()) === "12", "and the first one");
  await page.context().close();
});

test("a file changed on disk is noticed, and can be undone", async () => {
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  const first = await at.text("dunlin-vase");
  await at.write("dunlin-vase", first.replace('title = "Dunlin vase"', 'title = "Changed elsewhere"'));
  await page.getByRole("heading", { name: "Changed elsewhere" }).waitFor();
  await page.getByRole("button", { name: "undo" }).click();
  await page.getByRole("heading", { name: "Dunlin vase" }).waitFor();
  assert.equal(await at.text("dunlin-vase"), first);
  await page.context().close();
});

test("an entry that was refused is offered again when the file was changed on disk", async () => {
  const page = await visit(at, web);
  await open(page, "dunlin-vase");
  const first = await at.text("dunlin-vase");
  await page.getByRole("article", { name: "Section shoulder" }).getByText("joints, height, place").click();
  const height = page.locator("[data-path='section[2].ring_height']");
  await height.fill("28 mm");
  await height.press("Enter");
  await page.locator(".wrong").waitFor();
  const thicker = first.replace(/stock = "13\/16"\nring_height/, 'stock = "30 mm"\nring_height');
  assert.notEqual(thicker, first);
  await at.write("dunlin-vase", thicker);
  await page.getByRole("button", { name: "enter 28 mm again" }).waitFor();
  assert.equal(await at.text("dunlin-vase"), thicker, "nothing is written by itself");
  await page.getByRole("button", { name: "enter 28 mm again" }).click();
  await until(async () => /ring_height = "28 mm"/.test(await at.text("dunlin-vase")), "the maker has entered it again");
  await until(async () => (await page.locator(".wrong").count()) === 0, "no reason is left");
  await at.write("dunlin-vase", first);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});

test("a broken file leaves the last good piece, says its lines, and is repaired in place", async () => {
  const page = await visit(at, web);
  await open(page, "turnstone-box");
  const good = await at.text("turnstone-box");
  await at.write("turnstone-box", good.replace(/^unit = .*$/m, 'unit = "cm"'));
  await page.getByText("The file on disk cannot be used.").waitFor();
  assert.ok(await page.locator("canvas").isVisible(), "the last good piece stays");
  assert.match(await page.getByRole("alert").innerText(), /Line \d+/);
  await page.getByRole("button", { name: "repair it here" }).click();
  const text = page.getByRole("textbox", { name: "The file's text" });
  await until(async () => (await text.inputValue()).includes('"cm"'), "the text on disk is shown");
  await text.fill(good);
  await page.getByRole("button", { name: "use this text" }).click();
  await until(async () => (await page.getByRole("alert").count()) === 0, "the trouble is over");
  assert.equal(await at.text("turnstone-box"), good);
  await page.context().close();
});

test("the program is stopped and started again; the page goes on", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const port = at.port();
  await at.stop();
  await page.getByText("the program does not answer").waitFor();
  const title = await page.getByRole("heading", { level: 1 }).innerText();
  assert.equal(title, "Sandpiper bowl", "what was seen stays");
  await at.start(port);
  // The key is a new one: the address that is printed is opened again.
  await page.goto(at.address);
  await open(page, "sandpiper-bowl");
  await floor(page).fill("11.5");
  await floor(page).press("Enter");
  await until(async () => /floor = "?11\.5/.test(await at.text("sandpiper-bowl")), "edits are taken again");
  await page.context().close();
});

test("the plan is had as a PDF on the paper asked for, and templates and drawings", async () => {
  const page = await visit(at, web);
  await open(page, "sandpiper-bowl");
  const take = async (name) => {
    const link = page.getByRole("link", { name });
    const answer = await page.request.get(new URL(await link.getAttribute("href"), at.address).href);
    assert.equal(answer.status(), 200, name);
    return answer.body();
  };
  assert.match((await take("as plain text")).toString(), /Sandpiper bowl/);
  assert.match((await take("what to measure twice")).toString(), /10.?000 makings[^]*crossing/);
  const whole = await take("plan as PDF");
  assert.equal(whole.subarray(0, 5).toString(), "%PDF-");
  await page.getByRole("combobox", { name: "Paper", exact: true }).selectOption("letter");
  await page.getByRole("combobox", { name: "Which papers" }).selectOption("knot");
  const part = await take("plan as PDF");
  assert.equal(part.subarray(0, 5).toString(), "%PDF-");
  assert.ok(part.length < whole.length / 2, `${part.length} of ${whole.length}`);
  for (const name of ["all templates", "all drawings"]) assert.equal((await take(name)).subarray(0, 2).toString(), "PK");
  const wrong = await page.request.get(new URL("/api/piece/sandpiper-bowl/plan.pdf?paper=napkin", at.address).href);
  assert.equal(wrong.status(), 400);
  assert.match(await wrong.text(), /letter/);
  // A click saves it, and nothing is wrong on the page.
  const saved = page.waitForEvent("download");
  await page.getByRole("link", { name: "plan as PDF" }).click();
  assert.equal((await saved).suggestedFilename(), "sandpiper-bowl-plan.pdf");
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});
