// A hundred runs by chance of three browsers and a server on a bad network: writing on clocks days apart, cut off, answers
// lost, packages carried by hand, the server stopped and put back. In the end all have the same, and nothing is lost.
// The same is tried natively in tens of thousands of runs (`crates/app/tests/all/convergence.rs`).
import assert from "node:assert/strict";
import { chromium } from "playwright-core";
import { CruelServer } from "./cruel_server.mjs";
import { openProbe, until } from "./chromium.mjs";
import { PROBE_DIR, trial } from "./probe_dir.mjs";

const RUNS = 100;
const AT_ONCE = 4;
const DAY_MS = 86_400_000;

/** Chance that can be had again by its seed (mulberry32). */
function chance(seed) {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

async function run(pages, server, seed) {
  const random = chance(seed);
  const below = (n) => Math.floor(random() * n);
  const survey = `01900000-0000-7000-9000-${String(seed).padStart(12, "0")}`;
  const written = new Set();
  await Promise.all(pages.map(async (page) => {
    await openProbe(page, survey);
    // Each clock is off by up to two days either way.
    const skew = Math.round((random() * 4 - 2) * DAY_MS);
    await page.evaluate((skew) => { const real = (window.realNow ??= Date.now); Date.now = () => real.call(Date) + skew; here.start(); }, skew);
  }));
  for (let step = 0, steps = 6 + below(8); step < steps; step += 1) {
    const page = pages[below(3)];
    switch (below(11)) {
      case 0: await page.context().setOffline(true); break;
      case 1: await page.context().setOffline(false); break;
      case 2: {
        let left = 1 + below(3);
        server.loseAnswers = (request) => request.url.includes("/entries") && left-- > 0;
        break;
      }
      case 3: server.putBack(below(server.log.length + 1)); break;
      case 4: {
        // By hand, from one to another, in any order and more than once.
        const lines = await page.evaluate(() => here.lines());
        await pages[below(3)].evaluate((lines) => here.bring_in(lines), lines.sort(() => random() - 0.5));
        break;
      }
      case 5: await page.evaluate(() => { here.stop(); here.start(); }); break;
      default:
        for (const line of await page.evaluate(([count, about]) => here.write(count, about), [1 + below(3), `${seed} ${step}`])) written.add(line);
    }
    if (random() < 0.5) await new Promise((later) => setTimeout(later, below(150)));
  }
  server.loseAnswers = () => false;
  const all = async () => {
    for (const page of pages) {
      await page.context().setOffline(false);
      await page.evaluate(() => here.nudge());
    }
    return Promise.all([...pages.map((page) => page.evaluate(() => here.lines())), server.of(survey)]);
  };
  const key = (lines) => [...lines].sort().join("\n");
  const wanted = key(written);
  await until(all, (lists) => lists.every((lines) => key(lines) === wanted), 60_000).catch((fault) => {
    throw new Error(`seed ${seed}: ${written.size} entries were written: ${String(fault.message).slice(0, 400)}`);
  });
  for (const page of pages) {
    assert.deepEqual(await page.evaluate(() => here.chain_faults()), [], `seed ${seed}`);
    await page.evaluate(() => here.stop());
  }
  return written.size;
}

trial("three browsers in a hundred runs by chance end with the same record", {}, async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
  let next = 0, entries = 0;
  const began = Date.now();
  // Each world has a server and three browsers of its own.
  await Promise.all(Array.from({ length: AT_ONCE }, async () => {
    const server = await new CruelServer(PROBE_DIR).up();
    const pages = await Promise.all([0, 1, 2].map(async () => {
      const page = await (await browser.newContext()).newPage();
      await page.goto(server.url);
      return page;
    }));
    while (next < RUNS) {
      const written = await run(pages, server, ++next);
      entries += written;
    }
    await server.down();
  }));
  console.log(`${RUNS} runs, ${entries} entries: ${((Date.now() - began) / 1000).toFixed(0)} s`);
  await browser.close();
});
