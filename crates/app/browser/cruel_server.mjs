// A server for the tests that does what a real one does with entries and attachments, and can be cruel: be gone, lose
// answers, refuse, or be put back to an older copy of its store. The real server has tests of its own.
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';

const BATCH = 2000;
const BUILD = 'test-build';
const STATIC = new URL('../static/', import.meta.url).pathname;
const KINDS = { js: 'text/javascript', wasm: 'application/wasm', html: 'text/html', json: 'application/json' };

const PAGE = `<!doctype html><meta charset="utf-8"><title>Probe</title><p id="open">opening</p>
<script type="module">
import init, * as probe from '/app/${BUILD}/probe.js';
await init({ module_or_path: '/app/${BUILD}/probe_bg.wasm' });
window.probe = probe;
document.getElementById('open').textContent = 'open';
</script>`;

export class CruelServer {
  constructor(probeDir) {
    this.pages = new Map([['/', ['html', PAGE]]]);
    for (const name of readdirSync(probeDir)) {
      if (/\.(js|wasm)$/.test(name)) this.pages.set(`/app/${BUILD}/${name}`, [name.split('.').pop(), readFileSync(join(probeDir, name))]);
    }
    const files = [...this.pages.keys()];
    this.pages.set(`/app/${BUILD}/files.json`, ['json', JSON.stringify({ build: BUILD, files })]);
    const worker = readFileSync(join(STATIC, 'service-worker.js'), 'utf8').replaceAll('__BUILD__', BUILD);
    this.pages.set('/service-worker.js', ['js', worker]);
    this.log = []; // { survey, line, hash }; an entry's position is its index + 1
    this.attachments = new Map();
    this.requests = []; // 'METHOD path' of what reached it
    this.listeners = new Set();
    this.sockets = new Set();
    this.loseAnswers = () => false; // (request) => whether it is done and the answer lost
    this.refuse = () => null; // (line) => why not
    this.refuseAttachment = () => null; // (bytes) => why not
  }

  async up(port = 0) {
    this.http = createServer((request, response) => this.answer(request, response).catch(() => response.destroy()));
    this.http.on('connection', (socket) => {
      this.sockets.add(socket);
      socket.on('close', () => this.sockets.delete(socket));
    });
    await new Promise((done, failed) => this.http.once('error', failed).listen(this.port ?? port, '127.0.0.1', done));
    this.port = this.http.address().port;
    this.url = `http://localhost:${this.port}/`;
    return this;
  }

  async down() {
    this.listeners.clear();
    const closed = new Promise((done) => this.http.close(done));
    for (const socket of this.sockets) socket.destroy();
    await closed;
  }

  // Puts the store back to when it had so many entries.
  putBack(count) { this.log.length = Math.min(count, this.log.length); }

  of(survey) { return this.log.filter((kept) => kept.survey === survey).map((kept) => kept.line); }

  take(survey, lines) {
    let fresh = 0;
    for (const line of lines) {
      const hash = createHash('sha256').update(line).digest('hex');
      if (this.log.some((kept) => kept.survey === survey && kept.hash === hash)) continue;
      this.log.push({ survey, line, hash });
      fresh += 1;
    }
    if (fresh) for (const listener of this.listeners) this.tell(listener);
    return fresh;
  }

  last(survey) { return this.log.findLastIndex((kept) => kept.survey === survey) + 1; }

  tell({ response, survey }) { response.write(`event: cursor\ndata: ${this.last(survey)}\n\n`); }

  async answer(request, response) {
    const url = new URL(request.url, this.url);
    this.requests.push(`${request.method} ${url.pathname}`);
    const page = this.pages.get(url.pathname);
    if (page) return void response.writeHead(200, { 'content-type': KINDS[page[0]], 'cache-control': 'no-store' }).end(page[1]);
    const parts = [];
    for await (const part of request) parts.push(part);
    const body = Buffer.concat(parts);
    const [, api, what, name, more] = url.pathname.split('/');
    const say = (status, value, kind = 'application/json') => {
      if (this.loseAnswers(request)) return void request.socket.destroy();
      response.writeHead(status, { 'content-type': kind }).end(typeof value === 'string' || Buffer.isBuffer(value) ? value : JSON.stringify(value));
    };
    const problem = (status, detail) => say(status, { type: 'about:blank', status, detail });
    if (api !== 'api') return problem(404, 'There is nothing at this address.');
    if (what === 'surveys' && !name) return say(200, [...new Set(this.log.map((kept) => kept.survey))].map((survey) => ({ survey })));
    if (what === 'surveys' && more === 'live') {
      response.writeHead(200, { 'content-type': 'text/event-stream' });
      const listener = { response, survey: name };
      this.listeners.add(listener);
      response.on('close', () => this.listeners.delete(listener));
      return this.tell(listener);
    }
    if (what === 'surveys' && more === 'entries' && request.method === 'GET') {
      const after = Number(url.searchParams.get('after') ?? 0);
      const found = this.log.map((kept, index) => ({ ...kept, position: index + 1 })).filter((kept) => kept.position > after && kept.survey === name);
      const batch = found.slice(0, BATCH);
      return say(200, { cursor: batch.at(-1)?.position ?? after, more: batch.length === BATCH, entries: batch.map((kept) => kept.line) });
    }
    if (what === 'surveys' && more === 'entries') {
      const { entries } = JSON.parse(body);
      const refused = entries.map((line, n) => this.refuse(line) && `Entry ${n + 1}: ${this.refuse(line)}`).find(Boolean);
      if (refused) return problem(422, refused);
      const fresh = this.take(name, entries);
      return say(200, { new: fresh, known: entries.length - fresh, clashes: [] });
    }
    if (what === 'attachments' && request.method === 'PUT') {
      const refused = this.refuseAttachment(body);
      if (refused) return problem(413, refused);
      if (createHash('sha256').update(body).digest('hex') !== name) return problem(422, 'The bytes are others.');
      this.attachments.set(name, body);
      return say(201, '');
    }
    if (what === 'attachments') {
      const bytes = this.attachments.get(name);
      return bytes ? say(200, bytes, 'application/octet-stream') : problem(404, 'There is no such attachment.');
    }
    return problem(404, 'There is nothing at this address.');
  }
}
