// A full disk is told, nothing acknowledged is lost by it, and work goes on when there is room again.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before } from 'node:test';
import { Chromium, kept, lines, until } from './chromium.mjs';
import { CruelServer } from './cruel_server.mjs';
import { PROBE_DIR, built, trial } from './probe_dir.mjs';

const SURVEY = '01900000-0000-7000-8000-0000000000cc';
const disk = mkdtempSync(join(tmpdir(), 'ribband-small-disk-'));
const browsers = [];
let server, page;

// A small disk can be made by root only, on Linux. Elsewhere these tests are skipped and say so.
const mounted = (() => {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=120m', 'tmpfs', disk], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();
const skip = mounted ? false : 'a small disk cannot be mounted here';

before(async () => {
  if (built && mounted) server = await new CruelServer(PROBE_DIR).up();
});
after(async () => {
  for (const browser of browsers) await browser.end();
  await server?.down();
  if (mounted) execFileSync('umount', ['-l', disk]);
  rmSync(disk, { recursive: true, force: true });
});

function begun(browser) {
  browsers.push(browser);
  return browser.start();
}

const numbers = async () => (await kept(page)).split('/').map(Number);
const picture = () => page.evaluate(() => here.attach(new Blob([crypto.getRandomValues(new Uint8Array(65_536)), new Uint8Array(3_000_000)]), true));
const write = (count) => page.evaluate((count) => here.write(count, 'x'.repeat(200)), count);

function fillUp() {
  const filler = join(disk, 'filler');
  const file = openSync(filler, 'w');
  assert.throws(() => {
    for (;;) writeSync(file, Buffer.alloc(65_536));
  }, { code: 'ENOSPC' });
  closeSync(file);
  return () => rmSync(filler);
}

async function writeUntilRefused(into) {
  for (let n = 0; n < 60; n += 1) into.push(...(await write(300)));
}

trial('photographs beyond what the browser allows are refused in one sentence', { skip }, async () => {
  const browser = await begun(new Chromium(disk).promise(server.url));
  page = await browser.window(server.url, SURVEY);
  let had = 0;
  const fill = async () => {
    for (; had < 80; had += 1) await picture();
  };
  await assert.rejects(fill, /this device has no more room/);
  assert.deepEqual(await numbers(), [had, had]);
  assert.ok(had > 5);
  await browser.end();
});

trial('a disk that fills up while writing loses nothing acknowledged, now or when the browser is started again', { skip }, async () => {
  const browser = await begun(new Chromium(disk).promise(server.url));
  page = await browser.window(server.url, SURVEY);
  const acknowledged = await write(3);
  for (let n = 0; n < 5; n += 1) await picture();
  const photographs = (await lines(page)).filter((line) => !acknowledged.includes(line));
  const free = fillUp();
  await assert.rejects(writeUntilRefused(acknowledged), /this device has no more room/);
  await assert.rejects(writeUntilRefused(acknowledged), /this device has no more room/);
  free();
  acknowledged.push(...(await write(1)), ...(await write(40)));
  const all = [...acknowledged, ...photographs].sort();
  assert.deepEqual((await lines(page)).sort(), all, 'what was refused left nothing');
  assert.deepEqual(await page.evaluate(() => here.chain_faults()), []);
  for (let again = 0; again < 2; again += 1) {
    await browser.kill();
    await browser.start();
    page = await browser.window(server.url, SURVEY);
    assert.deepEqual((await lines(page)).sort(), all, `started again, time ${again + 1}`);
    all.push(...(await write(2)));
    all.sort();
  }
  await browser.end();
});

trial('a browser that removes what it kept, having promised nothing, says so, and a window puts back what it holds', { skip }, async (t) => {
  const browser = await begun(new Chromium(disk));
  page = await browser.window(server.url, SURVEY);
  await write(3);
  for (let n = 0; n < 10; n += 1) await picture();
  const held = await lines(page);
  const free = fillUp();
  await assert.rejects(writeUntilRefused([]), /no more room|has removed all/);
  free();
  // It removes in its own time; what is asked meanwhile fails or goes well.
  const removed = await until(() => write(1).then(() => 'went well', (fault) => fault.message), (said) => said.includes('has removed all'), 10_000)
    .catch((fault) => fault.message);
  if (!removed.includes('has removed all')) return t.skip('the browser removed nothing, so there is nothing to put back');
  assert.equal(await kept(page), '0/0');
  assert.equal(await page.evaluate((held) => here.bring_in(held), held), held.length);
  await write(2);
  assert.deepEqual(await page.evaluate(() => here.chain_faults()), []);
  assert.equal((await lines(page)).length, held.length + 2);
  await browser.end();
});
