// Frame by frame at a phone's size, with a finger: taps are counted, what is recorded is read back from the server, and all
// of it works with no network.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { PHONE, begin, browse, desk, photograph, reached, sayWho, serve, stop, together, visit } from "./bench.mjs";

let browser, server, kept;
before(async () => {
  kept = await desk(false);
  server = await serve(kept.folder);
  // A microphone that hums, allowed: the browser's own for tests.
  browser = await browse({ args: ["--no-sandbox", "--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"] });
});
after(async () => {
  await browser?.close();
  if (server) await stop(server);
  kept?.gone();
});

test("an observation takes four taps at most, the same again one", { timeout: 180000 }, async () => {
  const { page, context, faults } = await visit(browser, server.address, PHONE, { hasTouch: true, isMobile: true, permissions: ["microphone"] });
  const address = await begin(page, server.address, "Taps");
  let taps = 0;
  const tap = async (target) => {
    taps += 1;
    await target.tap();
  };
  const button = (name) => page.getByRole("button", { name, exact: true });
  const counted = async (most, act) => {
    taps = 0;
    await act();
    assert.ok(taps <= most, `${taps} taps`);
  };
  const last = (words) => page.locator(".last-recorded .record-line").filter({ hasText: words }).waitFor();
  await page.goto(`${address}/walk/along?member=garboard&side=port&strake=1&frame_from=1`);
  await button("rings").waitFor();

  // Where (a frame on), what (by the knife), how (firm).
  await counted(4, async () => {
    await tap(button("One frame aft"));
    await tap(button("probe"));
    await tap(button("firm"));
  });
  await last("garboard, port, garboard, frame 2: firm");
  await counted(1, () => tap(button("Same again at frame 3")));
  await last("frame 3: firm");
  await counted(1, () => tap(button("Same again at frame 4")));
  await last("frame 4: firm");
  // A change of strake brings its plank with it.
  await counted(4, async () => {
    await tap(button("One strake out"));
    await tap(button("sound"));
    await tap(button("dull or hollow"));
  });
  await last("strake 2, frame 4: dull or hollow");
  // Going on by itself, one tap records each frame.
  await page.getByLabel("one frame on after each").tap();
  for (const [answer, frame] of [["rings", 4], ["rings", 5], ["chatters", 6]]) {
    await counted(1, () => tap(button(answer)));
    await last(`frame ${frame}: ${answer}`);
  }
  await page.getByLabel("one frame on after each").tap();

  // Figures with fractions.
  await tap(button("measure"));
  await tap(button("seam gap …"));
  for (const key of ["1", "Space, before a fraction", "5", "/8"]) await tap(button(key));
  await page.getByText("41.275 mm").waitFor();
  await tap(page.locator(".keypad").getByRole("button", { name: "Record" }));
  await last("seam gap 41.275 mm (written 1 5/8\")");
  await tap(button("moisture"));
  await tap(page.locator(".keypad").getByRole("button", { name: "Record" }));
  await page.getByRole("alert").filter({ hasText: "Key in a figure first." }).waitFor();
  for (const key of ["1", "8", ".", "5"]) await tap(button(key));
  await tap(page.locator(".keypad").getByRole("button", { name: "Record" }));
  await last("meter shows 18.5 %");

  // What was recorded last is added to: a photograph, words, the voice; and amended by tapping it.
  await page.getByLabel("Photograph").setInputFiles({ name: "seam.jpg", mimeType: "image/jpeg", buffer: await photograph(page) });
  await page.locator(".last-recorded img").waitFor();
  await tap(button("Words"));
  await page.getByLabel("Words to it").fill("behind the ceiling");
  await tap(button("Add"));
  await last("meter shows 18.5 %; behind the ceiling");
  await tap(button("Say it"));
  await page.waitForTimeout(1500);
  await tap(button("Said"));
  await page.getByText("The spoken note is kept.").waitFor();
  await page.locator(".last-recorded .record-open").tap();
  const sound = page.locator("dialog[open] audio");
  await sound.waitFor();
  assert.ok(await sound.evaluate((audio) => new Promise((resolve) => { if (audio.readyState) resolve(true); audio.addEventListener("loadedmetadata", () => resolve(true)); audio.addEventListener("error", () => resolve(false)); })), "it can be heard");
  await page.locator("dialog[open]").getByRole("button", { name: "Close" }).tap();
  if (process.env.PICTURES) await page.screenshot({ path: join(process.env.PICTURES, "along.png"), fullPage: true });

  const said = await reached(server, address, (all) => all.filter((entry) => entry.kind === "attachment").length === 2);
  const readings = said.filter((entry) => entry.kind === "observation").map((entry) => entry.payload);
  assert.equal(readings.length, 9);
  assert.deepEqual(readings.map((one) => one.place.frame_from), [2, 3, 4, 4, 4, 5, 6, 7, 7]);
  assert.equal(readings[3].member, "broad-strake");
  const note = said.find((entry) => entry.payload.media_type?.startsWith("audio/")).payload;
  const heard = await fetch(`${server.address}/api/attachments/${note.sha256}`);
  assert.equal(heard.status, 200);
  assert.equal(Number(heard.headers.get("content-length")), note.bytes);

  // With no network the same, and what is taken back is taken back by amendment.
  await page.evaluate(() => navigator.serviceWorker.ready);
  await context.setOffline(true);
  await page.reload();
  await button("One frame aft").waitFor();
  await page.getByText("meter shows 18.5 %").first().waitFor();
  await counted(3, async () => {
    await tap(button("One frame aft"));
    await tap(button("sight"));
    await tap(button("nothing wrong"));
  });
  await last("frame 8: Nothing wrong was seen.");
  await tap(button("Take back"));
  await page.locator(".last-recorded .withdrawn").waitFor();
  await context.setOffline(false);
  await together(page);
  await reached(server, address, (all) => all.some((entry) => entry.kind === "amendment" && entry.payload.payload === null || entry.kind === "amendment" && !("payload" in entry.payload)));
  assert.deepEqual(faults, []);
  await context.close();
});
