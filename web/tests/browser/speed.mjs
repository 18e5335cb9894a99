// How fast it is: edit to picture, frames while turning, memory after many edits.
// Run by hand on a machine that does nothing else: `npm run speed`.
import { browser, open, shop, until, visit } from "./shop.mjs";

const [at, web] = await Promise.all([shop(), browser()]);
const page = await visit(at, web, { viewport: { width: 1440, height: 900 } });
const share = (list, p) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * p))] ?? NaN;
const line = (what, list) => console.log(`${what}: p50 ${share(list, 0.5).toFixed(0)} ms, p95 ${share(list, 0.95).toFixed(0)} ms, of ${list.length}`);

try {
  const name = "dunlin-vase";
  await open(page, name);
  await page.waitForTimeout(4000);
  console.log(`WebGL by: ${await page.evaluate(() => {
    const gl = document.createElement("canvas").getContext("webgl2");
    const info = gl?.getExtension("WEBGL_debug_renderer_info");
    return info ? gl.getParameter(info.UNMASKED_RENDERER_WEBGL) : "unknown";
  })}`);

  // The program alone: a preview's answer, and its picture.
  const alone = await page.evaluate(async (name) => {
    const base = (await (await fetch(`/api/piece/${name}`)).json()).version;
    const [answers, pictures, full] = [[], [], []];
    for (let i = 0; i < 40; i++) {
      const start = performance.now();
      const edits = [{ op: "set", path: "section[1].band[0].reach", value: 50 + i * 0.2 }];
      const answer = await (await fetch(`/api/piece/${name}/edit?unit=mm`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ edits, base, preview: true }) })).json();
      answers.push(performance.now() - start);
      const asked = performance.now();
      const parts = answer.view.form.parts;
      await Promise.all(parts.map((part) => fetch(`${part.picture}&w=640`).then((one) => one.blob())));
      pictures.push(performance.now() - asked);
      if (i % 8 === 0) {
        const large = performance.now();
        await Promise.all(parts.map((part) => fetch(`${part.picture}&w=2048`).then((one) => one.blob())));
        full.push(performance.now() - large);
      }
    }
    return { answers, pictures, full };
  }, name);
  line("preview's answer", alone.answers);
  line("preview's five pictures", alone.pictures);
  line("full pictures", alone.full);

  // What the hand feels: from a movement of the dot to the frame that shows it.
  const dot = page.getByRole("slider", { name: "reach, at the loops' top" });
  await dot.scrollIntoViewIfNeeded();
  const box = await dot.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 40; i++) {
    await page.mouse.move(x, y + 4 + (i % 8));
    await page.waitForTimeout(60);
  }
  await page.mouse.up();
  await page.waitForTimeout(3000);
  line("edit to picture", await page.evaluate(() => performance.getEntriesByName("edit-to-picture").map((one) => one.duration)));

  const frames = await page.evaluate(
    () =>
      new Promise((done) => {
        const canvas = document.querySelector("canvas");
        const times = [];
        let last = performance.now();
        const step = () => {
          const now = performance.now();
          times.push(now - last);
          last = now;
          if (times.length > 60) return done(times.slice(2));
          canvas.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowLeft", bubbles: true }));
          requestAnimationFrame(step);
        };
        requestAnimationFrame(step);
      }),
  );
  line("a frame while turning", frames);
  console.log(`frames a second while turning: ${(1000 / (frames.reduce((a, b) => a + b) / frames.length)).toFixed(1)}`);

  // A small view: what is asked here is what stays behind, not how fast it is drawn.
  await page.setViewportSize({ width: 800, height: 500 });
  const heap = async () => {
    const session = await page.context().newCDPSession(page);
    await session.send("HeapProfiler.collectGarbage");
    const { usedSize } = await session.send("Runtime.getHeapUsage");
    return usedSize / 1e6;
  };
  const before = await heap();
  const blank = page.getByRole("textbox", { name: /^floor thickness/ });
  for (let i = 0; i < 500; i++) {
    const value = i % 2 ? "3/8" : "7/16";
    await blank.fill(value);
    await blank.press("Enter");
    await until(async () => (await at.text(name)).includes(`floor = "${value}"`), `edit ${i} is kept`, 60_000);
  }
  console.log(`heap before ${before.toFixed(1)} MB, after 500 edits ${(await heap()).toFixed(1)} MB`);
} finally {
  await web.close();
  await at.close();
}
