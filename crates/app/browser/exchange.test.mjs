// The exchange of two browsers with a server that is at times gone, forgetful or unwilling.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import { Chromium, kept, lines, standing, until } from './chromium.mjs';
import { CruelServer } from './cruel_server.mjs';
import { PROBE_DIR, built, trial } from './probe_dir.mjs';


let server, one, other, drawn = 0;
const survey = () => `01900000-0000-7000-8000-${String(++drawn).padStart(12, '0')}`;
const start = (page) => page.evaluate(() => here.start());
const write = (page, count, about) => page.evaluate(([count, about]) => here.write(count, about), [count, about]);
const together = (page) => until(() => standing(page), (standing) => standing === 'Together');
const sorted = (list) => [...list].sort();

before(async () => {
  if (!built) return;
  server = await new CruelServer(PROBE_DIR).up();
  [one, other] = await Promise.all([new Chromium().start(), new Chromium().start()]);
});
after(async () => {
  await Promise.all([one?.end(), other?.end()]);
  await server?.down();
});

trial('two browsers hear from each other within two seconds', {}, async () => {
  const of = survey();
  const [a, b] = [await one.window(server.url, of), await other.window(server.url, of)];
  await Promise.all([start(a), start(b)]);
  await Promise.all([together(a), together(b)]);
  await write(a, 3, 'from a');
  await until(() => b.evaluate(() => here.fetched()), (count) => count === 3, 2000);
  await write(b, 2, 'from b');
  await until(() => kept(a), (kept) => kept === '5/0', 2000);
  assert.deepEqual(sorted(await lines(a)), sorted(await lines(b)));
  assert.deepEqual(sorted(server.of(of)), sorted(await lines(a)));
  await Promise.all([a.close(), b.close()]);
});

trial('two windows of one browser write 200 entries each at once, one exchanges, and the chain is whole', {}, async () => {
  const of = survey();
  const [a, b] = [await one.window(server.url, of), await one.window(server.url, of)];
  await Promise.all([start(a), start(b)]);
  await together(a);
  const many = (page, about) => page.evaluate(async (about) => {
    for (let n = 0; n < 200; n += 1) await here.write(1, `${about} ${n}`);
  }, about);
  const began = Date.now();
  await Promise.all([many(a, 'a'), many(b, 'b')]);
  console.log(`400 durable writes in two windows: ${Date.now() - began} ms`);
  await until(() => kept(a), (kept) => kept === '400/0');
  assert.equal(await kept(b), '400/0');
  assert.deepEqual(await a.evaluate(() => here.chain_faults()), []);
  const devices = new Set((await lines(a)).map((line) => JSON.parse(line).device));
  assert.equal(devices.size, 1);
  const firsts = (await lines(a)).filter((line) => JSON.parse(line).prev === null);
  assert.equal(firsts.length, 1, 'one beginning: with 400 entries and no fault, one run');
  assert.deepEqual(sorted(server.of(of)), sorted(await lines(a)));
  assert.ok(await b.evaluate(() => here.heard()) >= 200, 'the other window was told');
  // Only one listens: the one that leads.
  assert.equal([...server.listeners].filter((listener) => listener.survey === of).length, 1);
  await together(b);
  // The leader goes; the other takes over.
  await a.close();
  await write(b, 1, 'after');
  await until(() => server.of(of).length, (count) => count === 401);
  await b.close();
});

trial('what is written while the server is gone is kept and sent when it is back', {}, async () => {
  const of = survey();
  const a = await one.window(server.url, of);
  await start(a);
  await together(a);
  await write(a, 2, 'before');
  await until(() => kept(a), (kept) => kept === '2/0');
  await server.down();
  await until(() => standing(a), (standing) => standing?.startsWith('Away'));
  await write(a, 7, 'meanwhile');
  await until(() => standing(a), (standing) => standing === 'Away { waiting: 7 }');
  assert.equal(await kept(a), '9/7');
  await server.up();
  await until(() => kept(a), (kept) => kept === '9/0');
  await together(a);
  assert.deepEqual(sorted(server.of(of)), sorted(await lines(a)));
  await a.close();
});

trial('an answer that is lost after the server has the entries makes no second copy', {}, async () => {
  const of = survey();
  const a = await one.window(server.url, of);
  let lost = 0;
  server.loseAnswers = (request) => request.method === 'POST' && lost++ < 2;
  await write(a, 5, 'once');
  await start(a);
  await until(() => kept(a), (kept) => kept === '5/0');
  server.loseAnswers = () => false;
  assert.ok(lost >= 1);
  assert.equal(server.of(of).length, 5);
  await a.close();
});

trial('a server put back to an older copy gets back what it lost, of this browser and of others', {}, async () => {
  const of = survey();
  const [a, b] = [await one.window(server.url, of), await other.window(server.url, of)];
  await Promise.all([start(a), start(b)]);
  await together(a);
  const before = server.log.length;
  await write(a, 4, 'a');
  await write(b, 4, 'b');
  await until(() => Promise.all([kept(a), kept(b)]), ([a, b]) => a === '8/0' && b === '8/0');
  await b.close(); // What b wrote is now only with a.
  server.putBack(before + 1);
  await a.evaluate(() => here.nudge());
  await until(() => server.of(of).length, (count) => count === 8);
  await until(() => kept(a), (kept) => kept === '8/0');
  assert.deepEqual(sorted(server.of(of)), sorted(await lines(a)));
  await a.close();
});

trial('a loss that does not show at the end of the record is found by the daily comparison', {}, async () => {
  const of = survey();
  const [a, b] = [await one.window(server.url, of), await other.window(server.url, of)];
  const [foreign] = await write(b, 1, 'from b');
  await start(a);
  await write(a, 3, 'a');
  await until(() => kept(a), (kept) => kept === '3/0');
  await together(a);
  await a.evaluate(() => here.stop());
  // The middle one is lost, and another has its place, so that the last is where it was.
  const place = server.log.findIndex((kept) => kept.survey === of) + 1;
  server.log.splice(place, 1);
  server.take(of, [foreign]);
  server.log.splice(place, 0, server.log.pop());
  const age = (ms) => a.evaluate(async ([of, ms]) => {
    const database = await new Promise((done) => { const open = indexedDB.open('ribband'); open.onsuccess = () => done(open.result); });
    const transaction = database.transaction('settings', 'readwrite');
    transaction.objectStore('settings').put(String(Date.now() - ms), `compared ${of}`);
    await new Promise((done) => { transaction.oncomplete = done; });
    database.close();
  }, [of, ms]);
  await age(3_600_000);
  await a.evaluate(() => here.start());
  await until(() => a.evaluate(() => here.standings().filter((standing) => standing === 'Together').length), (count) => count >= 2);
  assert.equal(await kept(a), '3/0', 'within the day it is not noticed');
  await a.evaluate(() => here.stop());
  await age(2 * 86_400_000);
  await a.evaluate(() => here.start());
  await until(() => kept(a), (kept) => kept === '4/0');
  await until(() => server.of(of).length, (count) => count === 4);
  assert.deepEqual(sorted(server.of(of)), sorted(await lines(a)));
  await Promise.all([a.close(), b.close()]);
});

trial('an attachment goes before its entry, comes out the same, and is kept', {}, async () => {
  const of = survey();
  const [a, b] = [await one.window(server.url, of), await other.window(server.url, of)];
  const began = server.requests.length;
  const sha256 = await a.evaluate(async () => {
    const bytes = new Uint8Array(3_000_000).map((_, n) => (n * 7919) % 251);
    return here.attach(new Blob([bytes], { type: 'image/jpeg' }), true);
  });
  await start(a);
  await together(a);
  const seen = server.requests.slice(began).filter((request) => /^(HEAD|PUT|POST)/.test(request));
  assert.deepEqual(seen, [`HEAD /api/attachments/${sha256}`, `PUT /api/attachments/${sha256}`, `POST /api/surveys/${of}/entries`]);
  await start(b);
  await together(b);
  const got = await b.evaluate(async (sha256) => {
    const before = await here.has(sha256);
    const blob = await here.attachment(sha256);
    const bytes = new Uint8Array(await blob.arrayBuffer());
    return [before, await here.has(sha256), bytes.length, bytes.every((byte, n) => byte === (n * 7919) % 251)];
  }, sha256);
  assert.deepEqual(got, [false, true, 3_000_000, true]);
  // A server that hands out something else is found out.
  const bad = 'ab'.repeat(32);
  server.attachments.set(bad, Buffer.from('something else'));
  await assert.rejects(b.evaluate((sha256) => here.attachment(sha256), bad), /altered or damaged/);
  await Promise.all([a.close(), b.close()]);
});

trial('an entry whose attachment was not kept first is not written', {}, async () => {
  const a = await one.window(server.url, survey());
  await assert.rejects(a.evaluate(() => here.attach(new Blob(['x']), false)), /keep the file first/);
  assert.equal(await kept(a), '0/0');
  await a.close();
});

trial('what the server refuses is held back and told, and the rest goes', {}, async () => {
  const of = survey();
  const a = await one.window(server.url, of);
  await write(a, 40, 'fine');
  await write(a, 1, 'monstrous');
  await write(a, 40, 'fine again');
  server.refuse = (line) => line.includes('monstrous') && 'it is monstrous.';
  server.refuseAttachment = (bytes) => bytes.length > 10 && 'It is too great.';
  await a.evaluate(() => here.attach(new Blob(['more than ten bytes']), true));
  await start(a);
  await until(() => standing(a), (standing) => standing?.startsWith('Refused'));
  assert.equal(server.of(of).length, 80);
  assert.equal(await kept(a), '82/2');
  await assert.rejects(a.evaluate(() => here.forget()), /2 entries .* have not been sent/);
  [server.refuse, server.refuseAttachment] = [() => null, () => null];
  // A window opened anew tries anew.
  await a.evaluate(() => { here.stop(); here.start(); });
  await until(() => kept(a), (kept) => kept === '82/0');
  await a.evaluate(() => here.stop());
  await a.evaluate(() => here.forget());
  assert.equal(await kept(a), '0/0');
  await a.close();
});

trial('5,000 entries come and are read in reasonable time, and a package brings in only what is new', {}, async () => {
  const of = survey();
  const a = await one.window(server.url, of);
  const begun = Date.now();
  for (let n = 0; n < 10; n += 1) await write(a, 500, `batch ${n}`);
  const written = Date.now();
  await start(a);
  await until(() => kept(a), (kept) => kept === '5000/0', 120_000);
  const sent = Date.now();
  const b = await other.window(server.url, of);
  const fetching = Date.now();
  await start(b);
  await until(() => kept(b), (kept) => kept === '5000/0', 120_000);
  const fetched = Date.now();
  const read = await b.evaluate(async () => {
    const began = performance.now();
    const lines = await here.lines();
    return [lines.length, Math.round(performance.now() - began)];
  });
  console.log(`5,000 entries: written ${written - begun} ms, sent ${sent - written} ms, fetched ${fetched - fetching} ms, read ${read[1]} ms`);
  assert.equal(read[0], 5000);
  assert.equal(await b.evaluate(() => here.count_after(4990)), 10);
  const all = await lines(a);
  assert.equal(await b.evaluate((all) => here.bring_in(all), all.slice(0, 50)), 0);
  await Promise.all([a.close(), b.close()]);
});
