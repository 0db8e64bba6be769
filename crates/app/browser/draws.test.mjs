// A draw of fastenings: planned from her shape, picked by lot, drawn in three taps on the phone, and what it then says.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { DESK, PHONE, browse, desk, reached, sayWho, serve, stop, visit } from "./bench.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let browser, server, kept;
before(async () => {
  kept = await desk(true);
  server = await serve(kept.folder);
  browser = await browse();
});
after(async () => {
  await browser?.close();
  if (server) await stop(server);
  kept?.gone();
});

async function marram(page) {
  await page.goto(server.address);
  await page.getByRole("link", { name: /Marram/ }).first().click();
  await page.waitForURL(/\/survey\//);
  await sayWho(page);
  return `/survey/${page.url().match(/survey\/([^/]+)/)[1]}`;
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`a draw is planned, drawn and said: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport);
    const survey = await marram(page);
    const address = server.address + survey;
    const picked = (all) => all.filter((entry) => entry.payload?.reading?.picked);
    const before = picked(await reached(server, address, () => true)).length;
    await page.goto(`${address}/bench/draw-plan`);
    // Her zones are counted from her shape, and the seed is drawn before anything is looked at.
    assert.match(await page.getByLabel(/where the zones lie/).inputValue(), /^zone,side[\s\S]*\ngarboards,both,1,1,/);
    assert.match(await page.getByLabel(/seed of the picks/).inputValue(), /^\d+$/);
    await page.getByLabel(/assurance wanted/).fill("90");
    await page.getByLabel(/share of bad that must not be exceeded/).fill("10");
    await page.getByLabel(/share of bad that is acceptable/).fill("2");
    await page.getByLabel(/share of bad that is not/).fill("40");
    await page.getByRole("button", { name: "Keep in the survey" }).click();
    await page.getByText("Kept in the survey; it will stand in the report.").waitFor();
    await page.getByRole("link", { name: "Draws", exact: true }).click();

    const plan = page.locator(".draw-plan").first();
    await plan.getByText(/fastenings are to be drawn; 0 drawn so far/).waitFor();
    const next = plan.getByRole("region", { name: /^Next to draw/ });
    const first = await next.locator(".next-place").innerText();
    assert.match(first, /^(Port|Starboard), (garboard|strake \d+), frame \d+/);
    await plan.locator("svg").first().waitFor();
    assert.ok(await plan.locator("svg").first().isVisible(), "the picks are on the shell");

    // Three taps: how it is found, the record; the first was to come here.
    await next.getByRole("button", { name: "wasted", exact: true }).click();
    await next.getByRole("button", { name: "Record the draw" }).click();
    await plan.getByText(/1 drawn so far, 1 of them bad/).waitFor();
    assert.notEqual(await next.locator(".next-place").innerText(), first);
    // One that will not draw is no draw.
    await next.getByRole("button", { name: "would not draw" }).click();
    await next.getByLabel("Note").fill("Head sheared under the driver.");
    await next.getByRole("button", { name: "Record the draw" }).click();
    await plan.locator(".picks").getByText("would not draw").waitFor();
    await plan.getByText(/1 drawn so far, 1 of them bad/).waitFor();
    // Chosen out of turn, from the list.
    await plan.getByRole("button", { name: "Draw it next" }).last().click();
    await next.getByRole("button", { name: "wasted", exact: true }).click();
    await next.getByLabel("Least diameter now").fill("nonsense");
    await next.getByRole("button", { name: "Record the draw" }).click();
    await next.getByRole("alert").waitFor();
    await next.getByLabel("Least diameter now").fill("3.1 mm");
    await next.getByLabel("Diameter as new").fill("3/16\"");
    await next.getByRole("button", { name: "Record the draw" }).click();
    await plan.getByText("Stop: not acceptable by the test settled beforehand.").waitFor();

    const entries = await reached(server, address, (all) => picked(all).length >= before + 3);
    const last = picked(entries).at(-1).payload;
    assert.equal(last.reading.measured_mm, 3.1);
    assert.ok(Math.abs(last.reading.original_mm - 4.7625) < 1e-9);
    assert.ok(last.place.strake >= 1 && last.place.frame_from >= 1);

    await plan.getByText("What the draw says").waitFor();
    await plan.getByLabel("What was counted as bad").fill("Necked by a fifth or more, or broken.");
    await plan.getByRole("button", { name: "Keep in the survey" }).click();
    await page.getByText("Kept in the survey; it will stand in the report.").waitFor();

    const wide = await page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth + 1);
    assert.ok(!wide, "nothing runs off the side");
    await page.evaluate(axe);
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    assert.deepEqual(found.violations.map((v) => `${v.id}: ${v.nodes[0].html}`), []);
    if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/draws-${name}.png`, fullPage: true });
    assert.deepEqual(faults, []);
    await context.close();
  });
}
