// A newer workbench is offered, taken up when the surveyor says so, and works on what was kept by the older one.
import assert from "node:assert/strict";
import { createServer, request as ask } from "node:http";
import { after, before, test } from "node:test";
import { PHONE, begin, browse, desk, serve, stop, visit } from "./bench.mjs";

let browser, server, kept, front, address;
// What is added to the worker's bytes; other bytes are another version to the browser (Service Workers, W3C, “update”).
let version = "";

before(async () => {
  kept = await desk(false);
  server = await serve(kept.folder);
  const port = Number(new URL(server.address).port);
  front = createServer((asked, answer) => {
    const headers = { ...asked.headers, host: `127.0.0.1:${port}` };
    if (asked.url === "/service-worker.js") headers["accept-encoding"] = "identity";
    if (headers.origin) headers.origin = server.address;
    const passed = ask({ port, host: "127.0.0.1", path: asked.url, method: asked.method, headers }, (from) => {
      const own = { ...from.headers };
      if (asked.url === "/service-worker.js") {
        delete own["content-length"];
        delete own.etag;
      }
      answer.writeHead(from.statusCode, own);
      if (asked.url === "/service-worker.js" && from.statusCode === 200) {
        from.on("data", (bytes) => answer.write(bytes));
        from.on("end", () => answer.end(version));
      } else from.pipe(answer);
    });
    passed.on("error", () => answer.destroy());
    answer.on("close", () => passed.destroy());
    asked.pipe(passed);
  });
  await new Promise((done) => front.listen(0, "127.0.0.1", done));
  address = `http://127.0.0.1:${front.address().port}`;
  browser = await browse();
});
after(async () => {
  await browser?.close();
  front?.closeAllConnections();
  front?.close();
  if (server) await stop(server);
  kept?.gone();
});

test("a newer workbench is offered, waits for a yes, and finds what was kept", async () => {
  const { page, context, faults } = await visit(browser, address, PHONE);
  const survey = await begin(page, address, "Older");
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  // The first visit is not yet under the worker.
  await page.goto(`${survey}/walk/keel`);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const offer = page.getByText("A newer workbench is ready.");
  assert.equal(await offer.count(), 0, "nothing is offered while there is nothing newer");
  const form = page.getByRole("form", { name: "Record an observation" });
  await form.getByLabel("Note, in your words").waitFor();
  await form.getByText("sight", { exact: true }).click();
  await form.getByLabel("Note, in your words").fill("half written");

  version = "\n// Another version.\n";
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await offer.waitFor({ timeout: 20000 });
  assert.equal(await form.getByLabel("Note, in your words").inputValue(), "half written", "nothing changes under the hand");
  await form.getByRole("button", { name: "Record", exact: true }).click();
  await page.locator(".record").first().waitFor();

  const opened = page.waitForEvent("load", { timeout: 20000 });
  await page.getByRole("button", { name: "Open it" }).click();
  await opened;
  await page.locator(".record").getByText("half written").waitFor();
  assert.equal(await offer.count(), 0);
  assert.deepEqual(faults, []);
  await context.close();
});
