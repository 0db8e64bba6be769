// A whole survey by eye and hand, at a desk's and a phone's width: begun, observed, concluded, recommended, printed.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { DESK, PHONE, begin, browse, desk, reached, serve, stop, visit } from "./bench.mjs";
import { withExif } from "./exif.mjs";

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

async function picture(page) {
  const data = await page.evaluate(() => {
    const canvas = document.createElement("canvas");
    canvas.width = 320;
    canvas.height = 200;
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#7a5a3a";
    pen.fillRect(0, 0, 320, 200);
    pen.fillStyle = "#201008";
    pen.fillRect(0, 96, 320, 6);
    return canvas.toDataURL("image/jpeg", 0.9).split(",")[1];
  });
  return withExif(Buffer.from(data, "base64"));
}

async function place(form, { side, strake, frame }) {
  if (side) await form.getByText(side, { exact: true }).click();
  if (strake) await form.getByLabel("Strake, from the garboard").fill(String(strake));
  if (frame) await form.getByLabel("Frame, from the stem").fill(String(frame));
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`new survey, three observations with a photograph, finding, recommendation, report: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport, { acceptDownloads: true });
    const address = await begin(page, server.address, `Test Boat ${name}`);

    await page.goto(`${address}/walk/topside-plank`);
    const form = page.getByRole("form", { name: "Record an observation" });
    await place(form, { side: "port", strake: 6, frame: 11 });
    await form.getByText("sound", { exact: true }).click();
    await form.getByText("dull or hollow", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill("Dull between the frames.");
    const bytes = await picture(page);
    await form.locator("input[type=file]").setInputFiles([
      { name: "first.jpg", mimeType: "image/jpeg", buffer: bytes },
      { name: "second.jpg", mimeType: "image/jpeg", buffer: bytes.subarray(0, bytes.length) },
    ]);
    await form.getByLabel("What first.jpg shows").fill("Port strake 6 at frame 11");
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record").first().waitFor();

    await form.getByText("probe", { exact: true }).click();
    await form.getByText("firm", { exact: true }).click();
    await form.getByText("yes", { exact: true }).click();
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record").nth(1).waitFor();

    await page.getByRole("button", { name: "Same again at port, strake 6, frame 12" }).click();
    await page.locator(".record").nth(2).waitFor();

    await page.goto(`${address}/bench/findings`);
    await page.getByRole("button", { name: "topside planking" }).click();
    const finding = page.getByRole("dialog");
    await finding.getByLabel(/^Heading/).fill("Plank loose on its fastenings");
    await finding.getByText("work needed", { exact: true }).click();
    await finding.getByText("loose", { exact: true }).click();
    await finding.getByLabel(/^Your conclusion/).fill("The plank moves when pried and takes the knife firmly: loose rather than rotten.");
    const basis = finding.getByRole("group", { name: /^Rests on/ }).getByRole("checkbox");
    assert.equal(await basis.count(), 3, "the member's own observations are offered");
    await basis.first().check();
    await finding.getByRole("button", { name: "Record" }).click();
    await page.getByRole("button", { name: "Recommend something for Plank loose on its fastenings" }).click();
    const advice = page.getByRole("dialog");
    await advice.getByLabel(/^Heading/).fill("Draw and refasten the plank");
    await advice.getByLabel(/^What is to be done/).fill("Draw the fastenings of port strake 6, frames 10 to 14, and refasten.");
    await advice.getByText("before she floats", { exact: true }).click();
    await advice.getByRole("button", { name: "Record" }).click();
    await advice.waitFor({ state: "hidden" });
    await reached(server, address, (all) => all.some((entry) => entry.kind === "recommendation"));

    await page.goto(`${address}/report`);
    const waiting = page.waitForEvent("download", { timeout: 60000 });
    await page.getByRole("button", { name: "Save the report as PDF" }).click();
    const file = join(kept.folder, `${name}.pdf`);
    await (await waiting).saveAs(file);
    const text = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
    for (const said of [`Test Boat ${name}`, "Plank loose on its fastenings", "Draw and refasten the plank", "dull or hollow"]) {
      assert.ok(text.includes(said), `the report says “${said}”`);
    }
    await page.locator(".pages img").first().waitFor({ timeout: 30000 });
    const shown = await page.locator(".pages img").first().evaluate((img) => img.decode().then(() => img.naturalWidth));
    assert.ok(shown > 100, "the page is shown as it will print");

    // The pictures went without their position, with their time and, for the browser, their orientation.
    const entries = await reached(server, address, (all) => all.some((entry) => entry.kind === "recommendation"));
    const pictures = entries.filter((entry) => entry.kind === "attachment");
    assert.equal(pictures.length, 2);
    for (const { payload } of pictures) {
      assert.equal(payload.taken, "2026-06-03T10:11:12");
      assert.equal(payload.position_deg, undefined);
      const stored = Buffer.from(await (await fetch(`${server.address}/api/attachments/${payload.sha256}`)).arrayBuffer());
      writeFileSync(join(kept.folder, "kept.jpg"), stored);
      assert.ok(!stored.includes(Buffer.from([0xd2, 0x04, 0, 0, 100, 0, 0, 0])), "the seconds of latitude are gone");
      assert.ok(stored.includes(Buffer.from("2026:06:03 10:11:12")), "the time is kept");
    }
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test("a position is kept when that is wanted", async () => {
  const { page, context } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Placed");
  await page.goto(`${address}/walk/stem`);
  const form = page.getByRole("form", { name: "Record an observation" });
  await form.getByText("sight", { exact: true }).click();
  await form.getByLabel("Note, in your words").fill("As moored.");
  await form.locator("input[type=file]").setInputFiles({ name: "there.jpg", mimeType: "image/jpeg", buffer: await picture(page) });
  await form.getByLabel("keep where it was taken").check();
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator(".record").first().waitFor();
  const entries = await reached(server, address, (all) => all.some((entry) => entry.kind === "attachment"));
  const { payload } = entries.find((entry) => entry.kind === "attachment");
  // 51° 30' 12.34" N, 4° 15' 56.78" W in degrees.
  assert.ok(Math.abs(payload.position_deg[0] - 51.5034278) < 1e-6 && Math.abs(payload.position_deg[1] + 4.2657722) < 1e-6);
  await context.close();
});
