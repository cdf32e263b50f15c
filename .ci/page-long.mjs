// Texts far longer than a story, and the worker that keeps the page free.

import assert from "node:assert/strict";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { after, before, beforeEach, test } from "node:test";
import { READERS, SHOTS, browser, lesson, open, paste, settled } from "./page.mjs";

let chromium;
let page;
before(async () => (chromium = await browser()));
after(() => chromium.close());
beforeEach(async () => {
  await page?.context().close();
  page = await open(chromium);
});

const text = (selector) => page.locator(selector).innerText();

/** A text of at least so many characters, of real sentences. */
function longText(size) {
  const story = readdirSync(READERS).sort().map((name) => readFileSync(join(READERS, name), "utf8").split("---\n").at(-1)).join("\n");
  return story.repeat(Math.ceil(size / story.length)).slice(0, size);
}

/** From now on, the longest time between two frames is kept. */
const watchFrames = () =>
  page.evaluate(() => {
    let last = performance.now();
    window.longest = 0;
    const tick = () => {
      const now = performance.now();
      window.longest = Math.max(window.longest, now - last);
      last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  });

const pasteLong = (size, story) =>
  page.evaluate(
    ([size, story]) => {
      const data = new DataTransfer();
      data.setData("text", story.repeat(Math.ceil(size / story.length)).slice(0, size));
      document.getElementById("text").dispatchEvent(Object.assign(new Event("paste", { bubbles: true, cancelable: true }), { clipboardData: data }));
    },
    [size, story],
  );

test("a text of 10 MB leaves the story as it was, is checked in slices, and can be stopped", async () => {
  await lesson(page, 20);
  await paste(page, "Tam sat at night.");
  await page.waitForTimeout(500);
  await watchFrames();
  await pasteLong(10_000_000, longText(50_000));
  assert.match(await text("#long"), /10,000,000 characters[\s\S]*has not been changed/);
  assert.equal(await page.inputValue("#text"), "Tam sat at night.");
  await page.click("#check-long");
  await page.waitForFunction(() => document.querySelector("#long progress")?.value > 0);
  await page.click("#stop-long");
  await page.waitForFunction(() => /as far as it was checked/.test(document.getElementById("long").textContent));
  const longest = await page.evaluate(() => window.longest);
  console.log(`10 MB pasted and checked: the longest frame took ${longest.toFixed(0)} ms`);
  // Far more than it takes on a quiet machine.
  assert.ok(longest < 1000, `${longest} ms`);
  await page.click("#leave-long");
  assert.equal(await page.inputValue("#text"), "Tam sat at night.");
  await paste(page, "Tam sat.");
  assert.match(await text("#figures"), /2 of 2 words/);
  assert.deepEqual(page.odd, []);
});

test("the slices of a long text add up to the whole", async () => {
  const story = longText(450_000);
  await lesson(page, 20);
  await pasteLong(story.length, story);
  await page.click("#check-long");
  await page.waitForFunction(() => /at lesson 20\./.test(document.getElementById("long-result").textContent), null, { timeout: 60_000 });
  const said = await text("#long-result");
  const whole = await page.evaluate(async (story) => {
    // Asked as one question, of a library of its own.
    const bytes = Uint8Array.from(atob(document.getElementById("engine").textContent), (letter) => letter.charCodeAt(0));
    const unpacked = new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip")));
    const { instance } = await WebAssembly.instantiate(await unpacked.arrayBuffer());
    const library = instance.exports;
    const question = new TextEncoder().encode(JSON.stringify({ ask: "mark", scope: { name: "starter" }, lesson: 19, text: story }));
    const at = library.room(question.length);
    new Uint8Array(library.memory.buffer, at, question.length).set(question);
    const size = library.ask();
    return JSON.parse(new TextDecoder().decode(new Uint8Array(library.memory.buffer, library.answer(), size))).counts;
  }, story);
  assert.ok(said.includes(`${whole.words.toLocaleString("en")} words`), `${said} ${JSON.stringify(whole)}`);
  assert.ok(said.includes(`${((100 * (whole.words - whole.untaught)) / whole.words).toFixed(1)} % readable`), said);
  await page.click("#open-beginning");
  await page.waitForTimeout(1500);
  const beginning = await page.inputValue("#text");
  assert.ok(beginning.length > 200_000 && beginning.length <= 400_000, `${beginning.length}`);
});

test("a large file is opened or refused without a frozen page", async () => {
  await paste(page, "Tam sat.");
  await watchFrames();
  const file = (name, size) => {
    const path = join(SHOTS, name);
    writeFileSync(path, longText(size));
    return path;
  };
  await page.setInputFiles("#open-story-file", file("long.txt", 10_000_000));
  await page.waitForFunction(() => document.getElementById("long").open, null, { timeout: 30_000 });
  assert.match(await text("#long"), /long\.txt has/);
  await page.keyboard.press("Escape");
  assert.equal(await page.inputValue("#text"), "Tam sat.");
  await page.setInputFiles("#open-story-file", file("longer.txt", 17_000_000));
  await settled(page);
  assert.match(await text("#said"), /longer\.txt is larger than 16 MB/);
  const longest = await page.evaluate(() => window.longest);
  console.log(`10 MB opened: the longest frame took ${longest.toFixed(0)} ms`);
  assert.ok(longest < 1500, `${longest} ms`);
});

test("the library works in a worker, and the policy allows no other one", async () => {
  if (!page.workers().length) await page.waitForEvent("worker");
  assert.equal(page.workers().length, 1);
  const refused = await page.evaluate(
    () =>
      new Promise((done) => {
        try {
          const other = new Worker("data:text/javascript,postMessage(1)");
          other.onerror = () => done("refused");
          other.onmessage = () => done("started");
        } catch {
          done("refused");
        }
      }),
  );
  assert.equal(refused, "refused");
});

test("the page works where there can be no worker", async () => {
  const context = await chromium.newContext({ offline: true });
  const other = await context.newPage();
  await other.addInitScript(() => {
    window.Worker = class {
      constructor() {
        throw new Error("no workers here");
      }
    };
  });
  await other.goto(pathToFileURL(process.env.PAGE).href);
  await other.waitForFunction(() => document.documentElement.dataset.ready === "yes");
  await lesson(other, 12);
  await paste(other, "Tam sat at night.");
  assert.deepEqual(await other.$$eval("#marks .u", (all) => all.map((one) => one.textContent)), ["night"]);
  await context.close();
});

test("50,000 pasted words are marked where they are seen, and the page stays free", async () => {
  const story = longText(270_000);
  await lesson(page, 20);
  await paste(page, "Tam sat at night.");
  await page.waitForTimeout(500);
  await watchFrames();
  await page.focus("#text");
  await page.keyboard.press("Control+a");
  const took = await page.evaluate(async (story) => {
    const start = performance.now();
    const data = new DataTransfer();
    data.setData("text", story);
    document.getElementById("text").dispatchEvent(Object.assign(new Event("paste", { bubbles: true, cancelable: true }), { clipboardData: data }));
    while (!document.querySelector("#marks .piece .u")) await new Promise((done) => requestAnimationFrame(done));
    return performance.now() - start;
  }, story);
  await settled(page);
  const longest = await page.evaluate(() => window.longest);
  console.log(`50,000 words pasted: marked after ${took.toFixed(0)} ms, the longest frame ${longest.toFixed(0)} ms`);
  // Far more than it takes on a quiet machine.
  assert.ok(took < 5000 && longest < 1000, `${took} ms, ${longest} ms`);
  assert.equal(await page.inputValue("#text"), story);
  assert.ok(await page.locator("#text").isHidden());
  assert.match(await text("#said"), /shown in Read mode/);
  const words = () => page.locator("#marks .w").count();
  const [of, untaught] = await page.evaluate(() => {
    const [readable, all] = document.getElementById("figures").textContent.match(/(\d+) of (\d+) words/).slice(1).map(Number);
    return [all, all - readable];
  });
  assert.ok(of > 50_000 && (await words()) < 5000, `${await words()} elements for ${of} words`);
  // A word at the end is made when it is seen, and can be selected.
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
  await page.locator("#marks .piece:last-child").scrollIntoViewIfNeeded();
  await page.waitForSelector("#marks .piece:last-child .u");
  const last = page.locator("#marks .piece:last-child .u").last();
  const word = await last.evaluate((one) => one.firstChild.textContent);
  await last.click();
  await settled(page);
  assert.equal(await text("#word h2 bdi"), word);
  assert.equal(await page.locator("#marks .c").evaluate((one) => one.firstChild.textContent), word);
  // The next untaught word after it is the first one, far away.
  await page.click("#next-untaught");
  await settled(page);
  assert.equal(await page.locator("#marks .c").count(), 1);
  assert.ok(await page.locator("#marks .piece:first-child .c").isVisible());
  // Paper has all marks, and the text is whole.
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.deepEqual([await words(), await page.locator("#marks .u").count()], [of, untaught]);
  const whole = await page.locator("#marks").evaluate((marks) => {
    for (const unseen of marks.querySelectorAll(".hidden")) unseen.remove();
    return marks.textContent.replaceAll("\u200b", "");
  });
  assert.equal(whole, story.replaceAll("\n", ""));
  // Write mode has the field over the marks, as for a short story; undoing the paste brings the short story back.
  await page.click("#write");
  await page.waitForFunction((lines) => document.getElementById("marks").childElementCount === lines, story.split("\n").length);
  const heights = await page.evaluate(() => ["marks", "text"].map((id) => document.getElementById(id).scrollHeight));
  assert.ok(Math.abs(heights[0] - heights[1]) <= 1, heights.join());
  await page.click("#undo");
  await settled(page);
  assert.equal(await page.inputValue("#text"), "Tam sat at night.");
  assert.deepEqual(await page.$$eval("#marks .u", (all) => all.map((one) => one.textContent)), ["night"]);
  assert.deepEqual(page.odd, []);
});

test("a paragraph of 20,000 words is shown in pieces, and a short story ends read mode", async () => {
  const story = longText(108_000).replaceAll("\n", " ");
  await pasteLong(story.length, story);
  await page.waitForSelector("#marks .piece .w");
  const pieces = await page.$$eval("#marks .piece", (all) => all.map((one) => one.textContent));
  assert.ok(pieces.length > 25 && pieces.slice(0, -1).every((one) => /[.!?]["”’)]*\s*$/.test(one)), pieces.map((one) => one.length).join());
  await page.click("#new-story");
  await settled(page);
  assert.equal(await page.getAttribute("#write", "aria-pressed"), "true");
  assert.equal(await page.evaluate(() => document.activeElement.id), "text");
  await page.keyboard.type("Tam sat.");
  await settled(page);
  assert.match(await text("#figures"), /2 of 2 words/);
  assert.equal(await page.locator("#marks .piece").count(), 0);
  assert.deepEqual(page.odd, []);
});
