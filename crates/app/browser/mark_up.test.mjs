// Drawing on a copy of a photograph, with the finger on the phone and the mouse at the desk.
import assert from "node:assert/strict";
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

async function plain(page) {
  const data = await page.evaluate(() => {
    const canvas = document.createElement("canvas");
    canvas.width = 1200;
    canvas.height = 750;
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#6f8f7f";
    pen.fillRect(0, 0, 1200, 750);
    return canvas.toDataURL("image/jpeg", 0.95).split(",")[1];
  });
  return Buffer.from(data, "base64");
}

/** The reddest colour of a kept picture within a hundredth of its height of a point, as the browser decodes it. */
function colour(page, address, x, y) {
  return page.evaluate(async ([address, x, y]) => {
    const blob = await (await fetch(address)).blob();
    const picture = await createImageBitmap(blob);
    const canvas = new OffscreenCanvas(picture.width, picture.height);
    const pen = canvas.getContext("2d");
    pen.drawImage(picture, 0, 0);
    const near = Math.round(picture.height / 100);
    const column = pen.getImageData(Math.round(x * picture.width), Math.round(y * picture.height) - near, 1, 2 * near + 1).data;
    const all = Array.from({ length: 2 * near + 1 }, (_, n) => [...column.slice(4 * n, 4 * n + 3)]);
    return all.sort((a, b) => b[0] - b[1] - (a[0] - a[1]))[0];
  }, [address, x, y]);
}

for (const [name, viewport, settings] of [["desk", DESK, {}], ["phone", PHONE, { hasTouch: true }]]) {
  test(`a photograph is marked up and both stay: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport, settings);
    const address = await begin(page, server.address, `Marked ${name}`);
    await page.goto(`${address}/walk/stem`);
    const form = page.getByRole("form", { name: "Record an observation" });
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill("A check by the bolt.");
    await form.locator("input[type=file]").setInputFiles({ name: "stem.jpg", mimeType: "image/jpeg", buffer: await plain(page) });
    await form.getByRole("button", { name: "Mark up" }).click();
    const canvas = page.getByRole("img", { name: "The picture, to be drawn on" });
    await page.waitForFunction(() => document.querySelector("canvas.mark-up")?.width === 1200);
    const box = await canvas.boundingBox();
    const at = (x, y) => [box.x + x * box.width, box.y + y * box.height];
    const stroke = async (from, to) => {
      if (settings.hasTouch) {
        const hand = await context.newCDPSession(page);
        const touch = (type, point) => hand.send("Input.dispatchTouchEvent", { type, touchPoints: point ? [{ x: point[0], y: point[1] }] : [] });
        await touch("touchStart", at(...from));
        for (let n = 1; n <= 5; n += 1) await touch("touchMove", at(from[0] + ((to[0] - from[0]) * n) / 5, from[1] + ((to[1] - from[1]) * n) / 5));
        await touch("touchEnd");
      } else {
        await page.mouse.move(...at(...from));
        await page.mouse.down();
        await page.mouse.move(...at(...to), { steps: 5 });
        await page.mouse.up();
      }
    };
    await stroke([0.2, 0.5], [0.8, 0.5]);
    await stroke([0.5, 0.1], [0.5, 0.9]);
    await page.getByRole("button", { name: "Take back a stroke" }).click();
    await page.getByRole("button", { name: "Keep the marked copy" }).click();
    await form.getByLabel("What marked-stem.jpg shows").waitFor();
    await form.getByRole("button", { name: "Record", exact: true }).click();
    await page.locator(".record .photographs img").nth(1).waitFor();
    await page.reload();
    await page.locator(".record .photographs img").nth(1).waitFor();

    const entries = await reached(server, address, (all) => all.filter((entry) => entry.kind === "attachment").length === 2);
    const [taken, marked] = entries.filter((entry) => entry.kind === "attachment").map((entry) => entry.payload);
    assert.equal(marked.file_name, "marked-stem.jpg");
    assert.equal(marked.caption, "Marked up");
    const of = ({ sha256 }) => `${server.address}/api/attachments/${sha256}`;
    const [r, g, b] = await colour(page, of(marked), 0.5, 0.5);
    assert.ok(r > 120 && g < 100 && b < 90, `the stroke is red where it was drawn: ${[r, g, b]}`);
    const [, green] = await colour(page, of(marked), 0.5, 0.15);
    assert.ok(green > 120, "the stroke taken back left nothing");
    const [, untouched] = await colour(page, of(taken), 0.5, 0.5);
    assert.ok(untouched > 120, "the picture as taken has no mark");
    assert.deepEqual(faults, []);
    await context.close();
  });
}
