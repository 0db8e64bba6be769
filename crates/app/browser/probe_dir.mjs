// The probe: the app's keep and exchange as functions for a page (folder `probe`), built for WebAssembly and bound for
// the browser. Tests that need it are skipped, and say so, where it has not been built.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const target = process.env.CARGO_TARGET_DIR ?? fileURLToPath(new URL('../../../target', import.meta.url));
export const PROBE_DIR = process.env.PROBE_DIR ?? join(target, 'probe-bound');
export const built = existsSync(join(PROBE_DIR, 'probe_bg.wasm'));

export function trial(name, { skip = false } = {}, body) {
  test(name, { skip: built ? skip : `the probe is not built in ${PROBE_DIR}` }, body);
}
