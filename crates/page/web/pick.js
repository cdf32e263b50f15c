// Patterns to pick from the catalogue: by a spelling, a key word, or any word that has them.

import { button, el } from "./dom.js";
import { desk } from "./desk.js";
import { draft } from "./draft.js";
import { inIpa } from "./ipa.js";

let latestSearch = 0;

/**
 * A panel to pick patterns in.
 * @param {string} forWhat such as `lesson 3`
 * @param {(pattern: string) => void} pick
 * @param {() => void} close
 */
export function picker(forWhat, pick, close) {
  const search = el("input", { id: "pick-search", autocomplete: "off", spellcheck: false, autocapitalize: "none" });
  const found = el("ul", { className: "picks" });
  const split = el("p", { className: "small", role: "status" });
  const look = async () => {
    const number = ++latestSearch;
    const answer = await desk.ask({ ask: "catalogue", search: search.value, accent: draft.scope.accent });
    if (number !== latestSearch || answer.problem) return;
    split.textContent = answer.split ? `${search.value.trim()} is split up ${answer.split}` : answer.patterns.length ? "" : "No pattern has this spelling, and this is not a word of the dictionary.";
    found.replaceChildren(...answer.patterns.map(choiceOf));
  };
  const choiceOf = (/** @type {any} */ one) =>
    el(
      "li",
      {},
      button(one.pattern, () => pick(one.pattern), { "aria-label": `Add ${one.pattern} to ${forWhat}` }),
      el("span", { className: "small" }, one.pattern.includes(" as in ") ? one.grade : `as in ${one.keys.join(", ")}`, one.ipa.length ? inIpa(` /${one.ipa.join("/ /")}/`) : null),
    );
  search.addEventListener("input", look);
  const panel = el(
    "div",
    { className: "picker", role: "group", "aria-label": `Patterns for ${forWhat}` },
    el("div", { className: "tell" }, el("label", { htmlFor: "pick-search" }, "A spelling or a word that has it"), search, button("Done", close)),
    split,
    found,
  );
  panel.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Escape") close();
  });
  void look();
  return panel;
}
