// A walk round a boat with no signal: the app is installed, the network is cut by the browser itself, fifty observations with
// a photograph each are recorded, the browser is killed, started again with no network, and everything is there; then it is
// sent, and the program at the desk proves every entry and file.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { Chromium } from "./chromium.mjs";
import { begin, desk, photograph, reached, serve, stop, together } from "./bench.mjs";

const program = process.env.RIBBAND ?? join(dirname(fileURLToPath(import.meta.url)), "../../../target/debug/ribband");
const OBSERVATIONS = 50;

test("fifty observations with photographs outlive a dead battery under the boat", { timeout: 300000 }, async () => {
  const kept = await desk(false);
  const server = await serve(kept.folder);
  const browser = await new Chromium().start();
  try {
    let page = await browser.context.newPage();
    await page.setViewportSize({ width: 390, height: 844 });
    const address = await begin(page, server.address, "No Signal");
    await together(page);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await browser.context.setOffline(true);
    await page.goto(`${address}/walk/along?member=garboard&side=port&strake=1&frame_from=1`);
    await page.getByLabel("one frame on after each").check();
    const pictures = await photograph(page, 800, 600);
    for (let n = 0; n < OBSERVATIONS; n += 1) {
      const answer = n % 7 ? "rings" : "dull or hollow";
      await page.getByRole("button", { name: answer, exact: true }).click();
      await page.locator(".last-recorded .record-line").filter({ hasText: `frame ${n + 1}: ${answer}` }).waitFor();
      // Each picture is its own: the last bytes of a JPEG may be anything.
      await page.getByLabel("Photograph").setInputFiles({ name: `frame-${n + 1}.jpg`, mimeType: "image/jpeg", buffer: Buffer.concat([pictures, Buffer.from(`frame ${n + 1}`)]) });
      await page.locator(".last-recorded img").first().waitFor();
    }
    await browser.kill();

    await browser.start();
    await browser.context.setOffline(true);
    page = await browser.context.newPage();
    await page.setViewportSize({ width: 390, height: 844 });
    const began = Date.now();
    await page.goto(`${address}/walk/along`);
    await page.getByRole("button", { name: "rings", exact: true }).waitFor();
    console.log(`started with no network to a usable walk: ${Date.now() - began} ms`);
    await page.locator(".last-recorded img").first().waitFor();
    await page.getByText(/Kept here; \d+ to send/).waitFor({ state: "attached" });
    // The report can be read with no network too: every word, without its pages.
    await page.goto(`${address}/report`);
    await page.getByRole("button", { name: "Read it here without its pages" }).click();
    const article = page.getByRole("article", { name: "The report, as composed on this device" });
    await article.waitFor();
    const words = await article.innerText();
    assert.ok(words.includes("No Signal") && words.includes("frame 50") && words.includes("dull or hollow"), words.slice(0, 400));
    if (process.env.PICTURES) await page.screenshot({ path: join(process.env.PICTURES, "read-here.png"), fullPage: true });
    await browser.context.setOffline(false);
    const said = await reached(server, address, (all) => all.filter((entry) => entry.kind === "attachment").length === OBSERVATIONS, 60000);
    const frames = said.filter((entry) => entry.kind === "observation").map((entry) => entry.payload.place.frame_from);
    assert.deepEqual(frames, Array.from({ length: OBSERVATIONS }, (_, n) => n + 1));
    await together(page);
    const files = new Set(said.filter((entry) => entry.kind === "attachment").map((entry) => entry.payload.sha256));
    assert.equal(files.size, OBSERVATIONS);
    const { status, stdout, stderr } = spawnSync(program, ["--folder", kept.folder, "verify"], { encoding: "utf8" });
    assert.equal(status, 0, stdout + stderr);
    assert.match(stdout, new RegExp(`${OBSERVATIONS} attachments`), stdout);
  } finally {
    await browser.end();
    await stop(server);
    kept.gone();
  }
});
