// The scope: one that comes with the page, or one's own file. A file with faults is not used; the one before stays in force.

import { button, by, el } from "./dom.js";
import { change, desk, theScope } from "./desk.js";

/** @type {Array<{source: any, title: string}>} */
const own = [];

/** Fills the list of scopes and lets it choose. */
export async function startScopes() {
  desk.scopes = await desk.ask({ ask: "scopes" });
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
 * Lets a scope count. The lesson of the same id stays, else the nearest place.
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
 * One's own scope file.
 * @param {string} text
 * @param {string} file
 */
export async function ownScope(text, file) {
  const source = { text, file };
  const scope = await desk.ask({ ask: "scope", scope: theScope(source) });
  if (scope.faults || scope.problem) return showFaults(scope, text, file);
  const same = own.findIndex((one) => one.source.file === file);
  own.splice(same < 0 ? own.length : same, 1, { source, title: scope.title || file });
  await chooseScope(source);
}

/**
 * What is wrong with a scope file, each fault with its line.
 * @param {any} scope
 * @param {string} text
 * @param {string} file
 */
function showFaults(scope, text, file) {
  const lines = text.split(/\r\n|\n|\r/);
  const fault = (/** @type {any} */ one) =>
    el(
      "li",
      {},
      el("strong", {}, `Line ${one.line}, column ${one.column}: `),
      `${one.message}.`,
      lines[one.line - 1]?.trim() ? el("code", {}, lines[one.line - 1].trim()) : null,
    );
  const list = (scope.faults ?? []).map(fault);
  const panel = by("faults");
  panel.hidden = false;
  panel.replaceChildren(
    el("h2", {}, "The scope file ", el("bdi", {}, file), " cannot be used"),
    scope.problem ? el("p", {}, scope.problem) : el("ol", {}, ...list),
    el("p", {}, "The previous scope is still in force. Mend the file and open it again."),
    button("All right", () => {
      panel.hidden = true;
    }),
  );
}
