// A scope of one's own, written on the page.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, beforeEach, test } from "node:test";
import { SHOTS, UNTAUGHT, browser, downloaded, lesson, open, paste, settled } from "./page.mjs";

let chromium;
let page;
before(async () => (chromium = await browser()));
after(() => chromium.close());
beforeEach(async () => {
  await page?.context().close();
  page = await open(chromium);
});

const text = (selector) => page.locator(selector).innerText();
const untaught = () => page.$$eval("#marks .u", (all) => all.map((one) => one.textContent));
/** Longer than typing waits for its faults. */
const checked = () => page.waitForTimeout(500);

async function beginWithNothing() {
  await page.click("#show-scope");
  await page.click("#begin-nothing");
  await settled(page);
}

/** The scope file that the page saves. */
const saved = () => downloaded(page, "#save-draft");

async function reloaded() {
  await page.reload();
  await page.waitForFunction(() => document.documentElement.dataset.ready === "yes");
  await settled(page);
}

test("a scope is typed, used for the story, and saved as the command reads it", async () => {
  await paste(page, "Tam sat at night.");
  await beginWithNothing();
  await page.fill("#draft-title", "Our year");
  await page.fill("#draft-0-teach", "s a t m n");
  await page.click("#add-lesson");
  assert.equal(await page.evaluate(() => document.activeElement.id), "draft-1-teach");
  await page.keyboard.type("igh");
  await page.fill("#draft-1-title", "Night words");
  await page.fill("#draft-1-sight", "the said");
  await page.click("#row-1 .more summary");
  await page.check("#skill-1-final-blends");
  await checked();
  assert.match(await text("#scope-standing"), /2 lessons; no mistakes found/);
  await page.click("#use-draft");
  await settled(page);
  assert.match(await text("#scope option:checked"), /^Our year/);
  const file = await saved();
  assert.equal(file.name, "our-year.yaml");
  const path = join(SHOTS, "our-year.yaml");
  writeFileSync(path, file.text);
  const command = execFileSync(UNTAUGHT, ["check", "--format", "json", "--exit-zero", "--no-config", "--scope", path, "--lesson", "1", "-"], { encoding: "utf8", input: "Tam sat at night." });
  assert.equal(JSON.parse(command).texts[0].counts.untaught, 1);
  await page.click("#show-story");
  await lesson(page, 1);
  assert.deepEqual(await untaught(), ["night"]);
  await lesson(page, 2);
  assert.deepEqual(await untaught(), []);
  // A change counts at once.
  await page.click("#show-scope");
  await page.fill("#draft-1-teach", "sh");
  await checked();
  await page.click("#show-story");
  await settled(page);
  assert.deepEqual(await untaught(), ["night"]);
  assert.deepEqual(page.odd, []);
});

test("all faults are beside their fields at once, and the story keeps the last good state", async () => {
  await beginWithNothing();
  await page.fill("#draft-0-teach", "s a t");
  await page.click("#use-draft");
  await settled(page);
  await page.click("#add-lesson");
  await page.fill("#draft-0-teach", "s, shh, a, t");
  await page.fill("#draft-1-teach", "t igh as in bed");
  await page.fill("#draft-1-sight", "h3");
  await checked();
  assert.match(await text("#fault-0-teach"), /no spelling “shh”; did you mean “sh”/);
  assert.match(await text("#fault-1-teach"), /“t” is taught twice[\s\S]*bed is cut b·e·d/);
  assert.match(await text("#fault-1-sight"), /“h3” is not a word/);
  assert.match(await text("#scope-standing"), /4 things to correct, in lesson 1, lesson 2\. Until that is corrected/);
  assert.equal(await page.getAttribute("#draft-0-teach", "aria-invalid"), "true");
  await page.screenshot({ path: join(SHOTS, "scope-faults.png"), fullPage: true });
  await page.click("#first-fault");
  assert.equal(await page.evaluate(() => document.activeElement.id), "draft-0-teach");
  assert.equal(await page.locator("#scope option:checked").count(), 1);
  await page.click("#show-story");
  await paste(page, "sat");
  assert.deepEqual(await untaught(), []);
  // One that is not used anywhere may be folded away: it opens.
  await page.click("#show-scope");
  await page.fill("#draft-0-teach", "s a t");
  await page.fill("#draft-1-teach", "igh");
  await page.fill("#draft-1-sight", "");
  await page.click("#row-1 .more summary");
  await page.fill("#draft-1-id", "1");
  await checked();
  assert.match(await text("#fault-1-id"), /Two lessons have the id 1/);
});

test("lessons are added, moved, removed, and every step is taken back", async () => {
  await beginWithNothing();
  await page.fill("#draft-0-teach", "s");
  await page.click("#add-lesson");
  await page.fill("#draft-1-teach", "a");
  await page.click("#row-0 .row-acts button:has-text('+')");
  await page.keyboard.type("t");
  const order = () => page.$$eval(".lesson-row .of-teach textarea", (all) => all.map((one) => one.value));
  assert.deepEqual(await order(), ["s", "t", "a"]);
  await page.click("#row-2 .up");
  assert.deepEqual(await order(), ["s", "a", "t"]);
  assert.match(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), /lesson 2 up/);
  await page.click("#row-0 .remove");
  assert.deepEqual(await order(), ["a", "t"]);
  for (const before of [["s", "a", "t"], ["s", "t", "a"], ["s", "", "a"], ["s", "a"], ["s", ""], ["s"], [""]]) {
    await page.click("#undo-draft");
    assert.deepEqual(await order(), before);
  }
  await checked();
  assert.equal(await page.locator("#undo-draft").isDisabled(), true);
});

test("pasted lines and the rows of a spreadsheet become lessons", async () => {
  await page.click("#show-scope");
  await page.fill("#begin-paste", "s a t p i n\n\nTwo letters, one sound: sh ch th | said, was\n");
  await page.click("#begin-paste-add");
  await checked();
  assert.match(await text("#scope-said"), /2 lessons added/);
  assert.deepEqual(await page.$$eval(".lesson-row input, .lesson-row textarea", (all) => all.map((one) => one.value)), ["", "s, a, t, p, i, n", "", "Two letters, one sound", "sh, ch, th", "said, was"]);
  await page.click(".paste summary");
  await page.fill("#paste-lessons", "Week\tPatterns\tTricky words\n3\tigh, ee\tthe\n4\tai\tto do\n");
  await page.click("#paste-lessons-add");
  await checked();
  assert.match(await text("#scope-said"), /2 lessons added\. The columns were read as: lesson, patterns, sight words/);
  assert.equal(await page.inputValue("#draft-3-sight"), "to, do");
  // Pasted into a field.
  await page.click("#add-lesson");
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData("text", "More\toa\tgo\nLast\tow as in snow\t\n");
    document.activeElement.dispatchEvent(Object.assign(new Event("paste", { bubbles: true, cancelable: true }), { clipboardData: data }));
  });
  await checked();
  assert.deepEqual([await page.inputValue("#draft-4-title"), await page.inputValue("#draft-5-teach")], ["More", "ow as in snow"]);
  assert.match(await text("#scope-standing"), /6 lessons; no mistakes found/);
});

test("patterns are picked by a spelling or by any word", async () => {
  await beginWithNothing();
  await page.click("#row-0 button:has-text('Pick')");
  await page.keyboard.type("bread");
  await settled(page);
  assert.match(await text(".picker"), /bread is split up b·r·ea·d/);
  await page.click('.picks button:text-is("ea as in bread")');
  await page.fill("#pick-search", "sh");
  await settled(page);
  await page.click('.picks button:text-is("sh")');
  assert.equal(await page.inputValue("#draft-0-teach"), "ea as in bread, sh");
  await page.screenshot({ path: join(SHOTS, "scope-pick.png"), fullPage: true });
  await page.keyboard.press("Escape");
  assert.equal(await page.locator(".picker").count(), 0);
  await checked();
  assert.equal(await page.locator(".fault:not(:empty)").count(), 0);
});

test("a scope and the story at it are there the next day, and follow each other", async () => {
  await beginWithNothing();
  await page.fill("#draft-title", "Our year");
  await page.fill("#draft-0-teach", "s a t m");
  await page.click("#add-lesson");
  await page.fill("#draft-1-teach", "n igh");
  await page.click("#use-draft");
  await checked();
  await page.click("#show-story");
  await page.fill("#title", "Tam");
  await paste(page, "Tam sat at night.");
  await lesson(page, 2);
  await page.waitForTimeout(600);
  await reloaded();
  assert.match(await text("#scope option:checked"), /^Our year/);
  assert.match(await text("#lesson-name"), /^Lesson 2/);
  assert.deepEqual(await untaught(), []);
  await page.click("#show-scope");
  await checked();
  assert.equal(await page.inputValue("#draft-1-teach"), "n igh");
  // Changed while another story is open: the story takes it as it is now.
  await page.click("#show-story");
  await page.click("#new-story");
  await page.selectOption("#scope", "starter");
  await settled(page);
  await page.click("#show-scope");
  await page.fill("#draft-1-teach", "n");
  await checked();
  await page.click("#show-story");
  await page.click(".stories summary");
  await page.click('#stories button:has-text("Tam")');
  await settled(page);
  assert.match(await text("#scope option:checked"), /^Our year/);
});

test("a built-in scope is copied, and its copy is the same", async () => {
  await page.click("#show-scope");
  await page.selectOption("#begin-with", "england-years-1-2");
  await page.click("#begin-copy");
  await checked();
  assert.match(await page.inputValue("#draft-title"), /^England.*\(my copy\)$/);
  assert.equal(await page.inputValue("#draft-accent"), "southern-british");
  assert.equal(await page.inputValue("#draft-age"), "7");
  assert.equal(await page.locator(".fault:not(:empty)").count(), 0);
  const file = await saved();
  const path = join(SHOTS, "copy.yaml");
  writeFileSync(path, file.text);
  const lessons = (scope) => JSON.parse(execFileSync(UNTAUGHT, ["scope", scope, "--format", "json"], { encoding: "utf8" })).lessons;
  assert.deepEqual(lessons(path), lessons("england-years-1-2"));
});

test("a scope file with faults is corrected on the page, and a file is loaded back", async () => {
  const file = (content) => ({ name: "ours.yaml", mimeType: "text/yaml", buffer: Buffer.from(content) });
  await page.setInputFiles("#own-scope-file", file("# Ours\nformat: 1\ntitle: Ours\nlessons:\n- teach: [s, a, tt, mq]\n- teach: [igh]\n"));
  await settled(page);
  await page.click("#correct-here");
  await checked();
  assert.match(await text("#scope-said"), /comments in the file/);
  assert.match(await text("#fault-0-teach"), /no spelling “mq”/);
  await page.fill("#draft-0-teach", "s a t m");
  await checked();
  await page.click("#use-draft");
  await settled(page);
  const { text: yaml } = await saved();
  await page.setInputFiles("#own-scope-file", file(yaml.replace("igh", "igh, n")));
  await settled(page);
  await page.click("#show-scope");
  await settled(page);
  assert.match(await text("#scope-view"), /Continue with[\s\S]*Ours/);
  await page.click('.kept-scopes button:has-text("Ours")');
  await checked();
  assert.equal(await page.inputValue("#draft-1-teach"), "igh, n");
  assert.deepEqual(page.odd, []);
});

test("hostile text in a scope is text", async () => {
  await beginWithNothing();
  const evil = '<img src=x onerror="alert(1)">: # \u202E "';
  for (const field of ["title", "0-title", "0-teach", "0-sight"]) await page.fill(`#draft-${field}`, evil);
  await checked();
  assert.ok((await page.locator(".fault:not(:empty)").count()) > 0);
  assert.equal(await page.locator("#scope-view img").count(), 0);
  await page.fill("#draft-0-teach", "s a t");
  await page.fill("#draft-0-sight", "");
  await checked();
  await page.click("#use-draft");
  await settled(page);
  assert.equal(await page.locator("img").count(), 0);
  assert.deepEqual(page.odd, []);
});

test("a scope of many lessons is got around in on a phone", async () => {
  await page.setViewportSize({ width: 390, height: 800 });
  await page.click("#show-scope");
  await page.click("#begin-copy");
  await page.waitForSelector(".lesson-row");
  const lessons = await page.locator(".lesson-row").count();
  assert.equal(lessons, 60);
  const high = await page.evaluate(() => document.documentElement.scrollHeight);
  assert.ok(high < 5500, `${high} px for ${lessons} folded lessons`);
  const open = () => page.$$eval(".lesson-row:not(.folded)", (all) => all.map((one) => one.id));
  const shown = () => page.$$eval(".lesson-row", (all) => all.filter((one) => one.checkVisibility()).map((one) => one.id));
  assert.deepEqual(await open(), []);
  // One opens at a time, by the keyboard too.
  await page.click("#row-3 .row-open");
  await page.focus("#row-9 .row-open");
  await page.keyboard.press("Enter");
  assert.deepEqual(await open(), ["row-9"]);
  assert.equal(await page.getAttribute("#row-9 .row-open", "aria-expanded"), "true");
  assert.equal(await page.getAttribute("#row-3 .row-open", "aria-expanded"), "false");
  assert.ok(await page.locator("#draft-9-teach").isVisible());
  await page.keyboard.press("Enter");
  assert.deepEqual(await open(), []);
  // A number goes to its lesson, words to those that teach them.
  await page.fill("#find-lesson", "33");
  assert.deepEqual(await shown(), ["row-32"]);
  await page.keyboard.press("Enter");
  assert.deepEqual(await open(), ["row-32"]);
  assert.match(await page.evaluate(() => document.activeElement.id), /^draft-32-/);
  await page.fill("#find-lesson", "igh");
  assert.ok((await shown()).includes("row-32"));
  assert.match(await text("#lessons-found"), /of 60/);
  await page.fill("#find-lesson", "zzz");
  assert.deepEqual([await shown(), await text("#lessons-found")], [[], "No lesson of 60."]);
  await page.fill("#find-lesson", "");
  assert.equal((await shown()).length, 60);
  // What is wrong is named on its folded row, and the way there opens it.
  await page.click("#row-5 .row-open");
  await page.fill("#draft-5-teach", "shh");
  await checked();
  await page.click("#row-50 .row-open");
  assert.match(await text("#row-5 .row-open"), /to correct/);
  await page.click("#first-fault");
  assert.deepEqual(await open(), ["row-5"]);
  assert.equal(await page.evaluate(() => document.activeElement.id), "draft-5-teach");
  await page.click("#undo-draft");
  await checked();
  // A lesson added below, while others are looked for, is open and seen.
  await page.fill("#find-lesson", "12");
  await page.click("#row-11 .row-open");
  await page.click("#row-11 .row-acts button:has-text('+')");
  assert.deepEqual(await open(), ["row-12"]);
  assert.ok(await page.locator("#draft-12-teach").isVisible());
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  assert.ok(wide <= 390, `${wide}: it scrolls sideways`);
  await page.screenshot({ path: join(SHOTS, "scope-phone.png") });
  // Where there is room, all rows are open.
  await page.setViewportSize({ width: 1280, height: 800 });
  await page.fill("#find-lesson", "");
  assert.ok(await page.locator("#draft-40-teach").isVisible());
  assert.ok(await page.locator("#row-40 .row-open").isHidden());
  assert.deepEqual(page.odd, []);
});
