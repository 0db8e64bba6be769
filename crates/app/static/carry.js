// Makes and reads packages, and composes the report to be read, away from the page, which goes on answering meanwhile. Ended by the page when it has its answer,
// or when somebody stops it.
import start, { compose, pack, unpack } from "/app/__BUILD__/carrier.js";

// Told by the code at each piece of a file that it has read.
globalThis.carriedSoFar = (bytes) => postMessage({ far: bytes });

onmessage = async ({ data: { act, words } }) => {
  try {
    await start({ module_or_path: "/app/__BUILD__/carrier_bg.wasm" });
    postMessage({ done: { compose, pack, unpack }[act](...words) });
  } catch (fault) {
    postMessage({ fault: String(fault?.message ?? fault) });
  }
};
