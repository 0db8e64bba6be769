// An acknowledged entry survives the sudden end of the browser.
import assert from 'node:assert/strict';
import { appendFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { after, before } from 'node:test';
import { Chromium, kept, lines } from './chromium.mjs';
import { CruelServer } from './cruel_server.mjs';
import { PROBE_DIR, built, trial } from './probe_dir.mjs';

const SURVEY = '01900000-0000-7000-8000-0000000000aa';
let server, browser;

before(async () => {
  if (!built) return;
  server = await new CruelServer(PROBE_DIR).up();
  browser = new Chromium();
});
after(async () => {
  await browser?.end();
  await server?.down();
});

trial('a browser killed right after an acknowledgement has all that was acknowledged, ten times over', {}, async () => {
  const acknowledged = [];
  for (let time = 0; time < 10; time += 1) {
    await browser.start();
    const page = await browser.window(server.url, SURVEY);
    const there = new Set(await lines(page));
    assert.deepEqual(acknowledged.filter((line) => !there.has(line)), [], `after kill ${time}`);
    assert.deepEqual(await page.evaluate(() => here.chain_faults()), []);
    acknowledged.push(...(await page.evaluate((time) => here.write(5, `time ${time}`), time)));
    // Another write is under way, unacknowledged: it is there whole or not at all.
    page.evaluate((time) => here.write(50, `torn ${time}`), time).catch(() => {});
    await browser.kill();
  }
  await browser.start();
  const page = await browser.window(server.url, SURVEY);
  const all = await lines(page);
  const there = new Set(all);
  assert.deepEqual(acknowledged.filter((line) => !there.has(line)), []);
  assert.equal((all.length - acknowledged.length) % 50, 0, 'a write is whole or not at all');
  assert.equal(await kept(page), `${all.length}/${all.length}`, 'all of it still waits to be sent');
  assert.equal(new Set(all.map((line) => JSON.parse(line).device)).size, 1, 'the device kept its name');
  assert.deepEqual(await page.evaluate(() => here.chain_faults()), []);
});

trial('half a record in the database file, left by the end of power, costs nothing at the starts that follow', {}, async () => {
  const page = await browser.window(server.url, SURVEY);
  const all = await lines(page);
  await browser.kill();
  // The form of LevelDB's log: checksum, length, type, then the record; here 800 bytes are said and 100 are there.
  const folder = join(browser.profile, 'Default', 'IndexedDB', `http_localhost_${server.port}.indexeddb.leveldb`);
  const log = readdirSync(folder).filter((name) => name.endsWith('.log')).sort().at(-1);
  const torn = Buffer.alloc(107, 0x55);
  torn.writeUInt16LE(800, 4);
  torn.writeUInt8(1, 6);
  appendFileSync(join(folder, log), torn);
  for (let time = 0; time < 3; time += 1) {
    await browser.start();
    const page = await browser.window(server.url, SURVEY);
    assert.deepEqual((await lines(page)).sort(), all.sort(), `start ${time + 1}`);
    all.push(...(await page.evaluate(() => here.write(2, 'after'))));
    await page.waitForTimeout(2000); // Opening sets the file in order in the background.
    await browser.kill();
  }
});
