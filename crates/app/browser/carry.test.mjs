// A survey travels as one file: made on a device with no server in reach, read by the program at the desk, and taken in on
// another device; what was altered on the way is refused and changes nothing.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";
import { DESK, PHONE, browse, desk, sayWho, serve, stop, together, visit } from "./bench.mjs";

const program = process.env.RIBBAND ?? join(dirname(fileURLToPath(import.meta.url)), "../../../target/debug/ribband");
let browser, first, second, withMarram, empty;

before(async () => {
  withMarram = await desk(true);
  empty = await desk(false);
  first = await serve(withMarram.folder);
  second = await serve(empty.folder);
  browser = await browse();
});
after(async () => {
  await browser?.close();
  for (const server of [first, second]) if (server) await stop(server);
  withMarram?.gone();
  empty?.gone();
});

function ribband(folder, ...words) {
  const { status, stdout, stderr } = spawnSync(program, ["--folder", folder, ...words], { encoding: "utf8" });
  assert.equal(status, 0, stderr);
  return stdout;
}

/** Records that lines are there of, by the number of the last of them. */
function count(page) {
  return page.locator(".record .record-line").count();
}

for (const [name, viewport] of [["phone", PHONE], ["desk", DESK]]) {
  test(`a survey is carried as one file: ${name}`, { timeout: 240000 }, async () => {
    const { page, context, faults } = await visit(browser, first.address, viewport, { acceptDownloads: true });
    await page.goto(first.address);
    await page.getByRole("link", { name: /Marram/ }).first().click();
    await page.waitForURL(/\/survey\//);
    await sayWho(page);
    await together(page);
    await page.evaluate(() => navigator.serviceWorker.ready);
    const survey = page.url().match(/survey\/([^/]+)/)[1];
    await page.goto(`${first.address}/survey/${survey}/walk/garboard`);
    const form = page.getByRole("form", { name: "Record an observation" });
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill(`before it was packed on the ${name}`);
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record .record-line").filter({ hasText: `packed on the ${name}` }).waitFor();
    await together(page);
    const here = await count(page);
    await page.goto(`${first.address}/survey/${survey}/report`);
    await page.getByRole("button", { name: "Make a package" }).click();
    const carry = page.locator(".carry");
    const said = await carry.getByText(/\d+ entries and \d+ attachments/).innerText();
    const [, entries, attachments] = said.match(/(\d+) entries and (\d+) attachments/).map(Number);
    assert.ok(!/not in it/.test(said), said);
    const [download] = await Promise.all([page.waitForEvent("download"), carry.getByRole("button", { name: "Save it" }).click()]);
    assert.equal(download.suggestedFilename(), "marram.ribband");
    const file = join(withMarram.folder, `carried-${name}.ribband`);
    await download.saveAs(file);

    // The desk reads it, and all of it fits.
    const fresh = await desk(false);
    const unpacked = JSON.parse(ribband(fresh.folder, "--json", "unpack", file));
    assert.equal(unpacked.entries_new, entries);
    ribband(fresh.folder, "verify");
    fresh.gone();

    // A carrier that takes long: it says how far it has come, and is stopped on asking.
    await page.evaluate(() => {
      const open = globalThis.openCarrier;
      globalThis.openCarrier = () => {
        globalThis.openCarrier = open;
        const carrier = open();
        carrier.postMessage = () => carrier.dispatchEvent(new MessageEvent("message", { data: { far: 2_300_000 } }));
        return carrier;
      };
    });
    await page.getByRole("button", { name: "Make a package" }).click();
    await carry.getByText("Packing … 3 MB read").waitFor();
    await carry.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Stopped. No package was made.").waitFor();
    assert.equal(await carry.getByText(/entries and/).count(), 0);

    // With no server in reach it is made and saved the same.
    await context.setOffline(true);
    await page.reload();
    // The report is read with its charts of money; they are moved sideways within themselves, the page is not.
    await page.getByRole("button", { name: "Read it here without its pages" }).click();
    await page.locator(".read-here figure svg").nth(1).waitFor();
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth));
    await page.getByRole("button", { name: "Make a package" }).click();
    const again = (await carry.getByText(/\d+ entries and \d+ attachments/).innerText()).match(/(\d+) entries and (\d+) attachments/).map(Number);
    assert.equal(again[1], entries);
    assert.equal(again[2], attachments, "all files were kept here");
    await context.setOffline(false);

    // Another device at another server, which is out of reach, takes it in.
    const other = await visit(browser, second.address, viewport);
    await other.page.goto(second.address);
    await other.page.getByText("Nothing yet").or(other.page.getByRole("link", { name: /Marram/ })).first().waitFor();
    await other.page.evaluate(() => navigator.serviceWorker.ready);
    await other.context.setOffline(true);
    const bytes = readFileSync(file);
    const altered = Buffer.from(bytes);
    altered[Math.floor(altered.length / 2)] ^= 1;
    for (const [what, content] of [["altered", altered], ["cut", bytes.subarray(0, bytes.length - 100)], ["no-package", Buffer.from("hello")], ["empty", Buffer.alloc(0)]]) {
      const bad = join(withMarram.folder, `${what}.ribband`);
      writeFileSync(bad, content);
      await other.page.getByLabel("Take in a package").setInputFiles(bad);
      await other.page.getByRole("alert").filter({ hasText: "Nothing was taken in." }).waitFor();
      assert.equal(await other.page.getByRole("link", { name: /Marram/ }).count(), 0, what);
    }
    await other.page.getByLabel("Take in a package").setInputFiles(file);
    await other.page.waitForURL(new RegExp(`/survey/${survey}/hull`));
    await other.page.getByText(`${entries} entries were new here and are kept.`).waitFor();
    await sayWho(other.page, "B. Tester");
    await other.page.goto(`${second.address}/survey/${survey}/walk/garboard`);
    await other.page.locator(".record .record-line").filter({ hasText: `packed on the ${name}` }).waitFor();
    assert.equal(await count(other.page), here);
    // A second time there is nothing new; and what came in goes on to its own server.
    await other.page.goto(second.address);
    await other.page.getByLabel("Take in a package").setInputFiles(file);
    await other.page.getByText("Nothing in it was new here.").waitFor();
    await other.context.setOffline(false);
    await together(other.page);
    const { entries: arrived } = await (await fetch(`${second.address}/api/surveys/${survey}/entries?after=0`)).json();
    assert.ok(arrived.length > 0);
    ribband(empty.folder, "verify");
    assert.deepEqual([...faults, ...other.faults], []);
    await other.page.goto(second.address);
    await context.close();
    await other.context.close();
    // For the other width the second desk is to be empty again.
    await stop(second);
    empty.gone();
    empty = await desk(false);
    second = await serve(empty.folder);
  });
}

test("a package made at the desk is taken in", { timeout: 120000 }, async () => {
  const file = join(withMarram.folder, "from-the-desk.ribband");
  ribband(withMarram.folder, "pack", "--out", file);
  const { page, context, faults } = await visit(browser, second.address, PHONE);
  await page.goto(second.address);
  await page.getByLabel("Take in a package").setInputFiles(file);
  await page.waitForURL(/\/survey\/.*\/hull/);
  await page.locator(".drawing-board svg").waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});
