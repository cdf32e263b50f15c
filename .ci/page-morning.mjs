// What a teacher does on the first morning, and what the page says to it.

import assert from "node:assert/strict";
import { after, before, beforeEach, test } from "node:test";
import { browser, lesson, open, paste, settled } from "./page.mjs";

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
const focused = () => page.evaluate(() => document.activeElement.id);
const inView = (selector) =>
  page.$eval(selector, (one) => {
    const box = one.getBoundingClientRect();
    return box.height > 0 && box.top >= 0 && box.bottom <= window.innerHeight;
  });
/** Longer than typing waits for its faults. */
const checked = () => page.waitForTimeout(500);

/** Pastes into the story as the browser does, with the event that comes before. */
async function pasted(content) {
  await page.focus("#text");
  const taken = await page.evaluate((data) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text", data);
    return !document.activeElement.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, content);
  if (!taken) await page.keyboard.insertText(content);
  await settled(page);
}

test("a sequence of one's own is typed with the Enter key, used, and leads to the story", async () => {
  await page.click("#to-scope");
  await page.click("#begin-nothing");
  await checked();
  assert.match(await text("#scope-standing"), /Nothing is taught yet/);
  assert.equal(await page.locator("#use-draft").isDisabled(), true);
  await page.keyboard.type("s a t m and n");
  await page.keyboard.press("Enter");
  assert.equal(await focused(), "draft-1-teach");
  await page.keyboard.type("igh");
  await page.focus("#draft-0-sight");
  await page.keyboard.type("the");
  await page.keyboard.press("Enter");
  assert.equal(await focused(), "draft-1-teach");
  await checked();
  assert.equal(await page.locator(".lesson-row").count(), 2);
  assert.match(await text("#scope-standing"), /2 lessons; no mistakes found\. Not used for stories yet/);
  // A lesson that was begun and left empty is none.
  await page.keyboard.press("Enter");
  await checked();
  assert.equal(await page.locator(".lesson-row").count(), 3);
  await page.click("#use-it");
  await settled(page);
  assert.equal(await page.locator(".lesson-row").count(), 2);
  assert.equal(await focused(), "to-story");
  await page.keyboard.press("Enter");
  assert.equal(await focused(), "text");
  await page.keyboard.insertText("The ant sat at night.");
  await settled(page);
  await lesson(page, 1);
  assert.deepEqual(await untaught(), ["night"]);
  assert.deepEqual(page.odd, []);
});

test("a word is added to one's own sequence from the story, and taken back", async () => {
  await page.click("#show-scope");
  await page.fill("#begin-paste", "s a t m\nn igh | the");
  await page.click("#begin-paste-add");
  await checked();
  await page.click("#use-it");
  await checked();
  await page.click("#show-story");
  await paste(page, "The ant was mad. Was Tam?");
  await lesson(page, 2);
  const before = await untaught();
  await page.click('#notes button:text-is("was")');
  await settled(page);
  await page.click("#add-sight");
  await checked();
  assert.match(await text("#said"), /“was” is now a sight word of lesson 2/);
  assert.deepEqual(await untaught(), before.filter((word) => word.toLowerCase() !== "was"));
  await page.click("#show-scope");
  assert.equal(await page.inputValue("#draft-1-sight"), "the, was");
  await page.click("#show-story");
  await page.click("#undo-sight");
  await checked();
  assert.deepEqual(await untaught(), before);
  // A scope that comes with the page is not changed.
  await page.selectOption("#scope", "starter");
  await settled(page);
  await lesson(page, 1);
  await page.click('#notes button:text-is("mad")');
  await settled(page);
  assert.equal(await page.locator("#add-sight").count(), 0);
  assert.deepEqual(page.odd, []);
});

test("what was made of a spreadsheet is said where it can be seen, and a blend is offered its key word", async () => {
  await page.click("#show-scope");
  await page.fill("#begin-paste", `${"s a t p i n\n".replaceAll(" ", "\n")}m d\ng o\nc k`);
  await page.click("#begin-paste-add");
  await checked();
  await page.click(".paste summary");
  await page.fill("#paste-lessons", "Lesson\tFocus\tTitle\tTricky words\n10\tch\tchip\tsaid\n11\tng nk\tring\tall\n12\tfinal blends\tlamp\t\n");
  await page.click("#paste-lessons-add");
  await checked();
  assert.match(await text("#scope-said"), /3 lessons added\. The columns were read as: lesson, patterns, title, sight words/);
  assert.ok(await inView("#scope-said"));
  assert.ok(await inView("#scope-standing"));
  assert.deepEqual([await page.inputValue("#draft-9-teach"), await page.inputValue("#draft-9-title"), await page.inputValue("#draft-11-teach")], ["ch", "chip", ""]);
  assert.match(await text("#row-11 .more summary"), /consonants together at the end/);
  assert.match(await text("#fault-10-teach"), /“nk” is several spellings; to teach it as a chunk, write “nk as in bank”/);
  await page.fill("#draft-10-teach", "ng, nk as in bank");
  await checked();
  assert.match(await text("#scope-standing"), /12 lessons; no mistakes found/);
});

test("the first line of a pasted story becomes its title, and is put back", async () => {
  const story = "Tam had a cat.\nThe cat sat.";
  await pasted(`The cat\r\n${story}`);
  assert.deepEqual([await page.inputValue("#title"), await page.inputValue("#text")], ["The cat", story]);
  await page.click("#untitle");
  await settled(page);
  assert.deepEqual([await page.inputValue("#title"), await page.inputValue("#text")], ["", `The cat\n${story}`]);
  // Neither a sentence nor the first line of a verse is one, and a story is not given a second title.
  for (const [title, content] of [["", "Tam sat.\nThe cat sat."], ["", "The cat\nin the hat\nsat."], ["Mine", `The cat\n${story}`]]) {
    await page.fill("#text", "");
    await page.fill("#title", title);
    await settled(page);
    await pasted(content);
    assert.deepEqual([await page.inputValue("#title"), await page.inputValue("#text")], [title, content]);
  }
  assert.deepEqual(page.odd, []);
});

test("undo takes back pre-taught words and changes to the story in their order", async () => {
  await lesson(page, 12);
  await paste(page, "Tam met Theodora at the dark shop.");
  const before = await untaught();
  await page.click('#notes button:has-text("Theodora")');
  await settled(page);
  // Nothing stands for a name.
  assert.equal(await page.locator("#word ul.chips").count(), 0);
  assert.equal(await page.locator("#word .chips button").first().innerText(), "This is a name");
  await page.click('#word button:has-text("This is a name")');
  await settled(page);
  await page.focus("#text");
  await page.keyboard.press("Control+End");
  await page.keyboard.type(" Yes.");
  await settled(page);
  while ((await page.inputValue("#text")) !== "Tam met Theodora at the dark shop.") await page.click("#undo");
  await settled(page);
  assert.ok(!(await untaught()).includes("Theodora"));
  await page.click("#undo");
  await settled(page);
  assert.deepEqual(await untaught(), before);
});

test("a step of the plan says what it did where it was taken, with the way back", async () => {
  await lesson(page, 20);
  await paste(page, "The kitten met Rosario.");
  await page.click("#to-plan");
  assert.equal(await focused(), "goal");
  await page.focus('#plan li:has-text("Rosario") button:text-is("Pre-teach it")');
  await page.keyboard.press("Enter");
  await settled(page);
  // Focus goes on to the next step, not to the beginning of the notes.
  assert.equal(await page.evaluate(() => document.activeElement.closest("#plan li").innerText.includes("kitten")), true);
  assert.match(await text("#plan .done"), /“Rosario” will be pre-taught/);
  assert.ok(await inView("#plan .done"));
  assert.deepEqual(await untaught(), ["kitten"]);
  await page.click("#plan .done button");
  await settled(page);
  assert.deepEqual(await untaught(), ["kitten", "Rosario"]);
  assert.equal(await page.locator("#plan .done").count(), 0);
});

test("each word is shown from its top, with what can be done in view on a small screen", async () => {
  await page.setViewportSize({ width: 1366, height: 768 });
  await lesson(page, 20);
  await paste(page, "Whereas the enormous elephant laughed.");
  for (const word of ["enormous", "elephant", "laughed"]) {
    await page.click(`#notes tr:has-text("${word}") button >> nth=0`);
    await settled(page);
    assert.equal(await page.$eval("#word", (panel) => panel.scrollTop), 0);
    await page.evaluate(() => window.scrollTo(0, 0));
    const shown = await page.locator('#word button:text-is("I\'ll pre-teach it")').boundingBox();
    const box = await page.locator("#word").boundingBox();
    assert.ok(shown.y + shown.height <= box.y + box.height, word);
    await page.$eval("#word", (one) => one.scrollTo(0, 1000));
  }
});

test("in colours of the user's own every mark is a line that is not covered", async () => {
  await page.context().close();
  page = await open(chromium, { forcedColors: "active" });
  await lesson(page, 15);
  await paste(page, "The ship had a rope.");
  const styles = await page.evaluate(() => {
    const of = (selector) => getComputedStyle(document.querySelector(selector));
    return { ground: of("#text").backgroundColor, adjust: of("#text").forcedColorAdjust, untaught: of("#marks .u").textDecorationLine, practised: of("#marks .f").outlineStyle, pressed: of("#write").backgroundColor, other: of("#read").backgroundColor };
  });
  assert.equal(styles.ground, "rgba(0, 0, 0, 0)");
  assert.deepEqual([styles.adjust, styles.untaught, styles.practised], ["none", "underline", "dashed"]);
  assert.notEqual(styles.pressed, styles.other);
});

test("a scope file with faults is shown where the page is scrolled to", async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.click("#show-scope");
  await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
  await page.setInputFiles("#own-scope-file", { name: "bad.yaml", mimeType: "text/yaml", buffer: Buffer.from("format: 1\nlessons:\n- teach: [shh]\n") });
  await settled(page);
  assert.ok(await inView("#faults h2"));
  assert.match(await text("#faults"), /The catalogue has no spelling “shh”/);
});

test("nothing is cut off or wider than the window, at three widths", async () => {
  for (const width of [390, 820, 1366]) {
    await page.setViewportSize({ width, height: 800 });
    await page.click("#show-story");
    await paste(page, "The enormous elephant met Rosario in the extraordinarily dark shop.");
    for (const view of ["story", "lists", "scope"]) {
      await page.click(`#show-${view}`);
      await settled(page);
      const wide = await page.evaluate(() => {
        const width = document.documentElement.clientWidth;
        const out = [...document.querySelectorAll("button, label, p, h2, td, select, .figures span")].filter((one) => one.checkVisibility() && !one.closest(".hidden, .skip") && one.getBoundingClientRect().right > width + 1);
        const cut = [...document.querySelectorAll(".figures span, button")].filter((one) => one.checkVisibility() && !one.closest(".hidden") && getComputedStyle(one).display !== "inline" && one.scrollWidth > one.clientWidth + 2);
        return [document.documentElement.scrollWidth - width, ...[...out, ...cut].map((one) => one.textContent)];
      });
      assert.deepEqual(wide, [0], `${view} at ${width}`);
    }
  }
});

test("on a touch screen the keyboard stays away while a word is looked at and swapped", async () => {
  await page.context().close();
  page = await open(chromium, { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  await lesson(page, 20);
  await paste(page, "Sam sat on an enormous, huge rock. It was big.");
  await page.evaluate(() => document.activeElement.blur());
  const touch = async (word) => {
    const { x, y, width, height } = await page.locator("#marks .u", { hasText: word }).boundingBox();
    await page.touchscreen.tap(x + width / 2, y + height / 2);
    await settled(page);
  };
  await touch("huge");
  assert.equal(await text("#word h2"), "huge");
  assert.notEqual(await focused(), "text");
  await page.tap('#word ul.chips button:text-is("big")');
  await settled(page);
  assert.match(await page.inputValue("#text"), /big rock/);
  assert.notEqual(await focused(), "text");
  // Who is typing goes on typing.
  await page.focus("#text");
  await touch("enormous");
  assert.equal(await text("#word h2"), "enormous");
  assert.equal(await focused(), "text");
  assert.deepEqual(page.odd, []);
});

test("a forgotten story comes back, and an opened one is shown from its top", async () => {
  for (const [title, story] of [["One", "Tam sat."], ["Two", "Sam sat."]]) {
    await page.fill("#title", title);
    await paste(page, story);
    assert.equal(await page.locator("#example").isHidden(), true);
    await page.waitForTimeout(600);
    await page.click("#new-story");
    assert.match(await text("#said"), new RegExp(`“${title}” is kept under My stories`));
    assert.equal(await page.locator("#example").isVisible(), true);
  }
  await page.click(".stories summary");
  await page.click('#stories button[aria-label="Forget One"]');
  assert.ok(!(await text("#stories")).includes("One"));
  await page.click("#remember-again");
  assert.match(await text("#stories"), /Two[\s\S]*One/);
  await page.click('#stories button:text-is("One")');
  await settled(page);
  assert.equal(await page.inputValue("#text"), "Tam sat.");
  assert.equal(await page.evaluate(() => window.scrollY), 0);
  assert.equal(await focused(), "main");
  assert.equal(await text("#said"), "");
  assert.deepEqual(page.odd, []);
});
