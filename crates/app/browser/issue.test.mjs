// Issuing from the workbench: against advice only with reasons, the exact bytes kept and checked by the program, a second
// version that says what changed.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before, test } from "node:test";
import { DESK, PHONE, browse, desk, reached, sayWho, serve, stop, together, visit } from "./bench.mjs";

const program = process.env.RIBBAND ?? join(dirname(fileURLToPath(import.meta.url)), "../../../target/debug/ribband");
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

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`a version is issued: ${name}`, { timeout: 180000 }, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport);
    await page.goto(server.address);
    await page.getByRole("link", { name: /Marram/ }).first().click();
    await page.waitForURL(/\/survey\//);
    await sayWho(page);
    const address = `${server.address}/survey/${page.url().match(/survey\/([^/]+)/)[1]}`;
    await page.goto(`${address}/report`);
    // The invented boat has one version out already.
    const button = page.getByRole("button", { name: /^Issue version \d+$/ });
    await page.locator(".versions li").first().waitFor();
    await together(page);
    const version = Number((await button.innerText()).match(/\d+/)[0]);
    assert.ok(version >= 2);
    const why = page.getByLabel(/^Why it goes out though this is not met/);
    await why.first().waitFor();
    assert.ok(await button.isDisabled(), "not without reasons");
    for (let k = 0; k < (await why.count()); k += 1) await why.nth(k).fill("A limited inspection, agreed in writing.");
    await page.getByLabel("To whom, a line each").fill("Rowan Aldane\nThe yard at Sallowby (invented)");
    await page.getByLabel(`What changed since version ${version - 1}`).fill("Nothing but the addressees.");
    await button.click();
    await page.getByText(new RegExp(`Version ${version} is issued, \\d+ pages`)).waitFor({ timeout: 120000 });
    const entries = await reached(server, address, (all) => all.some((entry) => entry.kind === "report_issued" && entry.payload.version === version));
    const issued = entries.filter((entry) => entry.kind === "report_issued").at(-1).payload;
    assert.equal(issued.version, version);
    assert.deepEqual(issued.addressees, ["Rowan Aldane", "The yard at Sallowby (invented)"]);
    assert.ok(issued.issue.against.every((one) => one.reason === "A limited inspection, agreed in writing."));
    // The next version is offered, and this one can be fetched, byte for byte what was signed.
    await page.getByRole("button", { name: `Issue version ${version + 1}` }).waitFor();
    const links = page.locator(".versions li").first().getByRole("link");
    const [pdf, seal] = await Promise.all([0, 1].map(async (k) => Buffer.from(await (await fetch(server.address + (await links.nth(k).getAttribute("href")))).arrayBuffer())));
    assert.equal(createHash("sha256").update(pdf).digest("hex"), issued.sha256);
    const file = join(kept.folder, "issued.pdf");
    writeFileSync(file, pdf);
    writeFileSync(`${file}.sig`, seal);
    const key = join(kept.folder, "public-key");
    if (name === "desk") assert.equal(spawnSync(program, ["--folder", kept.folder, "key", "--author", "Hedda Quill", "--out", key]).status, 0);
    const checked = spawnSync(program, ["verify", file, "--public-key", key], { encoding: "utf8" });
    assert.equal(checked.status, 0, checked.stdout + checked.stderr);
    pdf[pdf.length >> 1] ^= 1;
    writeFileSync(file, pdf);
    assert.notEqual(spawnSync(program, ["verify", file, "--public-key", key]).status, 0, "one bit turned is found");
    // A link for the client opens this version until it is withdrawn.
    await page.getByLabel("For whom").fill("Rowan Aldane");
    await page.getByLabel("Last day").fill("2020-01-01");
    await page.getByRole("button", { name: "Make a link" }).click();
    await page.getByText("2020-01-01 is over").waitFor();
    await page.getByLabel("Last day").fill("2199-12-31");
    await page.getByRole("button", { name: "Make a link" }).click();
    const link = await page.getByLabel("The link, shown this once").inputValue();
    assert.match(link, /\/issued\/[0-9a-f]{64}$/);
    const opens = async (wanted) => {
      for (let k = 0; k < 100; k += 1) {
        const answer = await fetch(link);
        if (answer.status === wanted) return answer.text();
        await new Promise((done) => setTimeout(done, 100));
      }
      assert.fail(`the link never answered ${wanted}`);
    };
    assert.match(await opens(200), new RegExp(`version ${version} of`));
    const read = Buffer.from(await (await fetch(`${link}/report.pdf`)).arrayBuffer());
    assert.equal(createHash("sha256").update(read).digest("hex"), issued.sha256);
    if (process.env.PICTURES) await page.locator(".issuing").screenshot({ path: `${process.env.PICTURES}/issue-${name}.png` });
    await page.locator(".links li").last().getByRole("button", { name: "Withdraw" }).click();
    await opens(404);
    assert.deepEqual(faults, []);
    await context.close();
  });
}
