// Changes to the story that the page makes for the writer. The browser can undo each of them, in every mode.

import { by } from "./dom.js";
import { change, desk } from "./desk.js";
import { LONG_STORY } from "./pieces.js";

/** The browser takes too long to insert so many lines so that it can undo it. */
const MANY_LINES = 100;

/** Changes that the browser cannot undo, the last one last: the story before and after each. @type {Array<{before: string, after: string}>} */
const ownChanges = [];

/** How many of them are kept. */
const KEPT_CHANGES = 50;

/**
 * Puts a text in place of a stretch of the story.
 * @param {number} start in UTF-16 code units
 * @param {number} end
 * @param {string} text
 */
export function edit(start, end, text) {
  // Firefox forgets what it could undo in a field that is hidden.
  if (desk.reading || text.split("\n").length > MANY_LINES) return replaceStory(desk.story.slice(0, start) + text + desk.story.slice(end));
  inField((field) => {
    field.setSelectionRange(start, end);
    if (!document.execCommand(text ? "insertText" : "delete", false, text)) {
      field.setRangeText(text, start, end, "end");
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }
  });
}

/** The names and story words before each change to them, with the story at that time, the latest last. */
const declared = /** @type {Array<{story: string, names: string[], storyWords: string[]}>} */ ([]);

/**
 * Changes the names or story words in a way that `undo` takes back.
 * @param {() => void} act
 */
export function undoable(act) {
  const { story, names, storyWords } = desk;
  declared.push({ story, names, storyWords });
  act();
}

/** Forgets what could be taken back: another story is shown. */
export function forgetUndo() {
  declared.length = 0;
  ownChanges.length = 0;
}

/**
 * Puts another text in place of the whole story.
 * @param {string} text
 */
export function replaceStory(text) {
  const before = desk.story;
  putStory(text);
  ownChanges.push({ before, after: by("text").value });
  ownChanges.splice(0, ownChanges.length - KEPT_CHANGES);
}

/** @param {string} text */
function putStory(text) {
  const field = by("text");
  const focused = document.activeElement === field;
  // A long text is not laid out in the field, which goes to read mode then.
  if (text.length > LONG_STORY) {
    if (focused) by("read").focus({ preventScroll: true });
    field.hidden = true;
  }
  field.value = text;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  field.hidden = desk.reading;
  if (focused && !desk.reading) field.focus({ preventScroll: true });
}

/** Takes back the last change, of the writer or of the page. */
export function undo() {
  const words = declared.at(-1);
  // The story is as it was then: the change to the words came last.
  if (words && words.story === desk.story) {
    declared.pop();
    return change({ names: words.names, storyWords: words.storyWords });
  }
  const last = ownChanges[ownChanges.length - 1];
  if (last?.after !== desk.story) return inField(() => document.execCommand("undo"));
  ownChanges.pop();
  putStory(last.before);
}

/**
 * The field must be there and have the focus for the browser to remember what changes; in read mode it is there for that moment.
 * @param {(field: HTMLTextAreaElement) => void} act
 */
function inField(act) {
  const field = /** @type {HTMLTextAreaElement} */ (/** @type {unknown} */ (by("text")));
  const before = document.activeElement;
  const [x, y] = [window.scrollX, window.scrollY];
  field.hidden = false;
  field.focus({ preventScroll: true });
  act(field);
  field.hidden = desk.reading;
  if (desk.reading && before instanceof HTMLElement && before.isConnected) before.focus({ preventScroll: true });
  // Nor does a keyboard come up for a change that a button made.
  else if (before !== field && window.matchMedia("(pointer: coarse)").matches) field.blur();
  window.scrollTo(x, y);
}

/**
 * Puts a word in at the cursor, with spaces around it, and with a capital where a sentence begins.
 * @param {string} word
 */
export function insertWord(word) {
  const at = by("text").selectionEnd;
  const [before, after] = [desk.story.slice(0, at), desk.story.slice(at)];
  const begins = /(^|[.!?…]["”’')]*\s+|\n\s*)["“‘(]*$/u.test(before);
  const written = begins ? word.charAt(0).toUpperCase() + word.slice(1) : word;
  const space = /[^\s"“‘(-]$/u.test(before) ? " " : "";
  edit(at, at, space + written + (/^[\p{L}\p{N}"“‘(]/u.test(after) ? " " : ""));
}

/**
 * A swap as it stands at a place of the story: after the right article, with a capital where the word has one.
 * @param {any} swap
 * @param {number} start
 * @param {number} end
 * @returns {{start: number, text: string}} where the change begins, and what stands there then
 */
export function fitted(swap, start, end) {
  const capital = /^\p{Lu}/u.test(desk.story.slice(start, end));
  const text = capital ? swap.text.charAt(0).toUpperCase() + swap.text.slice(1) : swap.text;
  const before = /(^|[^\p{L}])(an?)( +)$/iu.exec(desk.story.slice(0, start));
  if (!before) return { start, text };
  const article = (before[2].startsWith("A") ? "A" : "a") + (swap.takes_an ? "n" : "");
  const from = before.index + before[1].length;
  return { start: from, text: article + before[3] + text };
}

/**
 * Takes a word out, with the space after it or, before a mark, the one before it.
 * @param {number} start
 * @param {number} end
 * @param {string | null} article what has to stand in place of the article before it
 */
export function removeWord(start, end, article) {
  const spaced = desk.story.charAt(end) === " ";
  const before = article ? /an?( +)$/iu.exec(desk.story.slice(0, start)) : null;
  if (before) edit(before.index, spaced ? end + 1 : end, article + before[1]);
  else edit(spaced || desk.story.charAt(start - 1) !== " " ? start : start - 1, spaced ? end + 1 : end, "");
}

/**
 * Writes a rewording in place of a word and its neighbours.
 * @param {number} start of the word
 * @param {number} end
 * @param {any} made
 */
export function reword(start, end, made) {
  const [from, to] = [start - made.before, end + made.after];
  if (made.new) edit(from, to, made.new);
  else removeWord(from, to, null);
}

/**
 * Puts a swap in place of every occurrence of a word, as one change.
 * @param {any} marked
 * @param {number} number of the word
 * @param {any} swap
 * @returns {number} how many were changed
 */
export function replaceAll(marked, number, swap) {
  const places = [];
  for (let at = 0; at < marked.words.length; at += 3) {
    if (marked.words[at + 2] === number) places.push({ from: marked.words[at], to: marked.words[at + 1] });
  }
  if (!places.length) return 0;
  const changes = places.map(({ from, to }) => ({ ...fitted(swap, from, to), end: to }));
  let [text, at] = ["", changes[0].start];
  for (const { start, end, text: made } of changes) {
    text += desk.story.slice(at, start) + made;
    at = end;
  }
  edit(changes[0].start, at, text);
  return places.length;
}
