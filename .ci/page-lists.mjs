// The lists for the lesson, accessibility, and timing.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { createRequire } from "node:module";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, beforeEach, test } from "node:test";
import { BROWSER, READERS, SHOTS, UNTAUGHT, browser, lesson, open, paste, settled } from "./page.mjs";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

let chromium;
let page;
before(async () => (chromium = await browser()));
after(() => chromium.close());
beforeEach(async () => {
  await page?.context().close();
  page = await open(chromium);
});

const text = (selector) => page.locator(selector).innerText();
const list = async (name) => {
  await page.click(`#list-${name}`);
  await settled(page);
};

test("the lists are those of the command", async () => {
  await lesson(page, 15);
  await page.click("#show-lists");
  await settled(page);
  const command = (...args) => JSON.parse(execFileSync(UNTAUGHT, [...args, "--format", "json"], { encoding: "utf8" }));
  const shown = await page.$$eval("#list .bank li", (all) => all.map((one) => one.textContent).sort());
  const words = command("words", "--lesson", "15", "--limit", "200").words.map((one) => one.word).sort();
  assert.deepEqual(shown, words);
  await list("chain");
  const rungs = await page.$$eval("#list .rung", (all) => all.map((one) => one.textContent));
  assert.deepEqual(rungs, command("chain", "--lesson", "15", "--steps", "8", "--seed", "1").chain.words);
  await list("pack");
  const pack = command("pack", "--lesson", "15", "--seed", "1");
  const sheet = await text("#list");
  for (const word of [...pack.sight_new, ...pack.dictation.new, ...pack.dictation.sentences, ...pack.chain.words]) assert.ok(sheet.includes(word), word);
  assert.deepEqual(page.odd, []);
});

test("the options of a list change it, and a list that cannot be made says why", async () => {
  await lesson(page, 15);
  await page.click("#show-lists");
  await settled(page);
  await page.fill("#ask-shape", "CVC");
  await page.fill("#ask-focus", "ch");
  await settled(page);
  const words = await page.$$eval("#list .bank li", (all) => all.map((one) => one.textContent));
  assert.ok(words.length > 3 && words.every((word) => word.includes("ch")), words.join());
  await page.fill("#ask-focus", "zzq");
  await settled(page);
  assert.match(await text("#list"), /zzq/);
  await list("chain");
  await page.fill("#ask-from", "ship");
  await page.fill("#ask-to", "chop");
  await settled(page);
  const rungs = await page.$$eval("#list .rung", (all) => all.map((one) => one.textContent));
  assert.deepEqual([rungs[0], rungs.at(-1)], ["ship", "chop"]);
  await list("boxes");
  await page.fill("#ask-text", "box cake");
  await settled(page);
  assert.equal(await page.locator("#list svg").count(), 2);
  assert.match(await text("#list"), /x spells two sounds/);
  await list("contrast");
  const first = await text("#list");
  await page.click("#again");
  await settled(page);
  assert.notEqual(await text("#list"), first);
  await lesson(page, 1);
  await list("chain");
  assert.match(await text("#list .why"), /[a-z]+.*\./);
});

test("the whole lesson is printed with its story", async () => {
  await page.click("#example");
  await settled(page);
  await page.click("#show-lists");
  await list("pack");
  await page.pdf({ path: join(SHOTS, "lesson.pdf") });
  const printed = execFileSync("pdftotext", ["-layout", join(SHOTS, "lesson.pdf"), "-"], { encoding: "utf8" });
  for (const part of ["Lesson 15: sh and ch", "Listening list", "Sound boxes", "Word chain", "Dictation", "The lamp on the ship", "Pre-teach: Finn"]) assert.ok(printed.includes(part), `${part} in ${printed}`);
  assert.ok(!printed.includes("New selection"));
});

// The checker gets into the page through the debugger of Chromium.
test("accessibility: no violation of WCAG 2.2 AA in any view", { skip: BROWSER !== "chromium" && "only Chromium lets the checker in" }, async () => {
  const look = async (what) => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const found = await page.evaluate((tags) => globalThis.axe.run(document, { runOnly: tags }), tags);
    const said = found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" ")}`);
    assert.deepEqual(said, [], what);
    assert.ok(found.passes.length > 10, what);
    await page.screenshot({ path: join(SHOTS, `${what}.png`), fullPage: true });
  };
  // The page's policy lets nothing else run in it: the checker is injected through the debugger.
  const door = await page.context().newCDPSession(page);
  await door.send("Runtime.evaluate", { expression: axe });
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    for (const width of [1280, 390]) {
      await page.setViewportSize({ width, height: 900 });
      const name = (view) => `${view}-${colorScheme}-${width}`;
      await page.click("#show-story");
      await paste(page, "");
      await look(name("empty"));
      await page.click("#example");
      await settled(page);
      await page.click('#notes button:has-text("night")');
      await settled(page);
      await look(name("story"));
      await page.click("#read");
      await look(name("read"));
      await page.click("#write");
      await page.click("#show-lists");
      for (const one of ["words", "boxes", "chain", "contrast", "dictation", "pack"]) {
        await list(one);
        await look(name(one));
      }
      await page.click("#show-scope");
      await settled(page);
      if (await page.locator("#close-draft").count()) await page.click("#close-draft");
      await look(name("scope-begin"));
      await page.click("#begin-copy");
      await page.waitForTimeout(400);
      const unfold = async (row) => width < 800 && (await page.click(`#row-${row} .row-open`));
      await unfold(1);
      await page.click("#row-1 .more summary");
      await unfold(0);
      await page.fill("#draft-0-teach", "s, a, shh, t");
      await page.click("#row-0 button:has-text('Pick')");
      await page.fill("#pick-search", "bread");
      await page.waitForTimeout(400);
      await look(name("scope"));
    }
  }
});

test("the keyboard goes through the page in the order in which it is read", async () => {
  await page.click("#example");
  await settled(page);
  await page.evaluate(() => document.activeElement.blur());
  const order = [];
  for (let n = 0; n < 240; n++) {
    await page.keyboard.press("Tab");
    const id = await page.evaluate(() => document.activeElement.id || document.activeElement.className);
    if (id) order.push(id);
  }
  const wanted = ["skip", "show-story", "show-lists", "show-scope", "scope", "own-scope", "earlier", "lesson", "later", "title", "next-untaught", "write", "read", "text", "open-story", "save-story"];
  const found = order.filter((id) => wanted.includes(id));
  assert.deepEqual([...new Set(found)].sort((a, b) => wanted.indexOf(a) - wanted.indexOf(b)), wanted);
  assert.ok(order.includes("plain"), "the untaught words can be reached");
});

test("how long it takes (reported, not tested)", async () => {
  const opened = await page.evaluate(() => performance.now());
  assert.ok(opened > 0);
  const story = readdirSync(READERS).sort().map((name) => readFileSync(join(READERS, name), "utf8").split("---\n").at(-1)).join("\n");
  const words = story.split(/\s+/).filter(Boolean);
  for (const size of [500, 5000]) {
    const many = Array.from({ length: size }, (_, at) => words[at % words.length] + (at % 90 === 89 ? "\n" : "")).join(" ");
    await lesson(page, 25);
    await paste(page, many);
    const times = await page.evaluate(async () => {
      const area = document.getElementById("text");
      const marks = document.getElementById("marks");
      const middle = area.value.indexOf(" ", area.value.length / 2);
      const before = area.value;
      const times = [];
      for (let n = 1; n <= 40; n++) {
        area.value = `${before.slice(0, middle)} night${"s".repeat(n)}${before.slice(middle)}`;
        const start = performance.now();
        const drawn = new Promise((done) => new MutationObserver((_, watch) => (watch.disconnect(), done())).observe(marks, { childList: true }));
        area.dispatchEvent(new Event("input", { bubbles: true }));
        await drawn;
        // With the layout that the marks need.
        void marks.offsetHeight;
        times.push(performance.now() - start);
        await new Promise((done) => setTimeout(done, 20));
      }
      return times.sort((a, b) => a - b);
    });
    assert.equal(times.length, 40);
    console.log(`${size} words: a keystroke to its marks, median ${times[20].toFixed(1)} ms, longest ${times[39].toFixed(1)} ms`);
  }
  const starts = [];
  for (let n = 0; n < 5; n++) {
    await page.goto("about:blank");
    const fresh = await open(chromium);
    starts.push(await fresh.evaluate(() => performance.getEntriesByName("ready")[0].startTime));
    await fresh.context().close();
  }
  starts.sort((a, b) => a - b);
  console.log(`opened to ready: median ${starts[2].toFixed(0)} ms, longest ${starts[4].toFixed(0)} ms`);
});
