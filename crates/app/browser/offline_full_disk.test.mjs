// A full disk is told, nothing acknowledged is lost by it, and work goes on when there is room again.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { Chromium, kept, lines } from './chromium.mjs';
import { CruelServer } from './cruel_server.mjs';

const SURVEY = '01900000-0000-7000-8000-0000000000cc';
const disk = mkdtempSync(join(tmpdir(), 'ribband-small-disk-'));
let server, browser, page;

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
  if (!mounted) return;
  server = await new CruelServer(process.env.PROBE_DIR).up();
  browser = await new Chromium(disk).start();
  page = await browser.window(server.url, SURVEY);
});
after(async () => {
  await browser?.end();
  await server?.down();
  if (mounted) execFileSync('umount', ['-l', disk]);
  rmSync(disk, { recursive: true, force: true });
});

const numbers = async () => (await kept(page)).split('/').map(Number);

test('photographs beyond what the browser allows are refused in one sentence', { skip }, async () => {
  let had = 0;
  const fill = async () => {
    for (; had < 80; had += 1) {
      await page.evaluate(() => here.attach(new Blob([crypto.getRandomValues(new Uint8Array(65_536)), new Uint8Array(3_000_000)]), true));
    }
  };
  await assert.rejects(fill, /this device has no more room/);
  assert.deepEqual(await numbers(), [had, had]);
  assert.ok(had > 5);
});

test('a disk that fills up while writing loses nothing acknowledged, and writing goes on when there is room', { skip }, async () => {
  const before = await lines(page);
  const filler = join(disk, 'filler');
  const file = openSync(filler, 'w');
  try {
    for (;;) writeSync(file, Buffer.alloc(65_536));
  } catch (fault) {
    assert.equal(fault.code, 'ENOSPC');
  }
  closeSync(file);
  const acknowledged = [];
  const more = async () => {
    for (let n = 0; n < 40; n += 1) acknowledged.push(...(await page.evaluate(() => here.write(300, 'x'.repeat(200)))));
  };
  await assert.rejects(more, /this device has no more room/);
  rmSync(filler);
  acknowledged.push(...(await page.evaluate(() => here.write(1, 'room again'))));
  const there = new Set(await lines(page));
  assert.deepEqual([...before, ...acknowledged].filter((line) => !there.has(line)), []);
  assert.equal(there.size, before.length + acknowledged.length, 'what was refused left nothing');
  assert.deepEqual(await page.evaluate(() => here.chain_faults()), []);
});
