// The picture against the model: what colour a pixel has, and which wood the model has there.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { browser, EXAMPLES, open, shop, until, visit } from "./shop.mjs";

let at, web;
before(async () => {
  [at, web] = await Promise.all([shop(), browser()]);
});
after(async () => {
  await web?.close();
  await at?.close();
});

const EACH = 1200;

// Asks the model for the wood under pixels spread over the view, and compares the colours.
function compare(page, name, each) {
  return page.evaluate(
    async ({ name, each }) => {
      const canvas = document.querySelector("canvas");
      const { woods } = await (await fetch(`/api/piece/${name}`)).json();
      const colours = new Map(woods.map((wood) => [wood.name, Number.parseInt(wood.colour.slice(1), 16)]));
      const { width, height, rgba } = await canvas.scene.plain();
      const colour = (x, y) => {
        const i = (y * width + x) * 4;
        return rgba[i + 3] === 255 ? (rgba[i] << 16) | (rgba[i + 1] << 8) | rgba[i + 2] : -1;
      };
      const near = (a, b) => [16, 8, 0].every((shift) => Math.abs(((a >> shift) & 255) - ((b >> shift) & 255)) <= 2);
      const box = canvas.getBoundingClientRect();
      const result = { asked: 0, wrong: [], nowhere: 0, tried: 0, woods: {} };
      // Spread by the golden ratio's powers: the same pixels each time.
      for (let k = 1; result.asked < each && k < each * 60; k++) {
        const x = 2 + Math.floor(((k * 0.7548776662466927) % 1) * (width - 4));
        const y = 2 + Math.floor(((k * 0.5698402909980532) % 1) * (height - 4));
        const here = colour(x, y);
        if (here < 0) continue;
        result.tried++;
        // Joints, edges and outlines aside: the same colour all round the pixel.
        let alike = true;
        for (let dx = -2; dx <= 2; dx++) for (let dy = -2; dy <= 2; dy++) alike &&= colour(x + dx, y + dy) === here;
        if (!alike || ![...colours.values()].some((one) => near(one, here))) continue;
        const point = canvas.scene.pick(box.left + ((x + 0.5) / width) * box.width, box.top + (1 - (y + 0.5) / height) * box.height);
        if (!point) continue;
        result.asked++;
        const answer = await fetch(`/api/piece/${name}/at?x=${point[0]}&y=${point[1]}&z=${point[2]}`);
        if (answer.status !== 200) {
          result.nowhere++;
          result.wrong.push(["nothing", ...point]);
          continue;
        }
        const { wood } = await answer.json();
        result.woods[wood] = (result.woods[wood] ?? 0) + 1;
        if (!near(colours.get(wood), here)) result.wrong.push([wood, here.toString(16), ...point]);
      }
      return result;
    },
    { name, each },
  );
}

test("10,000 pixels of the piece have the colour of the wood that the model has there", async () => {
  const total = { asked: 0, wrong: 0 };
  const page = await visit(at, web, { viewport: { width: 1280, height: 900 } });
  for (const name of EXAMPLES) {
    await open(page, name);
    await until(() => page.evaluate(() => document.querySelector("canvas")?.scene?.pick(320, 450) !== null), "the piece is there", 60_000);
    const canvas = page.locator("canvas");
    const views = [
      async () => {},
      // From above, into it.
      async () => {
        await canvas.focus();
        for (let i = 0; i < 8; i++) await page.keyboard.press("ArrowUp");
      },
      // A wedge cut away, and a level cut.
      async () => {
        const wedge = page.getByRole("slider", { name: "wedge" });
        await wedge.focus();
        for (let i = 0; i < 3; i++) await page.keyboard.press("PageUp");
        const level = page.getByRole("slider", { name: "level" });
        await level.focus();
        for (let i = 0; i < 2; i++) await page.keyboard.press("PageDown");
        await page.waitForTimeout(300);
      },
    ];
    for (const [i, look] of views.entries()) {
      await look();
      const found = await compare(page, name, EACH);
      console.log(`# ${name}, view ${i + 1}: ${found.asked} pixels, ${found.wrong.length} otherwise, ${JSON.stringify(found.woods)}`);
      if (found.wrong.length) console.log(`#   ${JSON.stringify(found.wrong.slice(0, 4))}`);
      total.asked += found.asked;
      total.wrong += found.wrong.length;
    }
  }
  console.log(`# ${total.asked} pixels, ${total.wrong} otherwise`);
  assert.ok(total.asked >= 10_000, `${total.asked} pixels`);
  assert.ok(total.wrong / total.asked <= 0.001, `${total.wrong} of ${total.asked} otherwise`);
  assert.deepEqual(page.wrongs, []);
  await page.context().close();
});
