// Her planking in space: fetched only when it is opened, drawn, turned by the keys, and a mark found by a tap.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { DESK, PHONE, browse, desk, sayWho, serve, stop, visit } from "./bench.mjs";

let browser, server, kept;
before(async () => {
  kept = await desk(true);
  server = await serve(kept.folder);
  // This machine has no graphics of its own: the browser is told to draw by software.
  browser = await browse({ args: ["--no-sandbox", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"] });
});
after(async () => {
  await browser?.close();
  if (server) await stop(server);
  kept?.gone();
});

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`the hull in space: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport);
    const fetched = [];
    await page.goto(server.address);
    await page.getByRole("link", { name: /Marram/ }).first().click();
    await page.waitForURL(/\/survey\//);
    await sayWho(page);
    const address = `${server.address}/survey/${page.url().match(/survey\/([^/]+)/)[1]}`;
    page.on("request", (request) => fetched.push(request.url()));
    await page.goto(`${address}/hull`);
    await page.locator(".drawing-board svg").waitFor();
    const module = () => fetched.filter((url) => url.endsWith("/solid.js") ).length;
    const before = module();
    await page.getByRole("button", { name: "In space" }).click();
    const canvas = page.locator("canvas.space");
    await canvas.waitFor();
    assert.match(await canvas.getAttribute("aria-label"), /14 strakes and 38 frames a side, \d+ marks/);
    await page.waitForTimeout(1000);
    assert.ok(module() > before, "the module comes when it is opened");
    const first = await canvas.screenshot();
    await canvas.focus();
    for (let n = 0; n < 4; n += 1) await page.keyboard.press("ArrowLeft");
    await page.waitForTimeout(400);
    const turned = await canvas.screenshot();
    assert.notDeepEqual(first, turned, "the arrows turn her");
    // A tap beside the boat points at nothing; somewhere on her a mark answers with its entry.
    const box = await canvas.boundingBox();
    await page.mouse.click(box.x + 4, box.y + 4);
    assert.equal(await page.locator(".hull-beside .record").count(), 0);
    let found = false;
    for (let row = 0.3; row < 0.75 && !found; row += 0.03) {
      for (let column = 0.15; column < 0.85 && !found; column += 0.03) {
        await page.mouse.click(box.x + box.width * column, box.y + box.height * row);
        found = (await page.locator(".hull-beside .record").count()) > 0;
      }
    }
    assert.ok(found, "a mark is found by a tap");
    if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/space-${name}.png` });
    assert.deepEqual(faults, []);
    await context.close();
  });
}
