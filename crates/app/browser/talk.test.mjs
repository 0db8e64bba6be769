// A talk-through read, reviewed and entered; blows judged live from a microphone that plays a file; and no microphone at all.
import assert from "node:assert/strict";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import AxeBuilder from "@axe-core/playwright";
import { DESK, PHONE, begin, browse, desk, reached, serve, stop, together, visit } from "./bench.mjs";

const pictures = process.env.PICTURES;
const WORDS = `WEBVTT

00:00.500 --> 00:03.000
Port side gar board is dull between frames eleven and thirteen.

00:04.000 --> 00:06.000
Knife goes in five eighths.

00:12.000 --> 00:14.000
Mind the bucket behind you.
`;

let server, kept, folder, browser;
before(async () => {
  kept = await desk(false);
  server = process.env.ADDRESS ? { address: process.env.ADDRESS } : await serve(kept.folder);
  folder = mkdtempSync(join(tmpdir(), "ribband-talk-"));
  browser = await browse();
});
after(async () => {
  await browser?.close();
  if (server?.child) await stop(server);
  kept?.gone();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

async function faultless(page, name) {
  if (pictures) {
    mkdirSync(pictures, { recursive: true });
    await page.screenshot({ path: join(pictures, `${name}.png`), fullPage: true });
  }
  const { violations } = await new AxeBuilder({ page }).analyze();
  const told = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html.slice(0, 160)).join(" | ")}`);
  assert.deepEqual(told, [], `axe on ${name}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `${name} is ${wide} px too wide`);
}

/** A decaying tone for a blow, 16-bit at 48 kHz: made here, so that the microphone's blows are known. */
function blows(file, tones, gapS = 0.6) {
  const rate = 48000;
  const samples = new Int16Array(Math.round(rate * (1.5 + tones.length * gapS)));
  for (let n = 0; n < samples.length; n++) samples[n] = Math.round((Math.random() - 0.5) * 20);
  tones.forEach(({ hz, decayS }, i) => {
    const from = Math.round(rate * (1 + i * gapS));
    for (let n = 0; n < rate * 0.3; n++) {
      const t = n / rate;
      const rise = Math.min(1, t / 0.0004);
      const tone = [1, 2.1, 3.4].reduce((sum, part, k) => sum + Math.sin(2 * Math.PI * hz * part * t) * Math.exp((-t / decayS) * (1 + k)) / (1 + k), 0);
      samples[from + n] = Math.max(-32768, Math.min(32767, samples[from + n] + Math.round(rise * tone * 12000)));
    }
  });
  const head = Buffer.alloc(44);
  head.write("RIFF", 0); head.writeUInt32LE(36 + samples.length * 2, 4); head.write("WAVEfmt ", 8);
  head.writeUInt32LE(16, 16); head.writeUInt16LE(1, 20); head.writeUInt16LE(1, 22);
  head.writeUInt32LE(rate, 24); head.writeUInt32LE(rate * 2, 28); head.writeUInt16LE(2, 32); head.writeUInt16LE(16, 34);
  head.write("data", 36); head.writeUInt32LE(samples.length * 2, 40);
  writeFileSync(file, Buffer.concat([head, Buffer.from(samples.buffer)]));
  return file;
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`a talk-through is read, played, mended, refused, accepted and found again: ${name}`, async () => {
    const { page, context, faults } = await visit(browser, server.address, viewport);
    const address = await begin(page, server.address, `Talk ${name}`);
    await page.goto(`${address}/walk`);
    await page.getByRole("link", { name: "Talk-through" }).click();
    const form = page.getByRole("form", { name: "Read a talk-through" });
    await form.waitFor();
    await faultless(page, `talk-begin-${name}`);

    await form.getByRole("button", { name: "Read it" }).click();
    await page.getByRole("alert").getByText("There are no words yet").waitFor();

    await form.getByLabel("The words, with their times").setInputFiles({ name: "walk.vtt", mimeType: "text/vtt", buffer: Buffer.from(WORDS) });
    await form.getByLabel("The sound, if there is any").setInputFiles(blows(join(folder, `${name}.wav`), Array(20).fill({ hz: 700, decayS: 0.03 })));
    await form.getByRole("button", { name: "Read it" }).click();
    const proposals = page.getByRole("list", { name: "Proposals" }).locator("> li");
    await proposals.first().waitFor();
    const first = proposals.first();
    assert.match(await first.innerText(), /Port side gar board is dull/);
    assert.match(await first.innerText(), /heard “gar board”, taken as “garboard”/);
    await page.getByText("Mind the bucket behind you.").waitFor();
    await faultless(page, `talk-review-${name}`);

    await first.getByRole("button", { name: /^Play from/ }).click();
    await page.waitForFunction(() => { const a = document.querySelector("audio"); return a.currentTime > 0.4 && !a.paused; });
    await page.waitForFunction(() => document.querySelector("audio").paused, null, { timeout: 15000 });
    const stopped = await page.evaluate(() => document.querySelector("audio").currentTime);
    assert.ok(stopped > 3 && stopped < 5, `stopped at ${stopped} s, after the words`);

    const before = await proposals.count();
    await first.getByRole("button", { name: "Accept" }).click();
    await first.getByText("Accepted, and entered as:").waitFor();
    const second = proposals.nth(1);
    await second.getByRole("button", { name: "Refuse" }).click();
    await second.getByText("Refused; nothing is entered.").waitFor();
    await faultless(page, `talk-decided-${name}`);

    await together(page);
    const said = await reached(server, address, (all) => all.some((e) => e.kind === "observation"));
    const seen = said.filter((e) => e.kind === "observation");
    assert.equal(seen.length, 1, "only what was accepted is entered");
    assert.equal(seen[0].payload.member, "garboard");
    const tied = said.find((e) => e.kind === "attachment" && e.payload.of === seen[0].id);
    assert.match(tied.payload.caption, /^Said from 0:00 to 0:03: Port side gar board/);

    await page.reload();
    await page.getByRole("button", { name: "Open walk.vtt, with its sound" }).click();
    await proposals.first().getByText("Accepted, and entered as:").waitFor();
    await proposals.nth(1).getByText("Refused; nothing is entered.").waitFor();
    assert.equal(await proposals.count(), before);
    await proposals.nth(1).getByRole("button", { name: "Take it up again" }).click();
    await proposals.nth(1).focus();
    await page.keyboard.press("c");
    await proposals.nth(1).getByRole("form").waitFor();
    await proposals.nth(1).getByRole("button", { name: "Leave it" }).click();
    await proposals.nth(1).focus();
    await page.keyboard.press("a");
    await proposals.nth(1).getByText("Accepted, and entered as:").waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });
}

test("typed words are read without times, all accepted at once and taken back at once", async () => {
  const { page, context, faults } = await visit(browser, server.address, DESK);
  const address = await begin(page, server.address, "Typed");
  await page.goto(`${address}/walk/talk-through`);
  await page.getByLabel("Or the words, typed or dictated").fill("Port garboard is dull at frame nine. Starboard sheer strake rings well at frame four.");
  await page.getByRole("button", { name: "Read it" }).click();
  await page.getByRole("button", { name: "Accept all 2 that are open" }).click();
  await page.getByText("2 accepted and recorded.").waitFor();
  assert.equal(await page.getByText("Accepted, and entered as:").count(), 2);
  assert.equal(await page.getByRole("button", { name: /^Play/ }).count(), 0, "nothing can be played");
  await page.getByRole("button", { name: "Accept all" }).waitFor({ state: "detached" });
  await page.keyboard.press("Control+z");
  await page.getByRole("button", { name: "Accept all 2 that are open" }).waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});

async function strikeRound(file, viewport, name) {
  const words = ["--no-sandbox", "--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream", `--use-file-for-fake-audio-capture=${file}%noloop`];
  const own = await browse({ args: words });
  const seen = await visit(own, server.address, viewport);
  return { own, ...seen };
}

for (const [name, viewport] of [["desk", DESK], ["phone", PHONE]]) {
  test(`blows from the microphone are taken as reference, then judged and kept with their recording: ${name}`, async () => {
    // Reference blows ring long; of the judged ones the last three die at once and are low.
    const ring = { hz: 800, decayS: 0.035 };
    const dead = { hz: 260, decayS: 0.004 };
    const file = blows(join(folder, `ref-${name}.wav`), Array(8).fill(ring));
    const { own, page, context, faults } = await strikeRound(file, viewport, name);
    try {
      const address = await begin(page, server.address, `Hammer ${name}`);
      await page.goto(`${address}/walk/hammer`);
      await page.getByLabel("Member", { exact: true }).selectOption("garboard");
      await page.getByText("too few to judge by").waitFor();
      await page.getByText("port", { exact: true }).click();
      await page.getByLabel("Frame, from the stem").fill("9");
      await page.getByRole("button", { name: "Take reference blows" }).click();
      await page.getByText("Listening: strike where").waitFor();
      await page.locator(".blow").nth(4).waitFor({ timeout: 30000 });
      await page.waitForTimeout(3000);
      await page.getByRole("button", { name: "Stop" }).click();
      const count = await page.locator(".blow").count();
      assert.ok(count >= 5 && count <= 8, `${count} of 8 blows were found`);
      await page.getByRole("button", { name: "Keep with its recording" }).click();
      await page.getByText(/Judged against \d+ clean reference blows on this member/).waitFor();

      // The same browser's microphone now plays other blows.
      blows(file, [ring, ring, ring, dead, dead, dead]);
      await page.getByRole("button", { name: "Judge blows" }).click();
      await page.locator(".blow").nth(3).waitFor({ timeout: 30000 });
      await page.waitForTimeout(3000);
      await page.getByRole("button", { name: "Stop" }).click();
      const glances = await page.locator(".glance").allInnerTexts();
      console.log(`${name}: ${glances.reverse().join(", ")}`);
      assert.ok(glances.includes("ring"), "the reference's own kind rings");
      assert.ok(glances.includes("dull"), "the dead ones are dull");
      assert.equal(glances[0], "ring");
      assert.equal(glances.at(-1), "dull");
      await faultless(page, `hammer-judged-${name}`);
      await page.getByRole("radio", { name: "dull or hollow" }).check({ force: true });
      await page.getByRole("button", { name: "Keep with its recording" }).click();
      await page.getByRole("heading", { name: "Along the member" }).waitFor();
      await faultless(page, `hammer-kept-${name}`);
      await together(page);
      const said = await reached(server, address, (all) => all.filter((e) => e.kind === "observation").length === 2);
      const [reference, judged] = said.filter((e) => e.kind === "observation");
      assert.equal(reference.payload.reading.answer, "rings");
      assert.equal(judged.payload.reading.answer, "dull_or_hollow");
      assert.match(judged.payload.note, /judged by the recording: \d+ ring, \d+ dull/i);
      const recordings = said.filter((e) => e.kind === "attachment");
      assert.deepEqual(recordings.map((e) => [e.payload.of, e.payload.media_type]), [[reference.id, "audio/wav"], [judged.id, "audio/wav"]]);

      // The references are heard again from their recording when the page is opened anew.
      await page.reload();
      await page.getByLabel("Member", { exact: true }).selectOption("garboard");
      await page.getByText(/Judged against \d+ clean reference blows on this member/).waitFor();
      assert.deepEqual(faults, []);
      await context.close();
    } finally {
      await own.close();
    }
  });
}

test("a microphone that is refused, and one that is not there, are told plainly", async () => {
  for (const [words, told] of [
    [["--no-sandbox", "--use-fake-device-for-media-stream"], /was not allowed the microphone/],
    [["--no-sandbox", "--use-fake-ui-for-media-stream"], /No microphone was found|cannot be used/],
  ]) {
    const own = await browse({ args: words });
    try {
      const { page, faults } = await visit(own, server.address, PHONE);
      const address = await begin(page, server.address, "No microphone");
      await page.goto(`${address}/walk/hammer`);
      await page.getByLabel("Member", { exact: true }).selectOption("garboard");
      await page.getByRole("button", { name: "Judge blows" }).click();
      await page.getByRole("alert").waitFor();
      const said = await page.getByRole("alert").innerText();
      console.log(said);
      assert.match(said, told);
      await faultless(page, "hammer-refused");
      assert.deepEqual(faults, []);
    } finally {
      await own.close();
    }
  }
});
