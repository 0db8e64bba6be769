// The field book in the page: amending, history, taking back, not seen, two windows, a server that comes and goes.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, begin, browse, desk, page as another, reached, serve, stop, together, visit } from "./bench.mjs";

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

async function observe(page, note) {
  const form = page.getByRole("form", { name: "Record an observation" });
  await form.getByText("sight", { exact: true }).click();
  await form.getByLabel("Note, in your words").fill(note);
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator(".record").filter({ hasText: note.slice(0, 30) }).first().waitFor();
}

test("an entry is amended with a reason, its history shows both, and Undo takes it back by another amendment", async () => {
  const { page, context, faults } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Amended");
  await page.goto(`${address}/walk/stem`);
  await observe(page, "A check a hand long.");
  await page.locator(".record-open").first().click();
  const dialog = page.getByRole("dialog");
  await dialog.getByRole("button", { name: "Amend" }).click();
  await dialog.getByLabel("Note, in your words").fill("A check two hands long.");
  await dialog.getByRole("button", { name: "Amend" }).click();
  await dialog.getByText(/Say why it is amended/).waitFor();
  await dialog.getByLabel(/Why it is amended/).fill("measured again");
  await dialog.getByRole("button", { name: "Amend" }).click();
  await page.getByText("A check two hands long.").first().waitFor();

  await page.locator(".record-open").first().click();
  const history = page.getByRole("dialog").locator(".history li");
  assert.equal(await history.count(), 2);
  assert.match(await history.first().innerText(), /measured again[\s\S]*this one shows/);
  assert.match(await history.nth(1).innerText(), /as first written[\s\S]*a hand long/);
  await page.keyboard.press("Escape");

  await page.keyboard.press("Control+z");
  await page.locator(".record-line").filter({ hasText: "A check a hand long." }).first().waitFor();
  await page.reload();
  await page.locator(".record-line").filter({ hasText: "A check a hand long." }).first().waitFor();
  const amended = (all) => all.filter((entry) => entry.kind === "amendment");
  const amendments = amended(await reached(server, address, (all) => amended(all).length === 2));
  assert.deepEqual(amendments.map((entry) => entry.payload.why), ["measured again", "taken back at once"]);
  assert.deepEqual(faults, []);
  await context.close();
});

test("a member is said not to be seen, with the reason, in two taps", async () => {
  const { page, context } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Hidden");
  await page.goto(`${address}/walk/stem-knee`);
  await page.getByRole("button", { name: "Not seen" }).click();
  await page.getByRole("button", { name: "behind the ceiling" }).click();
  await page.locator(".record-line").filter({ hasText: "not seen, behind the ceiling" }).waitFor();
  await context.close();
});

test("what is withdrawn tells what rests on it", async () => {
  const { page, context } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Withdrawn");
  await page.goto(`${address}/walk/stem`);
  await observe(page, "Soft at the waterline.");
  await page.goto(`${address}/bench/findings`);
  await page.getByRole("button", { name: "Write a finding" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel(/^Member/).selectOption("stem");
  await dialog.getByLabel(/^Heading/).fill("Stem soft");
  await dialog.getByText("failed", { exact: true }).click();
  await dialog.getByLabel(/^Your conclusion/).fill("Soft at the waterline.");
  await dialog.getByRole("group", { name: /^Rests on/ }).getByRole("checkbox").first().check();
  await dialog.getByRole("button", { name: "Record" }).click();
  await dialog.waitFor({ state: "hidden" });
  await page.goto(`${address}/walk/stem`);
  await page.locator(".record-open").filter({ hasText: "Soft at the waterline" }).first().click();
  await page.getByRole("dialog").getByRole("button", { name: "Withdraw" }).click();
  await page.getByRole("dialog").getByText("These rest on it").waitFor();
  assert.match(await page.getByRole("dialog").innerText(), /Stem soft/);
  await context.close();
});

test("a second window follows, and both windows write one unbroken chain", async () => {
  const { page, context } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Two windows");
  await page.goto(`${address}/walk/stem`);
  const second = await another(context, server.address);
  await second.page.goto(`${address}/walk/stem`);
  await second.page.getByRole("form", { name: "Record an observation" }).waitFor();
  await observe(page, "Seen in the first window.");
  await second.page.locator(".record").filter({ hasText: "Seen in the first window." }).waitFor();
  await observe(second.page, "Seen in the second window.");
  await page.locator(".record").filter({ hasText: "Seen in the second window." }).waitFor();
  const entries = await reached(server, address, (all) => all.length === 4);
  assert.equal(new Set(entries.map((entry) => entry.device)).size, 1, "one browser is one device");
  assert.equal(new Set(entries.map((entry) => entry.prev)).size, entries.length, "no entry follows the same one twice");
  await context.close();
});

test("another browser sees it without asking again", async () => {
  const first = await visit(browser, server.address);
  const address = await begin(first.page, server.address, "Seen elsewhere");
  await together(first.page);
  const second = await visit(browser, server.address);
  await second.page.goto(`${address}/walk/stem`);
  await second.page.getByRole("heading", { name: "stem", exact: true }).waitFor();
  await first.page.goto(`${address}/walk/stem`);
  await observe(first.page, "Written by the first.");
  await second.page.locator(".record").filter({ hasText: "Written by the first." }).waitFor({ timeout: 15000 });
  await first.context.close();
  await second.context.close();
});

test("the server stops under the page and comes back: nothing is lost and everything is sent", async () => {
  const { page, context } = await visit(browser, server.address);
  const address = await begin(page, server.address, "Left alone");
  await page.goto(`${address}/walk/stem`);
  await together(page);
  const port = new URL(server.address).port;
  await stop(server);
  await observe(page, "Written with no server.");
  await page.locator(".standing.away").waitFor({ timeout: 20000 });
  server = await serve(kept.folder, port);
  await reached(server, address, (all) => all.some((entry) => entry.payload.note === "Written with no server."));
  await together(page);
  await context.close();
});

test("hostile text stays text everywhere", async () => {
  const { page, context, faults } = await visit(browser, server.address, DESK);
  const markup = `<img src=x onerror="window.struck=1"><script>window.struck=2</script>"'&amp;`;
  const address = await begin(page, server.address, markup);
  const long = "long ".repeat(2000);
  const leftwards = "\u202Eשלום \u2067mixed\u2069 عربى\u202C";
  await page.goto(`${address}/walk/stem`);
  for (const note of [markup, leftwards, long]) await observe(page, note);
  for (const place of ["brief", "hull", "walk", "walk/stem", "bench", "bench/findings", "bench/recommendations", "bench/reckoners", "report"]) {
    await page.goto(`${address}/${place}`);
    await page.locator("main h1").waitFor({ state: "attached" });
    await page.waitForTimeout(150);
    assert.equal(await page.evaluate(() => window.struck), undefined, place);
    assert.equal(await page.locator("main img[src='x']").count(), 0, place);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 1, `${place} is not pushed out of the window`);
  }
  await page.goto(server.address);
  await page.getByText("<img src=x").first().waitFor();
  assert.equal(await page.evaluate(() => window.struck), undefined);
  assert.deepEqual(faults, []);
  await context.close();
});
