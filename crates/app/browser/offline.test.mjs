// With no network: the page opens, and what is written is kept.
import assert from 'node:assert/strict';
import { after, before } from 'node:test';
import { Chromium, kept, lines, openProbe, standing, until } from './chromium.mjs';
import { CruelServer } from './cruel_server.mjs';
import { PROBE_DIR, built, trial } from './probe_dir.mjs';

const SURVEY = '01900000-0000-7000-8000-0000000000bb';
let server, browser;

before(async () => {
  if (!built) return;
  server = await new CruelServer(PROBE_DIR).up();
  browser = await new Chromium().start();
});
after(async () => {
  await browser?.end();
  await server?.down();
});

trial('the page opens from the worker with the network cut, on any address, and sends later', {}, async () => {
  const page = await browser.window(server.url, SURVEY);
  assert.equal(await page.evaluate(() => probe.keep_page()), 'Ready');
  await page.evaluate(() => here.start());
  await until(() => standing(page), (standing) => standing === 'Together');
  await browser.context.setOffline(true);
  await page.goto(`${server.url}some/place/deep`);
  await openProbe(page, SURVEY);
  await page.evaluate(() => here.start());
  await page.evaluate(() => here.write(3, 'under the boat'));
  await until(() => standing(page), (standing) => standing === 'Away { waiting: 3 }');
  await page.reload();
  await openProbe(page, SURVEY);
  assert.equal(await kept(page), '3/3');
  await page.evaluate(() => here.start());
  await browser.context.setOffline(false);
  await until(() => kept(page), (kept) => kept === '3/0', 15_000);
  assert.deepEqual(server.of(SURVEY).sort(), (await lines(page)).sort());
  await page.close();
});

trial('the worker never answers for the server', {}, async () => {
  const page = await browser.window(server.url, SURVEY);
  const before = server.requests.filter((request) => request === 'GET /api/surveys').length;
  const surveys = JSON.parse(await page.evaluate(() => probe.surveys()));
  assert.deepEqual(surveys, [{ survey: SURVEY }]);
  await page.evaluate(() => probe.surveys());
  const asked = server.requests.filter((request) => request === 'GET /api/surveys').length - before;
  assert.equal(asked, 2);
  const caches = await page.evaluate(async () => {
    const paths = [];
    for (const name of await caches.keys()) for (const request of await (await caches.open(name)).keys()) paths.push(new URL(request.url).pathname);
    return paths;
  });
  assert.ok(caches.includes('/'));
  assert.deepEqual(caches.filter((path) => path.startsWith('/api')), []);
  await page.close();
});

trial('a new version waits until it is asked for, and the old files go then', {}, async () => {
  const page = await browser.window(server.url, SURVEY);
  const names = () => page.evaluate(() => caches.keys());
  assert.deepEqual(await names(), ['ribband-page-test-build']);
  for (const [path, [kind, content]] of [...server.pages]) {
    const text = (content) => (kind === 'wasm' ? content : content.toString().replaceAll('test-build', 'next-build'));
    server.pages.set(path.replace('test-build', 'next-build'), [kind, text(content)]);
  }
  await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
  await until(names, (names) => names.length === 2);
  await until(() => page.evaluate(async () => !!(await navigator.serviceWorker.getRegistration()).waiting), Boolean);
  await page.reload();
  assert.ok((await page.content()).includes('/app/test-build/'), 'the old one is still used');
  await Promise.all([page.waitForEvent('load'), page.evaluate(() => { probe.take_new_version(); })]);
  await until(names, (names) => names.length === 1 && names[0] === 'ribband-page-next-build');
  assert.ok((await page.content()).includes('/app/next-build/'));
  await page.close();
});
