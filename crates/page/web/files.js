// Opens, saves, copies and prints stories and scope files. Nothing leaves this page except by saving or copying.

import { by } from "./dom.js";
import { change, desk, theStory } from "./desk.js";
import { ownScope, chooseScope } from "./scope.js";

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
  if (desk.story.trim() && desk.story !== desk.saved && !window.confirm("The story on this page has not been saved. Replace it?")) return;
  const opened = await desk.ask({ ask: "open", text });
  const said = [];
  if (opened.fault) said.push(`The front matter could not be read and was left in the story: line ${opened.fault.line}, ${opened.fault.message}.`);
  if (opened.scope && desk.scopes.some((/** @type {any} */ scope) => scope.name === opened.scope)) {
    await chooseScope({ name: opened.scope });
  } else if (opened.scope && !(desk.source.text && desk.source.file === opened.scope)) {
    said.push(`This story uses the scope ${opened.scope}: open that file too.`);
  }
  const place = desk.scope.lessons.findIndex((/** @type {any} */ lesson) => lesson.id === opened.lesson);
  if (opened.lesson && place < 0) said.push(`This scope has no lesson ${opened.lesson}.`);
  by("text").value = opened.story;
  by("title").value = opened.title;
  change({
    title: opened.title,
    story: by("text").value,
    names: opened.names,
    storyWords: opened.story_words,
    focus: opened.focus,
    lesson: place < 0 ? desk.lesson : place,
    chosen: null,
    saved: by("text").value,
  });
  say([name ? `Opened ${name}.` : "", ...said].filter(Boolean).join(" "));
}

/**
 * Opens a story or a scope file.
 * @param {File} file
 */
export async function openFile(file) {
  const bytes = await file.arrayBuffer();
  let text;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    text = new TextDecoder("windows-1252").decode(bytes);
  }
  if (text.includes("\0")) return say(`${file.name} is not plain text. Copy the story out of it and paste it here.`);
  if (/\.ya?ml$/i.test(file.name)) return ownScope(text, file.name);
  return openText(text, file.name);
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
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([saved.text], { type: "text/plain" }));
  const plain = title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
  link.download = `${plain || "story"}.txt`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  change({ saved: story });
  say(`Saved as ${link.download}, with its lesson, names and story words.`);
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
    if (desk.story.trim() && desk.story !== desk.saved) event.preventDefault();
  });
}

const EXAMPLE = `---
title: The lamp on the ship
lesson: 15
names: [Nell]
---
Nell had a red lamp. She hung it on the mast of the ship.
"Shut the hatch!" said Chad. "I can hear the wind."
The ship went up and down. Splash! A big fish fell on the deck.
All night the lamp shone. At dawn Nell and Chad had fish and chips.
`;
