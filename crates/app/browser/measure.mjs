// Measures what a surveyor waits for, with the browser's own clock and its processor slowed four times:
//
//     node crates/app/browser/measure.mjs
//
// after `cargo run -p xtask -- app` and a build of ribband. A survey of 5,000 entries is made up for it. Prints a table; it
// judges nothing, so that a busy machine fails no test.
import { createHash, randomBytes } from "node:crypto";
import { brotliCompressSync } from "node:zlib";
import { DESK, PHONE, begin, browse, desk, sayWho, serve, stop, together, visit } from "./bench.mjs";

const ENTRIES = 5000;

function uuid7(ms) {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(ms, 0, 6);
  bytes[6] = 0x70 | (bytes[6] & 0x0f);
  bytes[8] = 0x80 | (bytes[8] & 0x3f);
  const hex = bytes.toString("hex");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

function madeUp(survey) {
  const lines = [];
  let prev = null;
  const start = Date.UTC(2026, 5, 3, 9);
  const write = (kind, payload) => {
    const ms = start + lines.length * 4000;
    const line = JSON.stringify({ format: 1, id: uuid7(ms), survey, author: "Invented", device: "made up", time: { ms, n: 0 }, prev, kind, payload });
    prev = createHash("sha256").update(line).digest("hex");
    lines.push(line);
  };
  write("brief", { purpose: "pre-purchase", client: "Invented client", value_asked: false });
  write("vessel", { name: "Measure", construction: "carvel", length_mm: 13200, beam_mm: 3600, draft_mm: 1900, counts: { strakes: 14 } });
  write("hull_form", { strakes: 14, frames: 40, frame_spacing_mm: 300 });
  const members = ["garboard", "topside-plank", "bilge-plank", "bottom-plank", "stem", "keel", "seam", "frame-steamed"];
  const answers = ["rings", "dull_or_hollow", "chatters"];
  while (lines.length < ENTRIES) {
    const n = lines.length;
    const place = { side: n % 2 ? "port" : "starboard", strake: 1 + (n % 14), frame_from: 1 + (n % 40) };
    const reading = n % 3 ? { method: "sound", answer: answers[n % 7 ? 0 : 1 + (n % 2)] } : { method: "probe", knife: "firm", moves_under_pry: n % 5 === 0 };
    write("observation", { member: members[n % members.length], place, reading, note: n % 4 ? "" : "As the planks beside it." });
  }
  return lines;
}

const kept = await desk(false);
const server = await serve(kept.folder);
const browser = await browse();
const rows = [];
// Told as they come, so that a run broken off has told something.
const told = rows.push.bind(rows);
rows.push = (row) => {
  console.log(`| ${row[0]} | ${row[1]} |`);
  return told(row);
};
try {
  const html = await (await fetch(server.address)).text();
  const build = html.match(/\/app\/([0-9a-f]+)\//)[1];
  const { files } = await (await fetch(`${server.address}/app/${build}/files.json`)).json();
  let travels = 0;
  for (const file of files) {
    const answer = await fetch(server.address + file, { headers: { "accept-encoding": "br" } });
    const bytes = Buffer.from(await answer.arrayBuffer());
    travels += /woff2$/.test(file) ? bytes.length : brotliCompressSync(bytes).length;
  }
  rows.push(["whole app as it travels (brotli)", `${(travels / 1e6).toFixed(3)} MB`]);

  const survey = uuid7(Date.now());
  const lines = madeUp(survey);
  for (let n = 0; n < lines.length; n += 500) {
    const answer = await fetch(`${server.address}/api/surveys/${survey}/entries`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ entries: lines.slice(n, n + 500) }),
    });
    if (!answer.ok) throw new Error(await answer.text());
  }
  const { page, context } = await visit(browser, server.address, PHONE);
  const slow = await context.newCDPSession(page);
  const address = `${server.address}/survey/${survey}`;
  await page.goto(server.address);
  await page.goto(`${address}/hull`);
  await page.locator(".drawing-board svg").waitFor();
  await sayWho(page, "Measured");
  await together(page);
  // A fixed sum, so that figures of different days and machines can be set beside one another.
  const sum = () => page.evaluate(() => {
    const begun = performance.now();
    let x = 1;
    for (let n = 0; n < 5e7; n += 1) x = (Math.imul(x, 1103515245) + 12345) & 0x7fffffff;
    return x ? performance.now() - begun : 0;
  });
  await sum();
  rows.push(["the machine: fifty million steps of a fixed sum, as it is", `${(await sum()).toFixed(0)} ms`]);
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 4 });

  const paints = [];
  const usable = [];
  for (let n = 0; n < 5; n += 1) {
    const begun = Date.now();
    await page.goto(`${address}/hull`);
    await page.locator(".drawing-board svg").waitFor();
    usable.push(Date.now() - begun);
    paints.push(await page.evaluate(() => performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? NaN));
  }
  const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
  rows.push(["first paint of the survey, 4× slowed, 5,000 entries", `${middle(paints).toFixed(0)} ms`]);
  rows.push(["her drawing shown, 4× slowed, 5,000 entries", `${middle(usable).toFixed(0)} ms`]);

  // From a tap until the next frame that shows its effect.
  const effect = async (what, act, done) => {
    const times = [];
    for (let n = 0; n < 7; n += 1) {
      // Watched from within the page, so that the watching costs nothing of its own.
      await page.evaluate(`window.is = ${done}`);
      await page.evaluate((n) => {
        window.done = new Promise((resolve) => {
          document.addEventListener("click", (event) => {
            const look = () => (window.is(n) ? requestAnimationFrame(() => resolve(performance.now() - event.timeStamp)) : requestAnimationFrame(look));
            look();
          }, { capture: true, once: true });
        });
      }, n);
      await act(n);
      times.push(await page.evaluate(() => window.done));
    }
    rows.push([`${what}, 4× slowed, 5,000 entries`, `${middle(times).toFixed(0)} ms (worst ${Math.max(...times).toFixed(0)} ms)`]);
  };
  // From a tap on a place until its name stands over the page and is painted.
  await page.goto(`${address}/brief`);
  await page.locator("h1", { hasText: "Brief" }).waitFor({ state: "attached" });
  for (const place of ["Walk", "Bench", "Brief", "Hull", "Report"]) {
    const times = [];
    for (let n = 0; n < 3; n += 1) {
      await page.evaluate((place) => {
        window.done = new Promise((resolve) => document.addEventListener("click", (event) => {
          const look = () => (document.querySelector("h1.place-name")?.textContent === place ? requestAnimationFrame(() => resolve(performance.now() - event.timeStamp)) : requestAnimationFrame(look));
          look();
        }, { capture: true, once: true }));
      }, place);
      await page.getByRole("navigation", { name: "Places" }).getByRole("link", { name: place, exact: true }).click();
      times.push(await page.evaluate(() => window.done));
      await page.waitForTimeout(2500);
      await page.getByRole("navigation", { name: "Places" }).getByRole("link", { name: "Brief", exact: true }).click();
      await page.waitForTimeout(1500);
    }
    rows.push([`${place} chosen to its place shown, 4× slowed, 5,000 entries`, `${middle(times).toFixed(0)} ms (worst ${Math.max(...times).toFixed(0)} ms)`]);
  }
  // The place's name comes first; what it holds, in a turn of its own.
  const drawn = [];
  for (let n = 0; n < 3; n += 1) {
    await page.evaluate(() => {
      window.done = new Promise((resolve) => document.addEventListener("click", (event) => {
        const look = () => (document.querySelector(".drawing-board svg") ? requestAnimationFrame(() => resolve(performance.now() - event.timeStamp)) : requestAnimationFrame(look));
        look();
      }, { capture: true, once: true }));
    });
    await page.getByRole("navigation", { name: "Places" }).getByRole("link", { name: "Hull", exact: true }).click();
    drawn.push(await page.evaluate(() => window.done));
    await page.getByRole("navigation", { name: "Places" }).getByRole("link", { name: "Brief", exact: true }).click();
    await page.waitForTimeout(1500);
  }
  rows.push(["Hull chosen to her drawing shown, 4× slowed, 5,000 entries", `${middle(drawn).toFixed(0)} ms (worst ${Math.max(...drawn).toFixed(0)} ms)`]);
  await page.goto(`${address}/walk/garboard`);
  const form = page.getByRole("form", { name: "Record an observation" });
  await form.waitFor();
  await effect("a method chosen to its reading asked", async (n) => form.getByText(n % 2 ? "probe" : "sound", { exact: true }).click(),
    (n) => document.querySelector(n % 2 ? "[id$='-reading-knife']" : "[id$='-reading-answer']"));
  // From the tap on Record until the entry is in the list: checked, kept on the disk, folded and shown.
  const recorded = [];
  const stored = [];
  await page.evaluate(() => {
    const begin = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, options) {
      const begun = begin.call(this, stores, mode, options);
      if (mode === "readwrite" && [...begun.objectStoreNames].includes("entries")) begun.addEventListener("complete", () => { window.storedAt ??= performance.now(); });
      return begun;
    };
  });
  for (let n = 0; n < 7; n += 1) {
    await form.getByText("sight", { exact: true }).click();
    await form.getByLabel("Note, in your words").fill(`measured ${n}`);
    await page.evaluate((n) => {
      window.done = new Promise((resolve) => {
        document.addEventListener("click", (event) => {
          const begun = event.timeStamp;
          window.begun = begun;
          window.storedAt = undefined;
          const look = () => {
            const first = document.querySelector(".record .record-line");
            if (first?.textContent.includes(`measured ${n}`)) resolve(performance.now() - begun);
            else requestAnimationFrame(look);
          };
          look();
        }, { capture: true, once: true });
      });
    }, n);
    await form.getByRole("button", { name: "Record", exact: true }).click();
    recorded.push(await page.evaluate(() => window.done));
    stored.push(await page.evaluate(() => window.storedAt - window.begun));
  }
  rows.push(["Record tapped to entry on the disk, 4× slowed, 5,000 entries", `${middle(stored).toFixed(0)} ms (worst ${Math.max(...stored).toFixed(0)} ms)`]);
  rows.push(["Record tapped to entry kept and shown, 4× slowed, 5,000 entries", `${middle(recorded).toFixed(0)} ms (worst ${Math.max(...recorded).toFixed(0)} ms)`]);
  // A seam forecast of a year in hourly steps with its band: from the figure typed until the answer is in the page.
  const YEAR = "month,temp_c,rh_percent\n1,3,88\n2,4,86\n3,6,80\n4,9,75\n5,12,73\n6,15,74\n7,17,75\n8,17,77\n9,14,81\n10,11,85\n11,7,88\n12,4,89\n";
  await page.goto(`${address}/bench/seam`);
  await page.getByRole("button", { name: "Fill in the example" }).click();
  await page.locator(".answer .figures").waitFor();
  for (const [flag, value] of [["temp-c", ""], ["rh-percent", ""], ["weather", YEAR]]) await page.locator(`#flag-seam-${flag}`).fill(value);
  for (const [rate, said] of [[1, "as it is"], [4, "4× slowed"]]) {
    await slow.send("Emulation.setCPUThrottlingRate", { rate });
    const times = [];
    for (let n = 0; n < 7; n += 1) {
      times.push(await page.evaluate((days) => new Promise((resolve) => {
        const field = document.querySelector("#flag-seam-days");
        const answer = document.querySelector(".answer");
        const begun = performance.now();
        new MutationObserver((_, seen) => { seen.disconnect(); resolve(performance.now() - begun); }).observe(answer, { childList: true, subtree: true, characterData: true });
        field.value = String(days);
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }), 360 + n));
    }
    if (!(await page.locator(".answer .figures").count())) throw new Error(await page.locator(".answer").innerText());
    rows.push([`seam forecast of a year, ${said}`, `${middle(times).toFixed(0)} ms (worst ${Math.max(...times).toFixed(0)} ms)`]);
  }
  // From a table of offsets to a drawn expansion of 14 strakes and 40 frames.
  await page.goto(`${address}/bench/expansion`);
  await page.getByRole("button", { name: "Fill in the example" }).click();
  await page.locator(".answer .figures").waitFor();
  await page.locator("#flag-expansion-strakes").fill("14");
  for (const [rate, said] of [[1, "as it is"], [4, "4× slowed"]]) {
    await slow.send("Emulation.setCPUThrottlingRate", { rate });
    const times = [];
    for (let n = 0; n < 7; n += 1) {
      times.push(await page.evaluate((frames) => new Promise((resolve) => {
        const field = document.querySelector("#flag-expansion-frames");
        const answer = document.querySelector(".answer");
        const begun = performance.now();
        new MutationObserver((_, seen) => { seen.disconnect(); resolve(performance.now() - begun); }).observe(answer, { childList: true, subtree: true, characterData: true });
        field.value = String(frames);
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }), 38 + n + rate));
    }
    if (!(await page.locator(".answer svg").count())) throw new Error(await page.locator(".answer").innerText());
    rows.push([`offsets to a drawn expansion of 14 strakes and 40 frames, ${said}`, `${middle(times).toFixed(0)} ms (worst ${Math.max(...times).toFixed(0)} ms)`]);
  }
  // Panning an enlarged sheet with all its marks, by the browser's own trace of the frames it drew.
  await slow.send("Emulation.setCPUThrottlingRate", { rate: 1 });
  await page.setViewportSize(DESK);
  await page.goto(`${address}/hull`);
  await page.getByRole("button", { name: "Both sides" }).click();
  await page.locator(".drawing-board svg").waitFor();
  const marks = await page.locator(".drawing-board [data-entry]").count();
  for (let n = 0; n < 3; n += 1) await page.getByRole("button", { name: "Enlarge" }).click();
  const board = await page.locator(".drawing-board").boundingBox();
  const [x, y] = [board.x + board.width / 2, board.y + board.height / 2];
  const events = [];
  slow.on("Tracing.dataCollected", (part) => events.push(...part.value));
  await page.mouse.move(x, y);
  await page.mouse.down();
  await slow.send("Tracing.start", { traceConfig: { includedCategories: ["disabled-by-default-devtools.timeline.frame", "devtools.timeline.frame"] }, transferMode: "ReportEvents" });
  const began = Date.now();
  for (let n = 0; Date.now() - began < 3000; n += 1) {
    await page.mouse.move(x + 150 * Math.sin(n / 20), y + 60 * Math.cos(n / 27));
    await new Promise((resolve) => setTimeout(resolve, 4));
  }
  const seconds = (Date.now() - began) / 1000;
  const ended = new Promise((resolve) => slow.once("Tracing.tracingComplete", resolve));
  await slow.send("Tracing.end");
  await ended;
  await page.mouse.up();
  const shown = events.filter((event) => event.name === "DrawFrame").length;
  rows.push([`panning both sides with ${marks} marks`, `${(shown / seconds).toFixed(0)} frames a second`]);
  // All places with readings weighed: from the shelf chosen until the balance is drawn.
  for (const [rate, said] of [[1, "as it is"], [4, "4× slowed"]]) {
    await slow.send("Emulation.setCPUThrottlingRate", { rate });
    await page.goto(`${address}/bench/findings`);
    const shelf = page.getByRole("link", { name: "Weighing", exact: true });
    await shelf.waitFor();
    await page.evaluate(() => {
      window.done = new Promise((resolve) => document.addEventListener("click", (event) => {
        let shown = null;
        const look = () => {
          if (document.querySelector(".beforehand")) shown ??= performance.now() - event.timeStamp;
          if (document.querySelector(".shares li")) resolve([shown, performance.now() - event.timeStamp]);
          else requestAnimationFrame(look);
        };
        look();
      }, { capture: true, once: true }));
    });
    await shelf.click();
    const [opened, took] = await page.evaluate(() => window.done);
    rows.push([`the weighing chosen to its shelf shown, ${said}`, `${opened.toFixed(0)} ms`]);
    rows.push([`every place of ${ENTRIES} entries weighed and shown, ${said}`, `${took.toFixed(0)} ms`]);
  }
  await context.close();
} finally {
  await browser.close();
  await stop(server);
  kept.gone();
}
