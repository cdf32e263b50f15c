// Starts the page, and updates everything when the state changes.

import { by } from "./dom.js";
import { STOPPED, engine } from "./engine.js";
import { change, desk, theStory, whenChanged } from "./desk.js";
import { drawCurve, drawLesson, startLesson } from "./curve.js";
import { undo } from "./edit.js";
import { takeTitle, titleIn } from "./title.js";
import { drawLists } from "./lists.js";
import { drawMarks, moved, wordAt } from "./marks.js";
import { drawFigures, drawNotes } from "./notes.js";
import { drawWord, keepInSight, showWord } from "./word.js";
import { openText, say, startFiles } from "./files.js";
import { LONGEST_STORY, isTooLong, offerLong } from "./long.js";
import { startProjector } from "./project.js";
import { startMemory } from "./memory.js";
import { startScopes } from "./scope.js";
import { drawScopeEditor, startScopeEditor } from "./scope-editor.js";
import { startIpa } from "./ipa.js";
import { bankLater, startBank } from "./bank.js";
import { drawSteps, markChosenRow, startUntaught } from "./untaught.js";

/** Changes to these need new marks. */
const JUDGED = ["source", "lesson", "story", "names", "storyWords", "focus"];

let [running, again] = [false, false];

/** Marks the story. Changes made while an answer is pending are combined into one further question. */
async function mark() {
  if (running) {
    again = true;
    return;
  }
  running = true;
  do {
    again = false;
    const of = desk.story;
    const marked = await desk.ask({ ask: "mark", ...theStory() });
    if (again) continue;
    if (marked.problem) say(marked.problem === STOPPED ? "Stopped." : `${marked.problem}.`);
    else if (of === desk.story) change({ marked });
  } while (again);
  running = false;
}

/** @param {Set<string>} what */
function follow(what) {
  const any = (/** @type {string[]} */ keys) => keys.some((key) => what.has(key));
  if (any(["scope", "lesson"])) drawLesson();
  if (any(["marked", "lesson", "scope"])) drawCurve();
  if (any(["marked", "reading", "chosen"])) drawMarks(by("marks"), desk.story, desk.marked, desk.reading, desk.chosen?.start);
  if (what.has("chosen")) markChosenRow();
  if (any(["scope", "lesson"])) bankLater();
  if (what.has("reading")) drawReading();
  if (what.has("marked")) {
    drawFigures();
    drawSteps();
    later();
  }
  if (what.has("title")) by("sheet-name").textContent = desk.title || "The story";
  // An example is of use on an empty page only.
  if (what.has("story")) by("example").hidden = Boolean(desk.story.trim());
  if (any(JUDGED)) void mark();
}

let waiting = 0;

/** Updates the notes a moment after the marks: they are not read while typing. */
function later() {
  clearTimeout(waiting);
  waiting = setTimeout(() => {
    drawNotes();
    void drawWord();
    if (!by("lists-view").hidden) drawLists();
  }, 60);
}

function drawReading() {
  by("write").setAttribute("aria-pressed", String(!desk.reading));
  by("read").setAttribute("aria-pressed", String(desk.reading));
  by("paper").classList.toggle("reading", desk.reading);
  if (desk.reading) by("marks").removeAttribute("aria-hidden");
  else by("marks").setAttribute("aria-hidden", "true");
  by("text").hidden = desk.reading;
}

/** Selects the word at the cursor. */
function chosenInText() {
  const text = by("text");
  if (text.selectionStart !== text.selectionEnd) return;
  const found = wordAt(desk.marked, text.selectionStart);
  if (found) return showWord({ word: desk.story.slice(found.start, found.end), start: found.start, end: found.end });
}

function startText() {
  const text = by("text");
  text.addEventListener("paste", (/** @type {ClipboardEvent} */ event) => {
    const pasted = event.clipboardData?.getData("text") ?? "";
    if (!isTooLong(pasted) && text.value.length + pasted.length <= LONGEST_STORY) {
      const titled = text.value.trim() || desk.title ? null : titleIn(pasted);
      if (!titled) return;
      event.preventDefault();
      return takeTitle(titled, pasted);
    }
    event.preventDefault();
    offerLong(pasted, "", (beginning) => void openText(beginning));
  });
  text.addEventListener("input", async () => {
    // Dropped into the field, say: the story is put back.
    if (isTooLong(text.value)) {
      const long = text.value;
      text.value = desk.story;
      return offerLong(long, "", (beginning) => void openText(beginning));
    }
    // A whole file was pasted: read its front matter too.
    if (/^\uFEFF?---\r?\n[a-z-]+:/.test(text.value) && !desk.story.startsWith("---")) {
      // The user has replaced the previous story.
      change({ saved: desk.story });
      return openText(text.value);
    }
    change({ story: text.value, chosen: moved(desk.chosen, desk.story, text.value) });
  });
  // On a touch screen the first touch of an untaught word asks about it: the keyboard would cover the answer.
  let asks = false;
  text.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    asks = event.pointerType === "touch" && document.activeElement !== text;
  });
  text.addEventListener("click", async (/** @type {MouseEvent} */ event) => {
    if (asks && wordAt(desk.marked, text.selectionStart)?.type.status === "untaught") text.blur();
    await chosenInText();
    keepInSight(event.clientY);
  });
  text.addEventListener("keyup", (/** @type {KeyboardEvent} */ event) => {
    if (/^(Arrow|Home|End|Page)/.test(event.key)) void chosenInText();
  });
  by("title").addEventListener("input", () => change({ title: by("title").value }));
  by("write").addEventListener("click", () => change({ reading: false }));
  by("read").addEventListener("click", () => change({ reading: true }));
  by("marks").addEventListener("click", chosenInReading);
  by("undo").addEventListener("click", undo);
}

/** @param {MouseEvent} event */
async function chosenInReading(event) {
  const word = event.target instanceof Element ? event.target.closest(".w") : null;
  if (!word) return;
  // Its index among the words of the text: in read mode every word is an element.
  const number = [...by("marks").querySelectorAll(".w")].indexOf(word);
  const [start, end] = desk.marked.words.slice(number * 3, number * 3 + 2);
  // A click without a pointer comes from the keyboard: move focus to the panel; Escape returns it.
  await showWord({ word: desk.story.slice(start, end), start, end }, event.detail === 0);
  keepInSight(event.clientY);
}

function startViews() {
  const show = (/** @type {string} */ view) => {
    for (const one of ["story", "lists", "scope"]) {
      by(`${one}-view`).hidden = one !== view;
      by(`show-${one}`).toggleAttribute("aria-current", false);
    }
    by(`show-${view}`).setAttribute("aria-current", "page");
    if (document.body.dataset.view !== view) window.scrollTo(0, 0);
    document.body.dataset.view = view;
    if (view === "lists") drawLists();
    if (view === "scope") void drawScopeEditor();
  };
  for (const view of ["story", "lists", "scope"]) by(`show-${view}`).addEventListener("click", () => show(view));
}

async function start() {
  try {
    desk.ask = await engine();
  } catch (error) {
    return say(`This browser cannot run the page: ${error}. Try a newer browser.`);
  }
  whenChanged(follow);
  void drawWord();
  startLesson();
  startText();
  startViews();
  startFiles();
  startProjector();
  startIpa();
  startBank();
  startUntaught();
  await startScopes();
  // Some browsers keep typed text when a page is reloaded.
  change({ lesson: Math.min(14, desk.scope.lessons.length - 1), story: by("text").value, title: by("title").value });
  await startMemory();
  startScopeEditor();
  performance.mark("ready");
  document.documentElement.dataset.ready = "yes";
}

void start();
