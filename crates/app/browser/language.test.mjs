// Members are called as the survey's language has them: at first that of the device, then as the brief settles it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { DESK, PHONE, begin, browse, desk, reached, serve, stop, visit } from "./bench.mjs";

let browser, server, kept;
before(async () => {
  kept = await desk(false);
  server = await serve(kept.folder);
  browser = await browse();
});
after(async () => {
  await browser?.close();
  if (server) await stop(server);
  kept?.gone();
});

for (const [locale, viewport, called, chosen] of [
  ["en-US", PHONE, "cap rail", "English, American terms"],
  ["nl-NL", DESK, "capping rail", "English, British terms"],
]) {
  test(`a device set to ${locale} says ${called}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport, { locale, acceptDownloads: true });
    const address = await begin(page, server.address, `Tongue ${locale}`);
    await page.goto(`${address}/walk/capping-rail`);
    await page.getByRole("heading", { name: called }).first().waitFor();
    // The report calls it the same.
    const form = page.getByRole("form", { name: "Record an observation" });
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill("A scarf has opened.");
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record .record-line").first().waitFor();
    await reached(server, address, (all) => all.some((entry) => entry.payload?.note === "A scarf has opened."));
    const survey = page.url().match(/survey\/([^/]+)/)[1];
    const answer = await page.request.get(`${server.address}/api/surveys/${survey}/report.pdf`);
    assert.ok(answer.ok());
    const file = join(kept.folder, `${locale}.pdf`);
    writeFileSync(file, await answer.body());
    const text = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
    assert.match(text, new RegExp(called, "i"));

    // The brief tells the choice, and another is made there.
    await page.goto(`${address}/brief`);
    await page.getByText(chosen).first().waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });
}
