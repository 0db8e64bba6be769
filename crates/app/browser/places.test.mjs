// Every place at both widths, light and dark: found good by axe, within reach of the keyboard and of a thumb, and in need of
// nothing from elsewhere.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import AxeBuilder from "@axe-core/playwright";
import { DESK, PHONE, browse, desk, sayWho, serve, stop, visit } from "./bench.mjs";

const AxeFor = AxeBuilder.default ?? AxeBuilder;
const PLACES = ["brief", "hull", "walk", "walk/garboard", "walk/along", "bench", "bench/draws", "bench/leaving", "bench/findings", "bench/recommendations", "bench/reckoners", "bench/seam", "report"];

let browser, server, kept, survey;
before(async () => {
  kept = await desk(true);
  server = await serve(kept.folder);
  browser = await browse();
  const all = await (await fetch(`${server.address}/api/surveys`)).json();
  const first = (all.surveys ?? all)[0];
  survey = `/survey/${first.survey ?? first.id}`;
});
after(async () => {
  await browser?.close();
  if (server) await stop(server);
  kept?.gone();
});

async function settled(page) {
  await page.locator("main h1").first().waitFor({ state: "attached" });
  await page.waitForTimeout(400);
}

for (const [width, viewport] of [["phone", PHONE], ["desk", DESK]]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`axe finds no fault in any place: ${width}, ${colorScheme}`, async () => {
      const { page, context, faults } = await visit(browser, server.address, viewport, { colorScheme });
      for (const address of ["/", "/look", ...PLACES.map((place) => `${survey}/${place}`)]) {
        await page.goto(server.address + address);
        await settled(page);
        const { violations } = await new AxeFor({ page }).withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]).analyze();
        const told = violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3).map((n) => n.target.join(" ")).join(" | ")}`);
        assert.deepEqual(told, [], `${address}, ${width}, ${colorScheme}`);
      }
      assert.deepEqual(faults, []);
      await context.close();
    });
  }
}

for (const colorScheme of ["light", "dark"]) {
  // WCAG 2.2, success criterion 1.4.6 (contrast, enhanced): 7:1, large letters 4.5:1, as axe measures it.
  test(`the walk can be read in the sun: ${colorScheme}`, async () => {
    const { page, context } = await visit(browser, server.address, PHONE, { colorScheme });
    for (const place of ["walk", "walk/garboard", "walk/along", "walk/hammer", "walk/talk"]) {
      await page.goto(`${server.address}${survey}/${place}`);
      await settled(page);
      await sayWho(page);
      const { violations, passes } = await new AxeFor({ page }).options({ runOnly: ["color-contrast-enhanced"] }).analyze();
      const told = violations.flatMap((v) => v.nodes.map((n) => `${n.target.join(" ")}: ${n.any[0]?.message}`));
      assert.deepEqual(told, [], `${place}, ${colorScheme}`);
      assert.ok(passes.some((rule) => rule.nodes.length > 5), "letters were measured");
    }
    await context.close();
  });
}

test("what a thumb must hit is at least 48 px on the phone", async () => {
  const { page, context } = await visit(browser, server.address, PHONE, { hasTouch: true });
  await page.goto(server.address);
  await settled(page);
  for (const place of PLACES) {
    await page.goto(`${server.address}${survey}/${place}`);
    await settled(page);
    await sayWho(page);
    const small = await page.evaluate(() => {
      const wanted = "button, main a, nav a, .choice, .several-one, summary, select, input:not([type=radio]):not([type=checkbox]):not([type=file])";
      return [...document.querySelectorAll(wanted)]
        .filter((e) => e.offsetParent !== null && !e.closest("p, dd, td, figcaption, .sheet") && !e.classList.contains("skip"))
        .map((e) => [e, e.getBoundingClientRect()])
        .filter(([, r]) => r.width > 0 && r.height > 0 && r.height < 47.5)
        .map(([e, r]) => `${e.tagName} “${(e.innerText || e.getAttribute("aria-label") || e.id).slice(0, 30)}” ${Math.round(r.width)}×${Math.round(r.height)}`)
        .slice(0, 8);
    });
    assert.deepEqual(small, [], place);
  }
  await context.close();
});

test("the keyboard alone reaches every act, and where it is can be seen", async () => {
  const { page, context } = await visit(browser, server.address, DESK);
  await page.goto(`${server.address}${survey}/walk`);
  await settled(page);
  await sayWho(page);
  for (const place of ["brief", "hull", "walk/garboard", "bench/findings", "report"]) {
    await page.goto(`${server.address}${survey}/${place}`);
    await settled(page);
    // A group of choices is one stop; the arrows go on inside it.
    const wanted = await page.evaluate(() => {
      const groups = new Set();
      return [...document.querySelectorAll("a[href], button:not([disabled]), input, select, textarea, summary")]
        .filter((e) => e.tabIndex >= 0 && e.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true }))
        .filter((e) => {
          if (e.type !== "radio") return true;
          if (groups.has(e.name)) return false;
          groups.add(e.name);
          return true;
        }).length;
    });
    await page.evaluate(() => document.activeElement?.blur?.());
    const seen = new Set();
    const unseen = [];
    for (let n = 0; n < wanted + 25 && seen.size < wanted; n += 1) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(() => {
        const e = document.activeElement;
        if (!e || e === document.body) return null;
        if (!e.dataset.stop) e.dataset.stop = String(performance.now()) + Math.random();
        const own = [e, e.closest("label, .choice"), e.closest(".photos")?.querySelector("label")].filter(Boolean);
        const ring = own.some((x) => { const s = getComputedStyle(x); return s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 2; });
        return { stop: e.dataset.stop, ring, what: `${e.tagName} ${(e.innerText || e.id || "").slice(0, 30)}` };
      });
      if (!at) continue;
      seen.add(at.stop);
      if (!at.ring) unseen.push(at.what);
    }
    assert.ok(seen.size >= wanted * 0.98, `${place}: ${seen.size} of ${wanted} stops reached`);
    assert.deepEqual(unseen, [], `${place}: where the keyboard is can be seen`);
  }
  await context.close();
});

test("places, finding and taking back work by keys", async () => {
  const { page, context } = await visit(browser, server.address, DESK);
  await page.goto(`${server.address}${survey}/brief`);
  await settled(page);
  await page.keyboard.press("Alt+4");
  await page.waitForURL(/\/bench/);
  await page.keyboard.press("Control+k");
  await page.keyboard.type("garboard");
  await page.getByRole("option").first().waitFor();
  await page.keyboard.press("ArrowDown");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/walk\/garboard/);
  await context.close();
});

test("reduced motion stills everything; forced colours keep what is chosen visible", async () => {
  const { page, context } = await visit(browser, server.address, DESK, { reducedMotion: "reduce", forcedColors: "active" });
  await page.goto(`${server.address}/look`);
  await settled(page);
  assert.equal(await page.locator(".progress").evaluate((e) => getComputedStyle(e, "::after").animationName), "none");
  const outline = await page.locator(".choice.chosen").evaluate((e) => getComputedStyle(e).outlineStyle);
  assert.equal(outline, "solid");
  await context.close();
});

test("the policy forbids script and style in line and anything from elsewhere, and the page keeps to it", async () => {
  const { page, context, faults } = await visit(browser, server.address, DESK);
  const response = await page.goto(`${server.address}${survey}/hull`);
  const policy = response.headers()["content-security-policy"];
  assert.match(policy, /default-src 'none'/);
  assert.match(policy, /script-src 'self' 'wasm-unsafe-eval'(;|$)/);
  assert.match(policy, /style-src 'self'(;|$)/);
  assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|\*|https?:/);
  await settled(page);
  await page.evaluate(() => { const s = document.createElement("script"); s.textContent = "window.struck = 1"; document.body.append(s); });
  assert.equal(await page.evaluate(() => window.struck), undefined, "a script in line does not run");
  const html = await (await fetch(server.address)).text();
  assert.doesNotMatch(html, /<script(?![^>]*src=)|<style|\sstyle=|\son[a-z]+=/);
  assert.deepEqual(faults.filter((fault) => fault.startsWith("asked elsewhere")), []);
  await context.close();
});
