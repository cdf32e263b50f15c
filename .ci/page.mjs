// A browser with the page in it, for the tests beside this file.

import { execFileSync, spawn } from "node:child_process";
import { mkdirSync, readFileSync } from "node:fs";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";
import { chromium, firefox } from "playwright-core";

export const { UNTAUGHT, READERS, SHOTS, FILES } = process.env;

/** Documents with a story that the page opens. */
export const DOCUMENTS = ["kite.docx", "net.odt", "kite.epub"];
mkdirSync(SHOTS, { recursive: true });

const QUIET = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

/** The browser that is tried: `chromium`, or `firefox` for what is not special to one browser. */
export const BROWSER = process.env.BROWSER ?? "chromium";

/** A browser; to be closed. */
export function browser() {
  // Debian's Firefox, which is driven by the standard protocol and so needs no build of its own.
  if (BROWSER === "firefox") return firefox.launch({ channel: "moz-firefox", executablePath: "/usr/bin/firefox-esr" });
  return chromium.launch({ executablePath: "/usr/bin/chromium", args: QUIET });
}

/**
 * The page as a file, without a network. Network requests, console messages and dialogs are recorded.
 */
export async function open(browser, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, offline: true, acceptDownloads: true, ...options });
  return ready(await context.newPage(), pathToFileURL(process.env.PAGE).href);
}

/** The same page as the command serves it; `stop` ends it. */
export async function served(browser) {
  const child = spawn(UNTAUGHT, ["page", "--no-browser"], { stdio: ["ignore", "pipe", "ignore"] });
  const [address] = await new Promise((done) => createInterface(child.stdout).once("line", (line) => done([line])));
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await ready(await context.newPage(), address);
  return { page, address, stop: () => child.kill() };
}

async function ready(page, address) {
  page.odd = [];
  page.asked = [];
  page.on("pageerror", (error) => page.odd.push(`error: ${error.message}`));
  page.on("console", (message) => page.odd.push(`console: ${message.text()}`));
  page.on("dialog", (dialog) => {
    page.odd.push(`dialog: ${dialog.message()}`);
    void dialog.accept();
  });
  page.on("request", (request) => page.asked.push(request.url()));
  atRest(page);
  await page.goto(address);
  await page.waitForFunction(() => document.documentElement.dataset.ready === "yes");
  return page;
}

/** What a user does and then looks at the page: after each of these the page is given a moment to follow, as a user gives it. */
function atRest(page) {
  const after = (of, name) => {
    const act = of[name].bind(of);
    of[name] = async (...given) => {
      const made = await act(...given);
      // A page that was closed or left meanwhile has nothing to follow.
      if (!page.isClosed()) await page.evaluate(followed).catch(() => {});
      return made;
    };
  };
  for (const name of ["click", "check", "fill", "selectOption", "setInputFiles"]) after(page, name);
  after(page.keyboard, "press");
}

/** In the page: waits until no answer is awaited, a quarter of a second at most: what takes longer a test waits for itself. */
async function followed() {
  for (let left = 12; left > 0; left--) {
    await new Promise((done) => setTimeout(done, 20));
    if (!document.documentElement.hasAttribute("data-asking")) return;
  }
}

/** The file that a button saves. */
export async function downloaded(page, button) {
  if (BROWSER === "chromium") {
    const [download] = await Promise.all([page.waitForEvent("download"), page.click(button)]);
    return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
  }
  // Others do not tell of downloads: the page's own link is looked at.
  await page.evaluate(() => {
    const [make, click] = [URL.createObjectURL, HTMLAnchorElement.prototype.click];
    let blob;
    URL.createObjectURL = (made) => make.call(URL, (blob = made));
    HTMLAnchorElement.prototype.click = function () {
      [URL.createObjectURL, HTMLAnchorElement.prototype.click] = [make, click];
      window.saved = blob.text().then((text) => ({ name: this.download, text }));
    };
  });
  await page.click(button);
  await page.waitForFunction(() => window.saved);
  return page.evaluate(() => window.saved);
}

/** Puts a text in place of the story, as pasting does, and waits for its marks. */
export async function paste(page, text) {
  await page.fill("#text", text);
  await settled(page);
}

/**
 * Waits until the marks and the notes are those of what is on the page: until no answer is awaited for a while, by the page's own clock,
 * on which the notes come 60 ms after the marks and ask for the word once more.
 */
export async function settled(page) {
  await page.waitForTimeout(100);
  await page.evaluate(async () => {
    for (let quiet = 0; quiet < 5; quiet++) {
      await new Promise((done) => setTimeout(done, 20));
      if (document.documentElement.hasAttribute("data-asking")) quiet = -1;
    }
  });
}

/** Goes to the lesson with that number. */
export async function lesson(page, number) {
  await page.fill("#lesson", String(number - 1));
  await settled(page);
}

/** The words of the story with their statuses, as the page shows them. */
export async function statuses(page) {
  await page.click("#read");
  const words = await page.$$eval("#marks .w", (all) =>
    all.map((one) => {
      const word = one.firstChild.textContent;
      const has = (mark) => one.classList.contains(mark);
      return [word, has("u") ? "untaught" : has("s") ? "sight" : has("t") ? "story" : "decodable"];
    }),
  );
  await page.click("#write");
  return words;
}

/** What the command reports of a file. */
export function checked(file, lesson) {
  const args = ["check", "--format", "json", "--every-word", "--no-config", "--lesson", String(lesson), file];
  try {
    return JSON.parse(execFileSync(UNTAUGHT, args, { encoding: "utf8" })).texts[0];
  } catch (error) {
    // Exit code 1: some word is untaught.
    if (error.status !== 1) throw error;
    return JSON.parse(error.stdout).texts[0];
  }
}
