// A folder of projects, the program that serves it, and a browser that looks at it.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { access, cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../../..");
const program = process.env.RINGWRIGHT ?? path.join(root, "target/debug/ringwright");
const browserPath = process.env.CHROMIUM ?? "/usr/bin/chromium";

export const EXAMPLES = ["sandpiper-bowl", "dunlin-vase", "turnstone-box"];

/** Opens a new folder with examples and serves it. */
export async function shop(examples = EXAMPLES) {
  const folder = await mkdtemp(path.join(tmpdir(), "ringwright-"));
  for (const name of examples) await cp(path.join(root, "examples", `${name}.toml`), path.join(folder, `${name}.toml`));
  const made = {
    folder,
    address: "",
    running: null,
    file: (name) => path.join(folder, `${name}.toml`),
    example: (name) => readFile(path.join(root, "examples", `${name}.toml`), "utf8"),
    text: (name) => readFile(path.join(folder, `${name}.toml`), "utf8"),
    write: (name, text) => writeFile(path.join(folder, `${name}.toml`), text),
    there: (name) => access(path.join(folder, `${name}.toml`)).then(() => true, () => false),
    async start(port = 0) {
      const child = spawn(program, ["open", folder, "--no-browser", "--port", String(port)], { stdio: ["ignore", "pipe", "inherit"] });
      made.running = child;
      let said = "";
      for await (const piece of child.stdout) {
        said += piece;
        const found = said.match(/http:\/\/\S+/);
        if (found) {
          made.address = found[0];
          // What is printed later is not waited for, but must not stop the program either.
          child.stdout.resume();
          return;
        }
      }
      throw new Error(`the program did not say its address: ${said}`);
    },
    port: () => Number(new URL(made.address).port),
    async stop(signal = "SIGTERM") {
      const child = made.running;
      if (!child || child.exitCode !== null || child.signalCode !== null) return;
      const ended = once(child, "exit");
      child.kill(signal);
      await ended;
    },
    async close() {
      await made.stop("SIGKILL");
      await rm(folder, { recursive: true, force: true });
    },
  };
  await made.start();
  return made;
}

export function browser() {
  return chromium.launch({
    executablePath: browserPath,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      // No graphics card is taken for granted: WebGL is drawn by the processor.
      "--enable-unsafe-swiftshader",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
}

/** A page with the key in its cookie; what goes wrong in it is kept in `page.wrongs`. */
export async function visit(of, at, options = {}) {
  const context = await at.newContext({ viewport: { width: 1280, height: 800 }, reducedMotion: "reduce", ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  page.wrongs = [];
  page.on("pageerror", (error) => page.wrongs.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error" && !/Failed to load resource|ERR_CONNECTION/.test(message.text())) page.wrongs.push(message.text());
  });
  await page.goto(of.address);
  return page;
}

export async function open(page, name) {
  await page.goto(`${new URL(page.url()).origin}/#/piece/${name}`);
  await page.getByRole("heading", { name: "1 Form" }).waitFor();
}

/** Waits until the file on disk says something. */
export async function until(ask, what, ms = 10_000) {
  const end = Date.now() + ms;
  for (;;) {
    const said = await ask();
    if (said) return said;
    if (Date.now() > end) throw new Error(`waited in vain: ${what}`);
    await new Promise((go) => setTimeout(go, 50));
  }
}

/** Drags from the middle of an element. */
export async function drag(page, from, dx, dy, steps = 8) {
  await from.scrollIntoViewIfNeeded();
  const box = await from.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= steps; i++) await page.mouse.move(x + (dx * i) / steps, y + (dy * i) / steps);
  await page.mouse.up();
}
