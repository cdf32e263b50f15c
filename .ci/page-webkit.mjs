// The main session in WebKit, through Debian's driver: opened, pasted, marked, a word looked at, lists, reopened. The driver cannot print.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { after, before, test } from "node:test";
import { Builder, By, Key } from "selenium-webdriver";

const { MINIBROWSER, PAGE } = process.env;

/** A port that is free. */
const freePort = () =>
  new Promise((done) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => done(port));
    });
  });

let program;
let driver;
before(async () => {
  const port = await freePort();
  // A home of its own: nothing is left of an earlier run, and what the page remembers is kept there.
  const home = mkdtempSync(join(tmpdir(), "untaught-webkit-"));
  const env = { ...process.env, HOME: home, XDG_DATA_HOME: join(home, "data"), LIBGL_ALWAYS_SOFTWARE: "1", WEBKIT_DISABLE_COMPOSITING_MODE: "1" };
  program = spawn("xvfb-run", ["-a", "WebKitWebDriver", `--port=${port}`], { stdio: "ignore", env, detached: true });
  for (let left = 50; ; left--) {
    const up = await fetch(`http://127.0.0.1:${port}/status`).then((reply) => reply.ok, () => false);
    if (up) break;
    assert.ok(left > 0, "the driver did not start");
    await new Promise((done) => setTimeout(done, 200));
  }
  const options = { binary: MINIBROWSER, args: ["--automation"] };
  driver = await new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities({ browserName: "MiniBrowser", "webkitgtk:browserOptions": options }).build();
  console.log(`WebKit ${(await driver.getCapabilities()).get("browserVersion")}`);
});
after(async () => {
  await driver?.quit();
  if (program) process.kill(-program.pid);
});

const run = (script, ...args) => driver.executeScript(script, ...args);
const text = (selector) => run("return document.querySelector(arguments[0]).innerText", selector);
const click = (selector) => driver.findElement(By.css(selector)).click();

/** Waits until something is true in the page. */
async function until(script, ...args) {
  for (let left = 100; !(await run(script, ...args)); left--) {
    assert.ok(left > 0, `it never became true: ${script}`);
    await new Promise((done) => setTimeout(done, 100));
  }
}

/** As in the other browsers: no answer is awaited for a while, by the page's own clock. */
async function settled() {
  await new Promise((done) => setTimeout(done, 100));
  await driver.executeAsyncScript(`
    const done = arguments[arguments.length - 1];
    let quiet = 0;
    const look = () => {
      quiet = document.documentElement.hasAttribute("data-asking") ? 0 : quiet + 1;
      if (quiet > 5) done();
      else setTimeout(look, 20);
    };
    look();`);
}

async function opened() {
  await driver.get(pathToFileURL(PAGE).href);
  await until("return document.documentElement.dataset.ready === 'yes'");
  await run("window.odd = []; window.addEventListener('error', (event) => odd.push(event.message)); window.addEventListener('unhandledrejection', (event) => odd.push(String(event.reason)))");
  await settled();
}

async function lesson(number) {
  await run("const slider = document.getElementById('lesson'); slider.value = arguments[0]; slider.dispatchEvent(new Event('input', { bubbles: true }))", number - 1);
  await settled();
}

async function put(story) {
  await run("const field = document.getElementById('text'); field.value = arguments[0]; field.dispatchEvent(new Event('input', { bubbles: true }))", story);
  await settled();
}

const untaught = () => run("return [...document.querySelectorAll('#marks .u')].map((one) => one.firstChild.textContent)");

test("a session in WebKit", async () => {
  await opened();
  await lesson(12);
  await driver.findElement(By.id("text")).sendKeys("Tam sat at nigh");
  await settled();
  assert.deepEqual(await untaught(), ["nigh"]);
  await driver.findElement(By.id("text")).sendKeys("t.");
  await settled();
  assert.deepEqual(await untaught(), ["night"]);
  // Marks lie under their words.
  const story = `Tam met Theodora at night. ${"The ship and the fish sat in the sun. ".repeat(30)}\n\n\tTam  sat   \n`;
  await put(story);
  for (const width of [1280, 700, 400]) {
    await driver.manage().window().setRect({ width, height: 900 });
    await settled();
    const [marks, field, page, inner] = await run("return [document.getElementById('marks').scrollHeight, document.getElementById('text').scrollHeight, document.documentElement.scrollWidth, innerWidth]");
    assert.ok(Math.abs(marks - field) <= 1, `${marks} and ${field} at ${width}`);
    // WebKit rounds up.
    assert.ok(page <= inner + 1, `${page} at ${inner}: it scrolls sideways`);
  }
  await driver.manage().window().setRect({ width: 1280, height: 900 });
  // A word, its panel, and a name.
  await click("#next-untaught");
  await settled();
  assert.match(await text("#word"), /Theodora[\s\S]*untaught at lesson 12/);
  await driver.findElement(By.xpath("//aside[@id='word']//button[.='This is a name']")).click();
  await settled();
  assert.equal((await untaught())[0], "night");
  await click("#read");
  await settled();
  await click("#marks button.u");
  await settled();
  assert.match(await text("#word"), /igh as in night/);
  await click("#write");
  // The panel's keyboard: there and back.
  await click("#notes tbody th button");
  await settled();
  assert.equal(await run("return document.activeElement.id"), "word");
  await driver.actions().sendKeys(Key.ESCAPE).perform();
  assert.notEqual(await run("return document.activeElement.id"), "word");
  // Lists.
  await lesson(15);
  await click("#show-lists");
  await settled();
  assert.ok((await run("return document.querySelectorAll('#list .bank li').length")) > 50);
  for (const name of ["chain", "contrast", "dictation", "pack"]) {
    await click(`#list-${name}`);
    await settled();
    assert.ok((await text("#list")).length > 100, name);
  }
  // A scope of one's own.
  await click("#show-scope");
  await settled();
  await click("#begin-nothing");
  await settled();
  await driver.findElement(By.id("draft-0-teach")).sendKeys("s a t m n");
  await new Promise((done) => setTimeout(done, 600));
  assert.match(await text("#scope-standing"), /no mistakes found/);
  await click("#show-story");
  assert.deepEqual(await run("return window.odd"), []);
  // The story is there again after reopening.
  await run("document.getElementById('title').value = 'The rope'; document.getElementById('title').dispatchEvent(new Event('input', { bubbles: true }))");
  await new Promise((done) => setTimeout(done, 700));
  await opened();
  assert.equal(await run("return document.getElementById('text').value"), story);
  assert.equal(await run("return document.getElementById('title').value"), "The rope");
  assert.match(await text("#lesson-name"), /^Lesson 15/);
});

test("a long story in WebKit is marked where it is seen", async () => {
  await opened();
  await put("Tam sat at night.\n".repeat(6000));
  await until("return document.querySelector('#marks .piece .u')");
  assert.match(await text("#figures"), /24000 words/);
  await run("window.scrollTo(0, document.body.scrollHeight)");
  await until("return document.querySelector('#marks .piece:last-child .w')");
  assert.deepEqual(await run("return window.odd"), []);
});
