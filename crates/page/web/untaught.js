// The untaught words of the story: as a list in several orders, and one after the other in the story itself.

import { button, by, el, many } from "./dom.js";
import { change, desk, lessonId } from "./desk.js";
import { showWord } from "./word.js";

/** The orders of the list. */
const ORDERS = /** @type {const} */ ([
  ["story", "as in the story"],
  ["need", "by what they need"],
  ["lesson", "by lesson"],
  ["times", "most frequent first"],
  ["letters", "A to Z"],
]);

let order = "story";
let allShown = false;

/** Rows that are shown at first. */
const ROWS = 150;

/** @typedef {(marked: any, number: number, key: string) => HTMLElement} WordButton */

/** Words that are never taught come last. @param {number | null} lesson */
function late(lesson) {
  return lesson ?? Number.MAX_SAFE_INTEGER;
}

/** @param {any} marked */
function ordered(marked) {
  const shown = (/** @type {any} */ one) => marked.distinct[one.number];
  /** @type {Record<string, (a: any, b: any) => number>} */
  const by_ = {
    story: () => 0,
    need: (a, b) => late(a.hurdle.lesson) - late(b.hurdle.lesson) || a.hurdle.label.localeCompare(b.hurdle.label),
    lesson: (a, b) => late(a.first) - late(b.first),
    times: (a, b) => shown(b).count - shown(a).count,
    letters: (a, b) => shown(a).word.localeCompare(shown(b).word),
  };
  return [...marked.untaught].sort(by_[order]);
}

/**
 * The section of the notes with the untaught words.
 * @param {any} marked
 * @param {WordButton} wordButton
 */
export function untaughtSection(marked, wordButton) {
  const section = el("section", { className: "untaught", id: "untaught" });
  drawUntaught(section, marked, wordButton);
  return section;
}

/**
 * @param {HTMLElement} section
 * @param {any} marked
 * @param {WordButton} wordButton
 */
function drawUntaught(section, marked, wordButton) {
  if (!marked.untaught.length) {
    section.replaceChildren(el("h2", {}, "Untaught words"), el("p", {}, `None: every word can be read at lesson ${lessonId(desk.lesson)}.`));
    return;
  }
  const again = () => drawUntaught(section, marked, wordButton);
  const select = el("select", { id: "untaught-order", "data-key": "untaught order" }, ...ORDERS.map(([value, text]) => el("option", { value }, text)));
  select.value = order;
  select.addEventListener("change", () => {
    order = select.value;
    again();
    by("untaught-order").focus();
  });
  const row = (/** @type {any} */ one) => untaughtRow(marked, one, wordButton);
  const rows = ordered(marked);
  const shown = allShown ? rows : rows.slice(0, ROWS);
  const head = ["word", "why", "from lesson"].map((name) => el("th", { scope: "col" }, name));
  const bodies = order === "need" ? groups(shown).map(([label, group]) => el("tbody", {}, groupHead(marked, label, group), ...group.map(row))) : [el("tbody", {}, ...shown.map(row))];
  const more = () => {
    allShown = true;
    again();
  };
  section.replaceChildren(
    el("h2", {}, "Untaught words ", el("span", { className: "small" }, `${marked.untaught.length} different`)),
    el("p", { className: "order" }, el("label", { htmlFor: "untaught-order", className: "small" }, "Order "), select),
    el("table", {}, el("thead", {}, el("tr", {}, ...head)), ...bodies),
    rows.length > shown.length ? button(`Show all ${rows.length}`, more, { id: "untaught-all" }) : "",
  );
  markChosenRow();
}

/**
 * @param {any[]} rows
 * @returns {Array<[string, any[]]>}
 */
function groups(rows) {
  const found = new Map();
  for (const one of rows) {
    const key = `${one.hurdle.label}\n${one.hurdle.lesson}`;
    found.set(key, [...(found.get(key) ?? []), one]);
  }
  return [...found.values()].map((group) => [group[0].hurdle.label, group]);
}

/**
 * @param {any} marked
 * @param {string} label
 * @param {any[]} group
 */
function groupHead(marked, label, group) {
  const lesson = group[0].hurdle.lesson;
  const words = group.reduce((sum, one) => sum + marked.distinct[one.number].count, 0);
  const when = lesson !== null ? `, lesson ${lessonId(lesson)}` : label.includes("teach it") ? "" : ", never taught";
  return el("tr", { className: "group" }, el("th", { scope: "rowgroup", colSpan: 3 }, `${label}${when} `, el("span", { className: "small" }, many(words, "word"))));
}

/**
 * @param {any} marked
 * @param {any} one
 * @param {WordButton} wordButton
 */
function untaughtRow(marked, one, wordButton) {
  const type = marked.distinct[one.number];
  const id = one.first === null ? null : lessonId(one.first);
  const extra = [one.likely_name ? "looks like a name" : "", one.by_letters ? "not in the dictionary" : ""].filter(Boolean);
  return el(
    "tr",
    { "data-word": type.word },
    el("th", { scope: "row" }, wordButton(marked, one.number, "untaught"), type.count > 1 ? el("span", { className: "times" }, ` × ${type.count}`) : ""),
    el("td", {}, one.needs, extra.length ? el("span", { className: "small" }, ` (${extra.join("; ")})`) : ""),
    el("td", {}, id === null ? "never" : button(id, () => change({ lesson: one.first }), { className: "plain", "aria-label": `Go to lesson ${id}`, "data-key": `go ${type.word}` })),
  );
}

/** Marks the row of the selected word. */
export function markChosenRow() {
  const chosen = desk.chosen?.word.toLowerCase().replaceAll("’", "'");
  for (const row of by("notes").querySelectorAll("tr[data-word]")) row.classList.toggle("here", row.dataset.word === chosen);
}

/** Connects the buttons that go from one untaught word to the next. */
export function startUntaught() {
  by("next-untaught").addEventListener("click", () => void goTo(1));
  by("previous-untaught").addEventListener("click", () => void goTo(-1));
}

/** The buttons are there for a story that has untaught words. */
export function drawSteps() {
  const none = !desk.marked?.untaught.length;
  by("next-untaught").disabled = none;
  by("previous-untaught").disabled = none;
}

/**
 * Selects the next untaught word, or the one before; after the last comes the first.
 * @param {1 | -1} step
 */
async function goTo(step) {
  const { words, distinct } = desk.marked;
  const from = desk.chosen ? desk.chosen.start : by("text").selectionStart - (step > 0 ? 1 : 0);
  const places = [];
  for (let at = 0; at < words.length; at += 3) if (distinct[words[at + 2]].status === "untaught") places.push(at);
  if (!places.length) return;
  const next = step > 0 ? places.find((at) => words[at] > from) : places.filter((at) => words[at] < from).pop();
  const at = next ?? (step > 0 ? places[0] : places[places.length - 1]);
  const [start, end] = words.slice(at, at + 2);
  if (!desk.reading) by("text").setSelectionRange(start, end);
  await showWord({ word: desk.story.slice(start, end), start, end });
  showChosen();
}

/** Scrolls the selected word into view, unless it is there. */
export function showChosen() {
  const mark = by("marks").querySelector(".c");
  const box = mark?.getBoundingClientRect();
  const panel = by("word");
  const bottom = getComputedStyle(panel).position === "sticky" && getComputedStyle(panel).bottom === "0px" ? panel.getBoundingClientRect().top : window.innerHeight;
  if (box && (box.top < 40 || box.bottom > bottom - 20)) window.scrollBy({ top: box.top - bottom / 2 });
}
