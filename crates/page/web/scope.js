// The scope: one that comes with the page, or the user's own file. A file with errors is not used; the previous scope stays.

import { asSentence, button, by, el } from "./dom.js";
import { change, desk, theScope } from "./desk.js";
import { putAwayIf } from "./draft.js";
import { keepScope, keptScopes, newId } from "./memory.js";
import { correctHere } from "./scope-editor.js";

/** @type {Array<{source: any, title: string}>} */
const own = [];

/** Fills the list of scopes and handles the choice. */
export async function startScopes() {
  desk.scopes = await desk.ask({ ask: "scopes" });
  for (const kept of keptScopes().reverse()) {
    if (kept.text) own.push({ source: { text: kept.text, file: kept.file, id: kept.id }, title: kept.title });
  }
  drawScopes();
  by("scope").addEventListener("change", () => {
    const chosen = by("scope").value;
    const number = /^own (\d+)$/.exec(chosen);
    void chooseScope(number ? own[Number(number[1])].source : { name: chosen });
  });
  return chooseScope({ name: "starter" });
}

function drawScopes() {
  const select = by("scope");
  const named = desk.scopes.map((/** @type {any} */ scope) => el("option", { value: scope.name }, scope.title));
  const others = own.map((scope, number) => el("option", { value: `own ${number}` }, `${scope.title} (own)`));
  select.replaceChildren(...named, ...others);
  const number = own.findIndex((scope) => scope.source === desk.source);
  select.value = number < 0 ? (desk.source.name ?? "starter") : `own ${number}`;
}

/**
 * Switches to a scope. Keeps the lesson with the same id, else the nearest index.
 * @param {any} source
 */
export async function chooseScope(source) {
  const scope = await desk.ask({ ask: "scope", scope: theScope(source) });
  if (scope.faults || scope.problem) return scope;
  const before = desk.scope.lessons[desk.lesson]?.id;
  const same = scope.lessons.findIndex((/** @type {any} */ lesson) => lesson.id === before);
  const lesson = same >= 0 ? same : Math.min(desk.lesson, scope.lessons.length - 1);
  change({ source, scope, lesson });
  by("faults").hidden = true;
  drawScopes();
  return scope;
}

/**
 * Uses the scope of a story that is opened again: as it is now, if it was changed since. Gives whether it can be used.
 * @param {any} source
 * @param {string} title
 * @returns {Promise<boolean>}
 */
export async function useScope(source, title) {
  const same = (/** @type {any} */ one) => (source.id ? one.source.id === source.id : source.text && one.source.text === source.text);
  let known = own.find(same)?.source;
  if (source.text && !known) {
    own.push({ source, title: title || source.file });
    known = source;
  }
  const used = await chooseScope(known ?? source);
  return !used.faults && !used.problem;
}

/**
 * Puts a scope that was written here in use, in place of its earlier state.
 * @param {any} source
 * @param {string} title
 */
export async function putInUse(source, title) {
  const same = own.findIndex((one) => one.source.id === source.id);
  own.splice(same < 0 ? own.length : same, 1, { source, title });
  return chooseScope(source);
}

/**
 * Takes a scope from the list, unless it is in use.
 * @param {string} id
 */
export function forgetOwn(id) {
  const at = own.findIndex((one) => one.source.id === id);
  if (at >= 0 && desk.source.id !== id) own.splice(at, 1);
  drawScopes();
}

/**
 * The scope file of that name, if it was opened here before.
 * @param {string} file
 */
export function ownScopeNamed(file) {
  return own.find((one) => one.source.file === file)?.source ?? null;
}

/**
 * Uses a scope file of the user's own.
 * @param {string} text
 * @param {string} file
 */
export async function ownScope(text, file) {
  const same = own.findIndex((one) => one.source.file === file);
  const source = { text, file, id: own[same]?.source.id ?? newId() };
  const scope = await desk.ask({ ask: "scope", scope: theScope(source) });
  if (scope.faults || scope.problem) return showFaults(scope, source);
  own.splice(same < 0 ? own.length : same, 1, { source, title: scope.title || file });
  keepScope({ ...source, title: scope.title || file, draft: null, changed: Date.now() });
  putAwayIf(source.id);
  await chooseScope(source);
  // The story that waited for it gets its lesson back.
  const place = desk.awaits?.scope === file ? desk.scope.lessons.findIndex((/** @type {any} */ lesson) => lesson.id === desk.awaits.lesson) : -1;
  change({ awaits: null, ...(place < 0 ? {} : { lesson: place }) });
}

/**
 * Shows what is wrong with a scope file, each error with its line.
 * @param {any} scope
 * @param {any} source
 */
async function showFaults(scope, source) {
  const { text, file } = source;
  const lines = text.split(/\r\n|\n|\r/);
  const fault = (/** @type {any} */ one) =>
    el(
      "li",
      {},
      el("strong", {}, `Line ${one.line}, column ${one.column}: `),
      asSentence(one.message),
      lines[one.line - 1]?.trim() ? el("code", {}, lines[one.line - 1].trim()) : null,
    );
  const list = (scope.faults ?? []).map(fault);
  const panel = by("faults");
  const hide = () => {
    panel.hidden = true;
  };
  const begun = scope.problem ? scope : await desk.ask({ ask: "begin_draft", scope: theScope(source) });
  const correct = async () => {
    hide();
    await correctHere(source);
  };
  panel.hidden = false;
  panel.replaceChildren(
    el("h2", { tabIndex: -1 }, "The scope file ", el("bdi", {}, file), " cannot be used"),
    scope.problem ? el("p", {}, scope.problem) : el("ol", {}, ...list),
    el("p", {}, "Still using the previous scope. Correct the file and open it again."),
    el("div", { className: "acts" }, begun.draft ? button("Correct it here", () => void correct(), { id: "correct-here", className: "main" }) : null, button("Close", hide)),
  );
  // The panel is at the top, and the page may not be.
  panel.querySelector("h2")?.focus();
}
