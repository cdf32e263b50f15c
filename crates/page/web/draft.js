// A scope that is being written: its fields, the file that they make, what is wrong with them, and the way back.

import { by } from "./dom.js";
import { desk, theScope } from "./desk.js";
import { unfold } from "./find-lesson.js";
import { keepScope, keptScopes, newId } from "./memory.js";
import { putInUse } from "./scope.js";

/** @typedef {{id: string, title: string, teach: string, sight: string, skills: string, review: string}} DraftLesson */
/** @typedef {{title: string, accent: string, age: string, about: string, source: string, pronounce: string, lessons: DraftLesson[]}} ScopeDraft */

/** What is being written. */
export const draft = {
  /** The id under which the browser remembers it; empty if nothing is being written. */
  id: "",
  /** @type {ScopeDraft} */
  scope: emptyDraft(),
  /** The file. */
  text: "",
  /** @type {Array<{lesson: number | null, field: string, entry: number | null, message: string}>} */
  faults: [],
  /** Earlier states, the latest last. */
  past: /** @type {string[]} */ ([]),
  /** The field that the latest state was written down for, so that typing is one step back. */
  typing: "",
};

/** Steps back that are kept. */
const STEPS_BACK = 200;

/** @returns {ScopeDraft} */
export function emptyDraft() {
  return { title: "", accent: "", age: "", about: "", source: "", pronounce: "", lessons: [] };
}

/** @returns {DraftLesson} */
export function emptyLesson() {
  return { id: "", title: "", teach: "", sight: "", skills: "", review: "" };
}

/** @type {() => void} */
let afterCheck = () => {};
let checking = 0;
let latestCheck = 0;

/** @param {() => void} act what to do when the faults are known */
export function whenChecked(act) {
  afterCheck = act;
}

/**
 * Takes up a scope to write.
 * @param {ScopeDraft} scope
 * @param {string} [id] of a scope that the browser remembers
 */
export async function takeUp(scope, id = "") {
  Object.assign(draft, { id: id || newId(), scope, past: [], typing: "", faults: [], text: "" });
  await checkDraft();
}

/** Puts it away; it stays remembered. */
export function putAway() {
  flushDraft();
  draft.id = "";
}

/**
 * Puts it away if it is that scope, which was read from a file again.
 * @param {string} id
 */
export function putAwayIf(id) {
  if (draft.id !== id) return;
  clearTimeout(checking);
  checking = 0;
  draft.id = "";
}

/**
 * Changes the draft, in a way that can be taken back.
 * @param {(scope: ScopeDraft) => void} act
 * @param {string} [typing] the field, if this is typing
 */
export function changeDraft(act, typing = "") {
  if (!typing || typing !== draft.typing) {
    draft.past.push(JSON.stringify(draft.scope));
    if (draft.past.length > STEPS_BACK) draft.past.shift();
  }
  draft.typing = typing;
  act(draft.scope);
  clearTimeout(checking);
  checking = setTimeout(() => void checkDraft(), typing ? 250 : 0);
}

/** Takes back the latest change. Gives whether there was one. */
export function undoDraft() {
  const before = draft.past.pop();
  if (!before) return false;
  draft.scope = JSON.parse(before);
  draft.typing = "";
  clearTimeout(checking);
  checking = setTimeout(() => void checkDraft(), 0);
  return true;
}

/**
 * Adds a sight word to the lesson that is shown of the scope in use, one of the user's own. Gives why it cannot be added.
 * @param {string} word
 * @returns {Promise<string>}
 */
export async function addSightWord(word) {
  if (!isInUse()) {
    const kept = keptScopes().find((one) => one.id === desk.source.id);
    const begun = kept?.draft ? kept : await desk.ask({ ask: "begin_draft", scope: theScope(desk.source) });
    if (!begun.draft) return "This scope cannot be changed here.";
    flushDraft();
    await takeUp(begun.draft, desk.source.id);
  }
  const lesson = draft.scope.lessons[desk.lesson];
  if (!lesson || draft.faults.length) return "Correct the mistakes under My scope first.";
  changeDraft(() => {
    lesson.sight = [lesson.sight.trim().replace(/,$/, ""), word].filter(Boolean).join(", ");
  });
  await checkDraft();
  return "";
}

/** The name of the file that it is saved as. */
export function draftFile() {
  const plain = draft.scope.title.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
  return `${plain || "my-scope"}.yaml`;
}

/** The draft as a scope that stories can be checked with. */
function sourceOfDraft() {
  return { text: draft.text, file: draftFile(), id: draft.id };
}

/** Whether stories are checked with it now. */
export function isInUse() {
  return Boolean(draft.id) && desk.source.id === draft.id;
}

/** Takes away empty lessons at the end, such as one that was begun and not filled in. Gives whether there were any. */
export async function dropEmptyEnd() {
  const { lessons } = draft.scope;
  let kept = lessons.length;
  while (kept > 1 && !Object.values(lessons[kept - 1]).some((value) => value.trim())) kept--;
  if (kept === lessons.length) return false;
  draft.past.push(JSON.stringify(draft.scope));
  draft.typing = "";
  lessons.length = kept;
  await checkDraft();
  return true;
}

/** Checks stories with it from now on. */
export function useDraft() {
  return putInUse(sourceOfDraft(), draft.scope.title || draftFile());
}

/** Writes the file, finds the faults, remembers it all; a scope in use follows. */
async function checkDraft() {
  clearTimeout(checking);
  checking = 0;
  const number = ++latestCheck;
  const id = draft.id;
  const answer = await desk.ask({ ask: "draft", draft: draft.scope });
  if (number !== latestCheck || id !== draft.id || answer.problem) return;
  draft.text = answer.text;
  draft.faults = answer.faults;
  rememberDraft();
  if (!draft.faults.length && isInUse() && desk.source.text !== draft.text) await useDraft();
  afterCheck();
}

/** Writes down what has not been written down. */
export function flushDraft() {
  if (draft.id && checking) rememberDraft();
}

function rememberDraft() {
  const before = keptScopes().find((one) => one.id === draft.id);
  const good = !draft.faults.length && draft.scope.lessons.length > 0;
  // What was good last is what stories are checked with.
  const text = good ? draft.text : (before?.text ?? "");
  if (!before && !draft.scope.title && !draft.scope.lessons.length) return;
  keepScope({ id: draft.id, file: draftFile(), title: draft.scope.title || draftFile(), text, draft: draft.scope, changed: Date.now() });
}

/**
 * Goes to the first field with a fault.
 */
export function toFirstFault() {
  const first = by("scope-view").querySelector('[aria-invalid="true"]');
  if (!(first instanceof HTMLElement)) return;
  const folded = first.closest("details");
  if (folded) folded.open = true;
  unfold(first);
  first.focus();
  first.scrollIntoView({ block: "center" });
}
