// A phone is let in: over HTTPS under a name of its own, by an invitation made at the desk; it works with no network, sends
// what it holds, and is turned out.
import assert from "node:assert/strict";
import { X509Certificate, createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { connect } from "node:tls";
import { after, before, test } from "node:test";
import AxeBuilder from "@axe-core/playwright";
import { DESK, PHONE, browse, desk, page as window, reached, sayWho, serve, stop, together, visit } from "./bench.mjs";

const NAME = "shed.home.arpa";
let atDesk, atYard, server, kept, ports, address;

function freePort() {
  return new Promise((resolve) => {
    const socket = createServer().listen(0, () => {
      const { port } = socket.address();
      socket.close(() => resolve(port));
    });
  });
}

/** The certificate that the workbench shows, trusting the authority that it hands over and nobody else. */
function shown(ca) {
  return new Promise((resolve, reject) => {
    const socket = connect({ port: ports[0], host: "127.0.0.1", servername: NAME, ca }, () => {
      const certificate = new X509Certificate(socket.getPeerCertificate(true).raw);
      socket.end();
      resolve(certificate);
    });
    socket.on("error", reject);
  });
}

before(async () => {
  kept = await desk(true);
  ports = [await freePort(), await freePort()];
  server = await serve(kept.folder, 0, ["serve", "--port", "0", "--pair", NAME, "--pair-port", String(ports[0]), "--hand-over-port", String(ports[1])]);
  address = `https://${NAME}:${ports[0]}`;
  atDesk = await browse();
  // OpenSSL (Node's) accepts the certificate by the authority alone; the browser is then told to trust its key, as a phone
  // would after the authority was installed.
  const authority = new X509Certificate(readFileSync(join(kept.folder, "devices", NAME, "authority.crt")));
  const certificate = await shown(authority.toString());
  const key = createHash("sha256").update(certificate.publicKey.export({ type: "spki", format: "der" })).digest("base64");
  atYard = await browse({ args: ["--no-sandbox", `--host-resolver-rules=MAP ${NAME} 127.0.0.1`, `--ignore-certificate-errors-spki-list=${key}`] });
});
after(async () => {
  await atDesk?.close();
  await atYard?.close();
  if (server) await stop(server);
  kept?.gone();
});

async function noFault(page) {
  const { violations } = await new (AxeBuilder.default ?? AxeBuilder)({ page }).analyze();
  assert.deepEqual(violations.map((fault) => `${fault.id}: ${fault.nodes.map((node) => node.html).join(" ")}`), []);
}

async function picture(page, name) {
  if (process.env.PICTURES) await page.screenshot({ path: join(process.env.PICTURES, `${name}.png`), fullPage: true });
}

test("the authority is trusted for its name, and another is not", async () => {
  await assert.rejects(shown(undefined), /self-signed|unable to|UNABLE|SELF_SIGNED/);
  const authority = new X509Certificate(readFileSync(join(kept.folder, "devices", NAME, "authority.crt")));
  const certificate = await shown(authority.toString());
  assert.ok(certificate.checkIssued(authority) && certificate.checkHost(NAME) === NAME);
  assert.equal(certificate.checkHost("elsewhere.example"), undefined);
  const days = (new Date(certificate.validTo) - Date.now()) / 86400000;
  // Apple, "About upcoming limits on trusted certificates" (398 days, for public authorities) and HT210176 (825, for all).
  assert.ok(days > 330 && days < 398, `${days} days`);
});

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`a device is invited, works with no network, and is turned out: ${name}`, { timeout: 180000 }, async () => {
    const called = `My ${name}`;
    const host = await visit(atDesk, server.address, viewport);
    await host.page.goto(server.address);
    const section = host.page.locator(".paired");
    await section.getByRole("button", { name: "Invite a device" }).click();
    const invitation = await section.locator(".invitation code").innerText();
    assert.ok(invitation.startsWith(`${address}/pair#`), invitation);
    for (const code of await section.locator("img.code").all()) {
      assert.ok(await code.evaluate((image) => image.complete && image.naturalWidth > 100), "the code is drawn");
    }
    await noFault(host.page);
    await picture(host.page, `devices-${name}`);
    // The page that hands the certificate over says the same fingerprint.
    const handOver = await window(host.context, `http://127.0.0.1:${ports[1]}`);
    await handOver.page.goto(`http://127.0.0.1:${ports[1]}/`);
    assert.equal(await handOver.page.locator("code").first().innerText(), await section.locator(".pairing code").first().innerText());
    await noFault(handOver.page);
    await picture(handOver.page, `hand-over-${name}`);
    assert.deepEqual(handOver.faults, []);
    await handOver.page.close();

    const { page, context, faults } = await visit(atYard, address, viewport);
    // Before it is paired it sees the app and nothing of any survey.
    await page.goto(address);
    await page.getByText("This device is not paired with the workbench here").waitFor();
    assert.equal(await page.getByRole("link", { name: /Marram/ }).count(), 0);
    await picture(page, `not-paired-${name}`);
    await page.goto(invitation);
    await page.getByLabel("What this device is called").fill(called);
    assert.equal(page.url(), `${address}/pair`, "the invitation does not stay in the history");
    await noFault(page);
    await picture(page, `pair-${name}`);
    await page.getByRole("button", { name: "Pair this device" }).click();
    const boat = page.getByRole("link", { name: /Marram/ }).first();
    await boat.waitFor();
    assert.equal(await page.evaluate(() => document.cookie), "", "script cannot read what lets it in");
    assert.ok(await page.evaluate(() => isSecureContext));
    await boat.click();
    await page.waitForURL(/\/survey\//);
    await sayWho(page);
    await together(page);
    const survey = page.url().match(/survey\/([^/]+)/)[1];
    await page.evaluate(() => navigator.serviceWorker.ready);
    // No network at all: it opens anew and records.
    await context.setOffline(true);
    await page.goto(`${address}/survey/${survey}/walk/garboard`);
    const form = page.getByRole("form", { name: "Record an observation" });
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill(`seen from ${called}`);
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record .record-line").filter({ hasText: `seen from ${called}` }).waitFor();
    await context.setOffline(false);
    await together(page);
    await reached(server, `${server.address}/survey/${survey}`, (all) => all.some((entry) => entry.payload?.note === `seen from ${called}`));

    // Turned out at the desk: what it holds stays, what it enters is kept, and nothing goes out or in.
    await section.getByRole("button", { name: "It is in" }).click();
    await section.getByText(called, { exact: true }).waitFor();
    await section.getByRole("button", { name: `Turn ${called} out` }).click();
    await section.getByText(called, { exact: true }).waitFor({ state: "detached" });
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill(`kept by ${called}`);
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.getByText(/Kept here; \d+ to send once this device is paired/).waitFor({ timeout: 30000 });
    await page.locator(".record .record-line").filter({ hasText: `kept by ${called}` }).waitFor();
    const said = await reached(server, `${server.address}/survey/${survey}`, () => true);
    assert.ok(!said.some((entry) => entry.payload?.note === `kept by ${called}`));
    assert.equal(await page.evaluate(async () => (await fetch("/api/surveys")).status), 401);
    // Paired again, it sends what it kept.
    await section.getByRole("button", { name: "Invite a device" }).click();
    await page.goto(await section.locator(".invitation code").innerText());
    await page.getByLabel("What this device is called").fill(`${called} again`);
    await page.getByRole("button", { name: "Pair this device" }).click();
    await page.getByRole("link", { name: /Marram/ }).first().click();
    await reached(server, `${server.address}/survey/${survey}`, (all) => all.some((entry) => entry.payload?.note === `kept by ${called}`));
    assert.deepEqual([...faults, ...host.faults], []);
    await context.close();
    await host.context.close();
  });
}
