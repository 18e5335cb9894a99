// Pictures of every part of the page, to be looked at: node shots.mjs OUT [project ...]
import { mkdir } from "node:fs/promises";
import path from "node:path";
import { browser, open, shop, visit } from "./shop.mjs";

const [out = "shots", ...names] = process.argv.slice(2);
const widths = [1440, 768, 360];
await mkdir(out, { recursive: true });
const at = await shop();
const web = await browser();
try {
  for (const colorScheme of ["light", "dark"]) {
    for (const width of widths) {
      const page = await visit(at, web, { viewport: { width, height: width === 360 ? 740 : 900 }, colorScheme });
      await page.getByRole("heading", { name: /projects|shelf/i }).first().waitFor().catch(() => {});
      await page.waitForTimeout(1500);
      await page.screenshot({ path: path.join(out, `shelf-${width}-${colorScheme}.png`) });
      for (const name of names.length ? names : ["sandpiper-bowl", "dunlin-vase"]) {
        await open(page, name);
        for (const unit of ["mm", "inch"]) {
          await page.getByRole("button", { name: unit, exact: true }).click();
          for (let part = 1; part <= 6; part++) {
            await page.locator(`section[data-part='${part}']`).scrollIntoViewIfNeeded();
            await page.evaluate((n) => document.querySelector(`section[data-part='${n}']`)?.scrollIntoView(), part);
            await page.waitForTimeout(part === 1 ? 2500 : 900);
            await page.screenshot({ path: path.join(out, `${name}-${part}-${width}-${colorScheme}-${unit}.png`) });
          }
        }
      }
      await page.context().close();
    }
  }
} finally {
  await web.close();
  await at.close();
}
