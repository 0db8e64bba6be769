// How long an observation takes on the walk, from one to the next, for a scripted person with a phone:
//
//     node crates/app/browser/pace.mjs
//
// after `cargo run -p xtask -- app` and a build of ribband. The person is the keystroke-level model of Card, Moran and Newell
// (Communications of the ACM 23(7), 1980; The Psychology of Human-Computer Interaction, 1983): 1.10 s to move to a target,
// 0.20 s to press it, 1.35 s to make up one's mind. They are waited for in earnest, in a real browser at a phone's size with
// its processor slowed four times; what the page itself takes is measured on top. The model was made for desks; nobody with
// wet gloves was timed.
import { PHONE, browse, desk, photograph, sayWho, serve, stop, visit } from "./bench.mjs";

const [POINT_MS, PRESS_MS, MIND_MS] = [1100, 200, 1350];

const kept = await desk(true);
const server = await serve(kept.folder);
const browser = await browse();
try {
  const { page, context } = await visit(browser, server.address, PHONE, { hasTouch: true, isMobile: true });
  await page.goto(server.address);
  await page.getByRole("link", { name: /Marram/ }).first().click();
  await page.waitForURL(/\/survey\//);
  await sayWho(page, "Paced");
  const survey = page.url().match(/survey\/([^/]+)/)[1];
  await page.goto(`${server.address}/survey/${survey}/walk/along?member=garboard&side=port&strake=1&frame_from=1`);
  const button = (name) => page.getByRole("button", { name, exact: true });
  await button("rings").waitFor();
  const slow = await context.newCDPSession(page);
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 4 });

  const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
  let taps = 0;
  const tap = async (target) => {
    await wait(POINT_MS + PRESS_MS);
    taps += 1;
    await target.tap();
  };
  const mind = () => wait(MIND_MS);
  const last = (words) => page.locator(".last-recorded .record-line").filter({ hasText: words }).waitFor();
  const done = [];
  const observation = async (kind, act, said) => {
    taps = 0;
    const begun = Date.now();
    await act();
    await last(said);
    done.push({ kind, seconds: (Date.now() - begun) / 1000, taps });
  };
  const frame = async () => Number((await page.getByRole("group", { name: "Frame, from the stem" }).innerText()).match(/\d+/)[0]);

  // A plank sounded frame by frame; each answer is listened to first.
  for (const answer of ["rings", "rings", "dull or hollow", "rings", "rings", "chatters", "rings", "rings"]) {
    const at = await frame();
    await observation("a frame on, sounded", async () => {
      await tap(button("One frame aft"));
      await mind();
      await tap(button(answer));
    }, `frame ${at + 1}: ${answer}`);
  }
  // The same again along a sound stretch.
  for (let n = 0; n < 8; n += 1) {
    const at = await frame();
    await observation("the same again", async () => {
      await mind();
      await tap(button(`Same again at frame ${at + 1}`));
    }, `frame ${at + 1}: rings`);
  }
  // Another strake, another method: what is dull is probed.
  for (const [method, answer] of [["probe", "firm"], ["sound", "dull or hollow"], ["probe", "soft"], ["sight", "nothing wrong"], ["draw a fastening", "good"], ["sound", "rings"]]) {
    await observation("another strake, another method", async () => {
      await tap(button("One strake out"));
      await mind();
      await tap(button(method));
      await mind();
      await tap(button(answer));
    }, new RegExp(answer === "nothing wrong" ? "Nothing wrong" : answer));
  }
  // Figures: a gap in inches, the meter.
  for (const [method, figure, keys, said] of [
    ["measure", "seam gap …", ["3", "/16"], "seam gap 4.763 mm"],
    ["moisture", null, ["1", "9"], "meter shows 19 %"],
    ["measure", "thickness …", ["1", "Space, before a fraction", "1", "/4"], "thickness 31.75 mm"],
    ["moisture", null, ["2", "2"], "meter shows 22 %"],
  ]) {
    await observation("a figure keyed in", async () => {
      await mind();
      await tap(button(method));
      if (figure) await tap(button(figure));
      await mind();
      for (const key of keys) await tap(button(key));
      await tap(page.locator(".keypad").getByRole("button", { name: "Record" }));
    }, said);
  }
  // Another member, from the list of those recorded on lately.
  await button("sound").tap();
  for (let n = 0; n < 2; n += 1) {
    await observation("another member", async () => {
      await tap(page.locator(".spot-member"));
      await mind();
      await tap(page.getByRole("dialog").locator(".choose-member button").nth(1));
      await mind();
      await tap(button("rings"));
      await wait(300);
    }, /rings/);
  }
  // With a photograph: the camera's own shutter is one tap more.
  const bytes = await photograph(page, 1600, 1200);
  for (let n = 0; n < 2; n += 1) {
    const at = await frame();
    const before = await page.locator(".last-recorded img").count();
    await observation("with a photograph", async () => {
      await tap(button("One frame aft"));
      await mind();
      await tap(button("dull or hollow"));
      await last(`frame ${at + 1}: dull`);
      await wait(POINT_MS + PRESS_MS);
      await mind();
      await wait(POINT_MS + PRESS_MS);
      taps += 2;
      await page.getByLabel("Photograph").setInputFiles({ name: "seen.jpg", mimeType: "image/jpeg", buffer: bytes });
      await page.locator(".last-recorded img").first().waitFor();
    }, "dull or hollow");
  }
  const middle = (all) => { const sorted = [...all].sort((a, b) => a - b); const n = sorted.length; return n % 2 ? sorted[(n - 1) / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2; };
  console.log("| what | how many | taps | median, s | worst, s |\n| --- | --- | --- | --- | --- |");
  const row = (kind, all) => {
    const taps = all.map((one) => one.taps);
    const from = Math.min(...taps), to = Math.max(...taps);
    console.log(`| ${kind} | ${all.length} | ${from === to ? from : `${from} to ${to}`} | ${middle(all.map((one) => one.seconds)).toFixed(1)} | ${Math.max(...all.map((one) => one.seconds)).toFixed(1)} |`);
  };
  for (const kind of new Set(done.map((one) => one.kind))) row(kind, done.filter((one) => one.kind === kind));
  row("**all**", done);
  await context.close();
} finally {
  await browser.close();
  await stop(server);
  kept.gone();
}
