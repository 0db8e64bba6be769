// Weighing what was read: the balance, the next tests, a finding written as weighed or otherwise with the reason.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { DESK, PHONE, begin, browse, desk, reached, serve, stop, visit } from "./bench.mjs";

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

async function observe(page, address) {
  await page.goto(`${address}/walk/topside-plank`);
  const form = page.getByRole("form", { name: "Record an observation" });
  await form.getByText("port", { exact: true }).click();
  await form.getByLabel("Strake, from the garboard").fill("6");
  await form.getByLabel("Frame, from the stem").fill("11");
  await form.getByText("sound", { exact: true }).click();
  await form.getByText("dull or hollow", { exact: true }).click();
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator(".record").first().waitFor();
  await form.getByText("probe", { exact: true }).click();
  await form.getByText("firm", { exact: true }).click();
  await form.getByText("yes", { exact: true }).click();
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator(".record").nth(1).waitFor();
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  // Hollow, firm under the knife, moving: loose rather than decayed. Common practice, no source.
  test(`a place is weighed and concluded on: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport);
    const address = await begin(page, server.address, `Weighed ${name}`);
    await page.goto(`${address}/bench/weighing`);
    await page.getByText("Nothing to weigh yet.").waitFor();
    await observe(page, address);
    await page.goto(`${address}/bench/weighing`);
    await page.getByRole("complementary", { name: "Places weighed" }).getByRole("button", { name: /port, strake 6, frame 11/ }).click();
    const shares = page.locator(".shares li");
    assert.match(await shares.first().innerText(), /^loose/);
    assert.ok(await page.locator(".panel .drawing svg, .panel svg").first().isVisible(), "the balance is drawn");
    assert.ok((await page.locator(".next-tests li").count()) > 0);

    await page.getByText("See it otherwise").click();
    await page.getByLabel("What you take it to be").selectOption("decayed");
    await page.getByRole("button", { name: "Write the finding your way" }).click();
    await page.getByText("Say why you see it otherwise").waitFor();
    await page.getByLabel("Why", { exact: true }).fill("Black along the seam below it.");
    await page.getByRole("button", { name: "Write the finding your way" }).click();
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel(/^Heading/).fill("Soft behind");
    await dialog.getByText("work needed", { exact: true }).click();
    await dialog.getByLabel(/^Your conclusion/).fill("Taken as decayed until it is opened.");
    await dialog.getByRole("button", { name: "Record" }).click();
    await dialog.waitFor({ state: "hidden" });
    const entries = await reached(server, address, (all) => all.some((entry) => entry.kind === "finding"));
    const weighing = entries.find((entry) => entry.kind === "reckoning");
    const finding = entries.find((entry) => entry.kind === "finding").payload;
    assert.equal(weighing.payload.topic, "evidence");
    assert.equal(weighing.payload.note, "Not followed: Black along the seam below it.");
    assert.equal(weighing.payload.results.leading, "loose", "what was weighed stays as it was");
    assert.equal(finding.likely_state, "decayed");
    assert.ok(finding.basis.includes(weighing.id), "the finding rests on the weighing too");
    assert.deepEqual(finding.alternatives, [{ what: "loose", against: "Black along the seam below it." }]);

    await page.goto(`${address}/bench/leaving`);
    await page.getByRole("heading", { name: "Owed: neither looked at nor said not to be seen" }).waitFor();
    const there = page.locator(".next-tests a").first();
    assert.match(await there.getAttribute("href"), /walk\/topside-plank\?side=port&strake=6&frame_from=11/);
    await there.click();
    const form = page.getByRole("form", { name: "Record an observation" });
    assert.equal(await form.getByLabel("Strake, from the garboard").inputValue(), "6", "the form opens at the place");
    assert.deepEqual(faults, []);
    await context.close();
  });

  test(`the invented boat's weighing has no fault for axe and no side scroll: ${name}`, async () => {
    const { page, context } = await visit(browser, server.address, viewport);
    const { surveys } = { surveys: await (await fetch(`${server.address}/api/surveys`)).json() };
    const survey = (surveys.surveys ?? surveys)[0].survey;
    for (const place of ["weighing", "leaving"]) {
      await page.goto(`${server.address}/survey/${survey}/bench/${place}`);
      await page.locator(place === "weighing" ? ".shares li" : ".next-tests li").first().waitFor({ state: "attached" });
      if (place === "weighing") await page.locator(".weighed-place").first().click();
      // The policy forbids script in line; the browser's own door for tools is not in line.
      const hand = await context.newCDPSession(page);
      await hand.send("Runtime.evaluate", { expression: axe });
      const found = await page.evaluate(async () => (await window.axe.run()).violations.map((v) => `${v.id}: ${v.nodes[0].html}`));
      assert.deepEqual(found, [], place);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      assert.ok(wide <= 0, `${place} is ${wide} px too wide`);
    }
    await context.close();
  });
}
