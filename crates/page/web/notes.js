// Notes on the whole story: the figures, the untaught words with their reasons, words to check, names and story words.

import { button, by, el, many } from "./dom.js";
import { change, desk, lessonId } from "./desk.js";
import { firstPlace } from "./marks.js";
import { withIpa } from "./ipa.js";
import { planSection } from "./plan.js";
import { untaughtSection } from "./untaught.js";
import { declare, showWord, undeclare } from "./word.js";

/** Draws the figures above the story. */
export function drawFigures() {
  const marked = desk.marked;
  const list = by("figures");
  if (!marked?.counts.words) {
    list.replaceChildren(el("li", { className: "quiet" }, "No words yet."));
    by("summary").textContent = "";
    drawLegend(null);
    return;
  }
  const { words, decodable, sight, story, untaught } = marked.counts;
  const figure = (/** @type {string} */ big, /** @type {string} */ name, /** @type {string} */ small) =>
    el("li", {}, el("span", { className: "big" }, big), el("span", {}, explained(name), el("br"), small));
  const readable = `${words - untaught} of ${many(words, "word")}: ${decodable} decodable, ${sight} sight, ${story} pre-taught`;
  list.replaceChildren(
    figure(marked.percent.readable, "readable", readable),
    figure(marked.percent.decodable, "decodable", `${decodable} of ${many(words, "word")}`),
    practised(marked),
  );
  tell(`${marked.percent.readable} readable: ${many(untaught, "untaught word")} of ${words} at lesson ${lessonId(desk.lesson)}.`);
  drawLegend(marked);
}

/**
 * The name of a figure as a button that says what it counts.
 * @param {string} name
 */
function explained(name) {
  return el("button", { type: "button", className: "explained", popovertarget: "explanation", title: `What does ${name} mean?` }, name);
}

let telling = 0;

/**
 * Announces a text to screen readers once typing has paused.
 * @param {string} text
 */
function tell(text) {
  clearTimeout(telling);
  telling = setTimeout(() => {
    by("summary").textContent = text;
  }, 900);
}

/** @param {any} marked */
function practised(marked) {
  const { patterns, tokens, percent } = marked.focus;
  if (!patterns.length) return "";
  return el(
    "li",
    {},
    el("span", { className: "big" }, String(tokens)),
    el("span", {}, el("strong", {}, `${tokens === 1 ? "word practises" : "words practise"} the lesson`), el("br"), `${patterns.join(", ")}: ${percent}`),
  );
}

/** @param {any} marked */
function drawLegend(marked) {
  const has = (/** @type {(word: any) => boolean} */ test) => marked?.distinct.some(test);
  const entries = [
    ["u", "untaught", has((word) => word.status === "untaught")],
    ["s", "sight word", has((word) => word.status === "sight")],
    ["t", "pre-taught", has((word) => word.status === "story")],
    ["d", "check this word", has((word) => word.doubtful)],
    ["f", "practises the lesson", has((word) => word.focus)],
  ];
  const shown = entries.filter(([, , there]) => there).map(([mark, name]) => el("span", { className: mark }, name));
  by("legend").replaceChildren(...shown.flatMap((one) => [one, " "]));
}

/** Draws the notes below the story. */
export function drawNotes() {
  const marked = desk.marked;
  const host = by("notes");
  if (!marked?.counts.words) {
    host.replaceChildren();
    return;
  }
  const held = heldFocus(host);
  const side = [remarks(marked), preTaughtWords(), helps(marked), focusWords(marked)].filter(Boolean);
  const words = el("div", { className: "side" }, untaughtSection(marked, wordButton), planSection(marked, wordButton));
  host.replaceChildren(words, el("div", { className: "side" }, ...side));
  if (held) /** @type {HTMLElement} */ (host.querySelector(`[data-key="${held}"]`) ?? host).focus({ preventScroll: true });
}

/**
 * The key of the focused control in the notes, which are about to be made again.
 * @param {HTMLElement} host
 */
function heldFocus(host) {
  const on = document.activeElement;
  return on instanceof HTMLElement && host.contains(on) ? CSS.escape(on.dataset.key ?? "") : "";
}

/**
 * A word of the story as a button that shows it.
 * @param {any} marked
 * @param {number} number
 * @param {string} key
 */
function wordButton(marked, number, key) {
  const type = marked.distinct[number];
  const act = () => {
    const place = firstPlace(marked, number);
    if (!place) return;
    const word = desk.story.slice(place.start, place.end);
    if (!desk.reading) by("text").setSelectionRange(place.start, place.end);
    void showWord({ word, start: place.start, end: place.end }, true);
  };
  return button(type.shown, act, { className: "plain", dir: "auto", "data-key": `${key} ${type.word}` });
}

/** @param {any} marked */
function helps(marked) {
  if (!marked.obstacles.length) return null;
  const one = (/** @type {any} */ obstacle) =>
    el(
      "li",
      {},
      el("strong", {}, obstacle.label),
      obstacle.lesson === null ? ", never taught in this scope" : `, lesson ${lessonId(obstacle.lesson)}`,
      `: ${many(obstacle.words, "more word")}`,
    );
  return el("section", {}, el("h2", {}, "What would help most"), el("ol", {}, ...marked.obstacles.map(one)));
}

/** @param {any} marked */
function remarks(marked) {
  const one = (/** @type {any} */ remark) => el("li", {}, "“", wordButton(marked, remark.number, "remark"), "” ", ...withIpa(remark.say.replace(/^“[^”]*” /, "")));
  const list = [...marked.two_readings, ...marked.by_letters].map(one);
  const missing = marked.not_in_text.map((/** @type {string} */ word) => el("li", {}, `“${word}” is pre-taught, but it is not in the story.`));
  if (marked.uncounted.length) missing.push(el("li", {}, `Not counted: ${marked.uncounted.join(", ")}`));
  if (!list.length && !missing.length) return null;
  return el("section", {}, el("h2", {}, "Check these"), el("ul", {}, ...list, ...missing));
}

/** @param {any} marked */
function focusWords(marked) {
  if (!marked.focus.numbers.length) return null;
  const words = marked.focus.numbers.flatMap((/** @type {number} */ number, /** @type {number} */ at) => [at ? ", " : "", wordButton(marked, number, "focus")]);
  return el("section", {}, el("h2", {}, "Words that practise the lesson"), el("p", { className: "words" }, ...words));
}

/** Text typed in the field, kept when the notes are drawn again. */
let halfTyped = "";

/** The names and story words, with a field to add more. */
function preTaughtWords() {
  const chip = (/** @type {string} */ word) =>
    el("li", {}, el("bdi", {}, word), button("×", () => undeclare(word), { "aria-label": `Remove ${word}`, "data-key": `pre-taught ${word}` }));
  const chips = [...desk.names, ...desk.storyWords].map(chip);
  const add = el("input", { id: "tell", autocomplete: "off", size: 14, value: halfTyped, "data-key": "tell" });
  add.addEventListener("input", () => {
    halfTyped = add.value;
  });
  const submit = (/** @type {Event} */ event) => {
    event.preventDefault();
    halfTyped = "";
    // A capital makes it a name.
    for (const word of add.value.split(/[\s,]+/)) declare(/^\p{Lu}/u.test(word) ? "names" : "storyWords", word);
  };
  return el(
    "section",
    {},
    el("h2", {}, "Names and story words"),
    chips.length ? el("ul", { className: "chips" }, ...chips) : el("p", { className: "small" }, "Names and other words that you teach before the children read the story."),
    el("form", { className: "tell", onsubmit: submit }, el("label", { htmlFor: "tell" }, "Add a word"), " ", add, " ", el("button", {}, "Add")),
  );
}
