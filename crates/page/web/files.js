// Opens, saves, copies and prints stories and scope files. Nothing leaves this page except by saving or copying.

import { button, by } from "./dom.js";
import { change, desk, theStory } from "./desk.js";
import { STOPPED, stopAsking } from "./engine.js";
import { isTooLong, offerLong } from "./long.js";
import { anotherStory, remembers } from "./memory.js";
import { ownScope, ownScopeNamed, chooseScope } from "./scope.js";
import { takeTitle, titleIn } from "./title.js";

/**
 * Shows a message below the story.
 * @param {string} text
 */
export function say(text) {
  by("said").textContent = text;
}

/**
 * Opens a text: reads its front matter and shows its story.
 * @param {string} text
 * @param {string} [name] of the file
 */
export async function openText(text, name = "") {
  return showOpened(await desk.ask({ ask: "open", text }), name);
}

/**
 * Shows a story that was opened.
 * @param {any} opened
 * @param {string} name
 */
async function showOpened(opened, name) {
  if (isTooLong(opened.story)) return offerLong(opened.story, name, (story) => void showOpened({ ...opened, story }, name));
  if (!remembers() && desk.story.trim() && desk.story !== desk.saved && !window.confirm("The story on this page has not been saved. Replace it?")) return;
  anotherStory();
  const said = [];
  let awaits = null;
  if (opened.fault) said.push(`The front matter could not be read and was left in the story: line ${opened.fault.line}, ${opened.fault.message}.`);
  if (opened.scope && desk.scopes.some((/** @type {any} */ scope) => scope.name === opened.scope)) {
    await chooseScope({ name: opened.scope });
  } else if (opened.scope && ownScopeNamed(opened.scope)) {
    await chooseScope(ownScopeNamed(opened.scope));
  } else if (opened.scope) {
    awaits = { scope: opened.scope, lesson: opened.lesson };
    said.push(`This story is for the scope ${opened.scope}, which is not open here: open that file too. Until then the figures are for ${desk.scope.title}.`);
  }
  const place = desk.scope.lessons.findIndex((/** @type {any} */ lesson) => lesson.id === opened.lesson);
  if (opened.lesson && place < 0 && !awaits) said.push(`This scope has no lesson ${opened.lesson}.`);
  by("text").value = opened.story;
  by("title").value = opened.title;
  change({
    title: opened.title,
    story: by("text").value,
    names: opened.names,
    storyWords: opened.story_words,
    focus: opened.focus,
    lesson: place < 0 || awaits ? desk.lesson : place,
    awaits,
    chosen: null,
    saved: by("text").value,
  });
  say([name ? `Opened ${name}.` : "", ...said].filter(Boolean).join(" "));
  const titled = opened.title ? null : titleIn(opened.story);
  if (name && titled) by("said").append(" ", button("Use the first line as the title", () => takeTitle(titled, opened.story), { className: "plain", id: "use-title" }));
}

/**
 * Opens a story or a scope file.
 * @param {File} file
 */
export async function openFile(file) {
  if (/\.ya?ml$/i.test(file.name)) return ownScope(await file.text(), file.name);
  if (file.size > LARGEST_FILE) return say(`${file.name} is larger than ${LARGEST_FILE >> 20} MB, which no story is.`);
  if (file.size > SLOW_FILE) by("said").replaceChildren(`Opening ${file.name}… `, button("Stop", stopAsking, { className: "plain", id: "stop-opening" }));
  const opened = await desk.ask({ ask: "file", name: file.name, data: await inBase64(file) });
  // What cannot be read takes nothing away.
  if (opened.problem) return say(opened.problem === STOPPED ? `${file.name} was not opened.` : `${opened.problem}.`);
  say("");
  return showOpened(opened, file.name);
}

/** The largest file that is read, in bytes. */
const LARGEST_FILE = 16 << 20;

/** A file that takes long enough to say so, in bytes. */
const SLOW_FILE = 500_000;

/**
 * The bytes of a file in base 64; the browser does that without keeping the page waiting.
 * @param {File} file
 * @returns {Promise<string>}
 */
function inBase64(file) {
  return new Promise((done) => {
    const reader = new FileReader();
    reader.onload = () => done(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => done("?");
    reader.readAsDataURL(file);
  });
}

/** The story as a file with its front matter. */
async function saveStory() {
  const { title, lesson, scope, story, names, storyWords, focus, source } = desk;
  const named = source.name && source.name !== "starter" ? source.name : (source.file ?? null);
  const saved = await desk.ask({
    ask: "save",
    title,
    lesson: scope.lessons[lesson]?.id ?? null,
    scope: named,
    names,
    story_words: storyWords,
    focus,
    story,
  });
  if (saved.problem) return say(saved.problem);
  const plain = title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
  const file = `${plain || "story"}.txt`;
  download(saved.text, file, "text/plain");
  change({ saved: story });
  say(`Saved as ${file}, with its lesson, names and story words.`);
}

/**
 * Saves a text as a file.
 * @param {string} text
 * @param {string} name
 * @param {string} type
 */
export function download(text, name, type) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}

async function copyReport() {
  const report = await desk.ask({ ask: "report", ...theStory() });
  if (report.problem) return say(report.problem);
  say((await copied(report.text)) ? "The report is on the clipboard." : "The browser did not allow the report to be copied.");
}

/**
 * @param {string} text
 * @returns {Promise<boolean>}
 */
export async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    // A page opened from a file may have no access to the clipboard API.
    const area = document.createElement("textarea");
    area.value = text;
    document.body.append(area);
    area.select();
    const done = document.execCommand("copy");
    area.remove();
    return done;
  }
}

/** Connects the buttons and handles dropped files. */
export function startFiles() {
  const chooser = (/** @type {string} */ act, /** @type {string} */ input) => {
    by(act).addEventListener("click", () => by(input).click());
    by(input).addEventListener("change", async () => {
      const [file] = by(input).files;
      by(input).value = "";
      if (file) await (input === "own-scope-file" ? file.text().then((/** @type {string} */ text) => ownScope(text, file.name)) : openFile(file));
    });
  };
  chooser("open-story", "open-story-file");
  chooser("own-scope", "own-scope-file");
  by("save-story").addEventListener("click", saveStory);
  by("copy-report").addEventListener("click", copyReport);
  by("print-story").addEventListener("click", () => window.print());
  by("example").addEventListener("click", () => openText(EXAMPLE));
  document.addEventListener("dragover", (event) => event.preventDefault());
  document.addEventListener("drop", (event) => {
    const [file] = event.dataTransfer?.files ?? [];
    if (!file) return;
    event.preventDefault();
    void openFile(file);
  });
  window.addEventListener("beforeunload", (event) => {
    if (!remembers() && desk.story.trim() && desk.story !== desk.saved) event.preventDefault();
  });
}

const EXAMPLE = `---
title: The lamp on the ship
lesson: 15
names: [Finn]
---
Finn had a red lamp. He hung it on the mast of the ship.
"Shut the hatch!" said Chad. "I can hear the wind."
The ship went up and down. Splash! A big fish fell on the deck.
All night the lamp shone. At dawn Finn and Chad had fish and chips.
`;
