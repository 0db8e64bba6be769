// A browser of its own for a test, that can be killed as a telephone is when its battery runs out.
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const PROGRAM = process.env.CHROMIUM ?? '/usr/bin/chromium';

export class Chromium {
  constructor(folder = tmpdir()) { this.profile = mkdtempSync(join(folder, 'ribband-browser-')); }

  // Lets pages of a server have what they keep kept for good, as when a person installs the page. Before starting. (What
  // the tools grant while it runs, it says it has promised, and does not hold to it.)
  promise(url) {
    mkdirSync(join(this.profile, 'Default'), { recursive: true });
    const durable_storage = { [`${new URL(url).origin},*`]: { last_modified: '0', setting: 1 } };
    const preferences = { profile: { content_settings: { exceptions: { durable_storage } } } };
    writeFileSync(join(this.profile, 'Default', 'Preferences'), JSON.stringify(preferences));
    return this;
  }

  async start() {
    const words = ['--headless=new', '--no-sandbox', '--disable-gpu', '--no-first-run', '--remote-debugging-port=0', `--user-data-dir=${this.profile}`, 'about:blank'];
    this.process = spawn(PROGRAM, words, { detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
    const where = await new Promise((found, failed) => {
      let said = '';
      this.process.stderr.on('data', (data) => {
        said += data;
        const line = /DevTools listening on (ws:\S+)/.exec(said);
        if (line) found(line[1]);
      });
      this.process.on('exit', () => failed(new Error(`the browser ended: ${said}`)));
    });
    this.browser = await chromium.connectOverCDP(where);
    this.context = this.browser.contexts()[0];
    return this;
  }

  // A window on a page of the server, with the probe opened for a survey.
  async window(url, survey) {
    const page = await this.context.newPage();
    page.on('pageerror', (fault) => console.error('page:', fault.message));
    await page.goto(url);
    await openProbe(page, survey);
    return page;
  }

  // Ends all its processes at once, with no chance to write anything.
  async kill() {
    const ended = new Promise((done) => this.process.once('exit', done));
    process.kill(-this.process.pid, 'SIGKILL');
    await ended;
    await this.browser.close().catch(() => {});
  }

  async end() {
    if (this.process.exitCode === null && this.process.signalCode === null) await this.kill();
    rmSync(this.profile, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

export async function openProbe(page, survey) {
  await page.waitForFunction(() => window.probe);
  await page.evaluate(async (survey) => { window.here = await probe.Probe.open(survey); }, survey);
}

// Waits until a question asked again and again has the wanted answer; says the last one when it has not.
export async function until(ask, wanted, patienceMs = 30_000) {
  const end = Date.now() + patienceMs;
  let answer;
  do {
    answer = await ask();
    if (wanted(answer)) return answer;
    await new Promise((done) => setTimeout(done, 50));
  } while (Date.now() < end);
  throw new Error(`not within ${patienceMs} ms; last: ${JSON.stringify(answer)}`);
}

export const standing = (page) => page.evaluate(() => here.standings().at(-1));
export const kept = (page) => page.evaluate(() => here.kept());
export const lines = (page) => page.evaluate(() => here.lines());
