// What the tests share: a server with the invented boat, a browser, and a page that complains of every fault.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const root = join(dirname(fileURLToPath(import.meta.url)), "../../..");
const program = process.env.RIBBAND ?? join(root, "target/debug/ribband");

/** Widths at which everything is tried: a phone's and a desk's. */
export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1440, height: 900 };

/** Starts the server on a folder; resolves with its address once it says where it is. */
export function serve(folder, port = 0, words = ["serve", "--port", String(port)]) {
  const child = spawn(program, ["--folder", folder, ...words], { stdio: ["ignore", "pipe", "inherit"] });
  return new Promise((resolve, reject) => {
    let said = "";
    child.stdout.on("data", (bytes) => {
      said += bytes;
      const found = said.match(/http:\/\/[^/\s]+\//);
      if (found) resolve({ child, address: found[0].replace(/\/$/, "") });
    });
    child.on("exit", (code) => reject(new Error(`the server ended (${code}): ${said}`)));
  });
}

/** Stops a server and waits for its end. */
export async function stop({ child }) {
  if (child.exitCode !== null) return;
  const ended = new Promise((resolve) => child.once("exit", resolve));
  child.kill("SIGTERM");
  await ended;
}

/** Makes a folder of its own, with the invented boat in it when asked. */
export async function desk(withMarram = true) {
  const folder = mkdtempSync(join(tmpdir(), "ribband-"));
  if (withMarram) {
    await new Promise((resolve, reject) => {
      const child = spawn(program, ["demo", "--into", join(folder, "desk")], { stdio: ["ignore", "ignore", "inherit"] });
      child.on("exit", (code) => (code === 0 ? resolve() : reject(new Error(`demo ended with ${code}`))));
    });
  }
  return { folder: join(folder, "desk"), gone: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Starts a browser. */
export function browse(settings = {}) {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"], ...settings });
}

/** Opens a page of a new visitor; `faults` collects what went wrong in it and every request to another place. */
export async function visit(browser, address, viewport = DESK, settings = {}) {
  const context = await browser.newContext({ viewport, ...settings });
  return { context, ...(await page(context, address)) };
}

/** Opens another window of the same visitor. */
export async function page(context, address) {
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(`page: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" && !/Failed to load resource|ERR_/.test(message.text())) faults.push(`console: ${message.text()}`);
  });
  page.on("request", (request) => {
    const url = new URL(request.url());
    if (!["blob:", "data:"].includes(url.protocol) && url.origin !== new URL(address).origin) faults.push(`asked elsewhere: ${request.url()}`);
  });
  return { page, faults };
}

/** Says who writes, where the page asks. */
export async function sayWho(page, name = "A. Tester") {
  const asked = page.getByLabel("Who writes here? Your name goes with every entry.");
  if (await asked.count()) {
    await asked.fill(name);
    await page.getByRole("button", { name: "That is me" }).click();
    await asked.waitFor({ state: "detached" });
  }
}

/** Begins a survey and returns its address. */
export async function begin(page, address, boat = "Test Boat") {
  await page.goto(address);
  await page.getByRole("button", { name: "Begin a survey" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByLabel("Who writes here").fill("A. Tester");
  await dialog.getByText("pre-purchase", { exact: true }).click();
  await dialog.getByLabel(/^Name/).fill(boat);
  await dialog.getByText("carvel", { exact: true }).click();
  await dialog.getByLabel("Length over all").fill("12.4 m");
  await dialog.getByRole("button", { name: "Begin", exact: true }).click();
  await page.waitForURL(/\/survey\/[0-9a-f-]+\/brief/);
  return page.url().replace(/\/brief.*$/, "");
}

/** Waits until the server has entries that a condition holds of; returns what they say. */
export async function reached(server, address, holds, patienceMs = 20000) {
  const id = address.split("/").pop();
  for (const end = Date.now() + patienceMs; ; await new Promise((later) => setTimeout(later, 200))) {
    const { entries } = await (await fetch(`${server.address}/api/surveys/${id}/entries?after=0`)).json();
    const said = entries.map((line) => JSON.parse(line));
    if (holds(said)) return said;
    if (Date.now() > end) throw new Error(`the server has only ${said.map((entry) => entry.kind).join(", ")}`);
  }
}

/** Waits until everything written here has reached the server. */
export function together(page) {
  return page.locator(".standing.together").waitFor({ timeout: 20000 });
}

/** A photograph that the browser made: a JPEG of one colour and a stroke. */
export async function photograph(page, width = 640, height = 480) {
  const base64 = await page.evaluate(([width, height]) => {
    const canvas = document.createElement("canvas");
    Object.assign(canvas, { width, height });
    const pen = canvas.getContext("2d");
    pen.fillStyle = "#8a7a5a";
    pen.fillRect(0, 0, width, height);
    pen.fillStyle = "#3a2a1a";
    pen.fillRect(width / 4, height / 3, width / 2, height / 12);
    return canvas.toDataURL("image/jpeg", 0.9).split(",")[1];
  }, [width, height]);
  return Buffer.from(base64, "base64");
}
