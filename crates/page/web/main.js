// Starts the page, and updates everything when the state changes.

import { by } from "./dom.js";
import { STOPPED, engine, firstAnswer } from "./engine.js";
import { change, desk, theStory, whenChanged } from "./desk.js";
import { drawCurve, drawLesson, startLesson } from "./curve.js";
import { replaceStory, undo } from "./edit.js";
import { takeTitle, titleIn } from "./title.js";
import { drawLists } from "./lists.js";
import { drawMarks, moved, wordAt } from "./marks.js";
import { LONG_STORY, makeAllPieces, wordNumber } from "./pieces.js";
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
    else if (of === desk.story) change({ marked: { ...marked, of } });
  } while (again);
  running = false;
}

/** How long the story was before it changed last, and whether the page went to read mode because it is long. */
let [lengthBefore, readFirst] = [0, false];

/** Shows a story that became long all at once in read mode, and leaves that for a story that is not long. */
function chooseMode() {
  const { length } = desk.story;
  const grew = length - lengthBefore > LONG_STORY / 3;
  lengthBefore = length;
  if (length > LONG_STORY && grew && !desk.reading) {
    readFirst = true;
    const focused = document.activeElement === by("text");
    change({ reading: true });
    if (focused) by("read").focus({ preventScroll: true });
    say("This story is long, so it is shown in Read mode. Choose Write to change it.");
  } else if (length <= LONG_STORY && readFirst) {
    readFirst = false;
    change({ reading: false });
  }
}

/** @param {Set<string>} what */
function follow(what) {
  const any = (/** @type {string[]} */ keys) => keys.some((key) => what.has(key));
  if (any(["scope", "lesson"])) drawLesson();
  if (any(["marked", "lesson", "scope"])) drawCurve();
  if (what.has("story")) chooseMode();
  // First of all: a field that is hidden is not laid out.
  if (what.has("reading")) drawReading();
  if (any(["marked", "reading", "chosen"]) || (what.has("story") && desk.reading)) drawMarks(by("marks"), desk.story, desk.marked, desk.reading, desk.chosen?.start);
  if (what.has("chosen")) markChosenRow();
  if (any(["scope", "lesson"])) bankLater();
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
    const [from, to] = [text.selectionStart, text.selectionEnd];
    const length = text.value.length - (to - from) + pasted.length;
    if (!isTooLong(pasted) && length <= LONGEST_STORY) {
      const titled = text.value.trim() || desk.title ? null : titleIn(pasted);
      if (titled) {
        event.preventDefault();
        return takeTitle(titled, pasted);
      }
      if (length <= LONG_STORY || pasted.length < LONG_STORY / 3) return;
      event.preventDefault();
      return replaceStory(text.value.slice(0, from) + pasted + text.value.slice(to));
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
  by("write").addEventListener("click", () => {
    readFirst = false;
    change({ reading: false });
  });
  by("read").addEventListener("click", () => change({ reading: true }));
  by("marks").addEventListener("click", chosenInReading);
  by("undo").addEventListener("click", undo);
  window.addEventListener("beforeprint", makeAllPieces);
}

/** @param {MouseEvent} event */
async function chosenInReading(event) {
  const word = event.target instanceof Element ? event.target.closest(".w") : null;
  if (!word) return;
  // In read mode every word is an element.
  const number = wordNumber(word);
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
  let problem = "";
  // It compiles while the page is drawn.
  const library = engine().catch((error) => {
    problem = `This browser cannot run the page: ${error}. Try a newer browser`;
    return async () => ({ problem });
  });
  desk.ask = async (/** @type {Record<string, any>} */ question) => firstAnswer(question) ?? (await library)(question);
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
  desk.ask = await library;
  if (problem) return say(`${problem}.`);
  performance.mark("ready");
  document.documentElement.dataset.ready = "yes";
}

void start();
