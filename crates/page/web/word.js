// The selected word: how it is split up, what it needs and when that is taught, and what can be done about it.

import { button, by, drawing, el, many } from "./dom.js";
import { change, desk, isDeclared, lessonId, theScope } from "./desk.js";
import { edit, fitted, removeWord, replaceAll, reword, undoable } from "./edit.js";
import { STATUS_SAYS } from "./marks.js";
import { openBank } from "./bank.js";
import { addSightWord, undoDraft } from "./draft.js";
import { say } from "./files.js";
import { inIpa, ipaSwitch } from "./ipa.js";

let latest = 0;
/** The word that the panel was scrolled to the top for. */
let shownFromTop = "";

/** Shown before there is a story. */
const GUIDE = () => [
  el("h2", {}, "Can they read it yet?"),
  el(
    "ol",
    {},
    el("li", {}, "Choose the lesson the children have reached."),
    el("li", {}, "Paste or type a story. Each word is checked as you type."),
    el("li", {}, "Click a marked word to see why it is marked, when it is taught, and which words could replace it."),
  ),
  el("p", {}, "Do you teach in an order of your own? ", button("Write or paste it", () => by("show-scope").click(), { className: "plain", id: "to-scope" }), " and use it instead of the example."),
  el("p", { className: "small" }, "A dictionary splits words into spellings and sounds, not the letters alone: “mishap” has no sh, and “said” is irregular."),
];

/** Shown while no word is selected. */
function hint() {
  const untaught = desk.marked?.untaught.length ?? 0;
  const toPlan = () => {
    by("plan").scrollIntoView({ block: "start" });
    by("goal").focus({ preventScroll: true });
  };
  return [
    el("p", { className: "hint" }, "Click a word to see how it is split up, what it needs, and when that is taught."),
    untaught ? el("p", { className: "hint" }, button(`Plan what to change: ${many(untaught, "word")}`, toPlan, { className: "plain", id: "to-plan" })) : "",
  ];
}

/**
 * Selects a word and shows it.
 * @param {{word: string, start: number, end: number} | null} chosen
 * @param {boolean} [goThere] whether focus moves to the panel
 */
export async function showWord(chosen, goThere = false) {
  const from = document.activeElement;
  change({ chosen });
  await drawWord();
  const panel = by("word");
  if (!chosen) return;
  // Someone who is already typing elsewhere is left there.
  const stayed = [from, document.body].includes(document.activeElement);
  if (goThere && stayed) panel.focus({ preventScroll: false });
  panel.onkeydown = (/** @type {KeyboardEvent} */ event) => {
    if (event.key !== "Escape") return;
    panel.onkeydown = null;
    if (from instanceof HTMLElement && from.isConnected && from !== document.body && !panel.contains(from)) from.focus();
    // In read mode the word itself was made again.
    else /** @type {HTMLElement} */ (by("marks").querySelector("button.c") ?? by(desk.reading ? "read" : "text")).focus();
  };
}

/**
 * On a narrow page the panel covers the lower part: scrolls a word touched there into view.
 * @param {number} y where it was touched, from the top of the viewport
 */
export function keepInSight(y) {
  const panel = by("word");
  if (getComputedStyle(panel).position !== "sticky" || getComputedStyle(panel).bottom !== "0px") return;
  const top = panel.getBoundingClientRect().top;
  if (y > top - 40) window.scrollBy({ top: y - top / 2 });
}

/** Draws the details of the selected word. */
export async function drawWord() {
  const panel = by("word");
  const chosen = desk.chosen;
  panel.classList.toggle("open", Boolean(chosen));
  if (!chosen) {
    panel.replaceChildren(...(desk.story.trim() ? hint() : GUIDE()));
    return;
  }
  const number = ++latest;
  const about = await desk.ask({
    ask: "word",
    scope: theScope(desk.source),
    lesson: desk.lesson,
    word: chosen.word,
    before: desk.story.slice(Math.max(0, chosen.start - 200), chosen.start),
    after: desk.story.slice(chosen.end, chosen.end + 200),
    declared: isDeclared(chosen.word.toLowerCase().replaceAll("’", "'")),
  });
  // Another word may have been selected in the meantime.
  if (number !== latest) return;
  if (about.problem) {
    panel.replaceChildren(el("p", {}, about.problem));
    return;
  }
  const inside = panel.contains(document.activeElement);
  const name = about.status === "untaught" && looksLikeName(about.word);
  const parts = [
    button("Close", () => showWord(null), { className: "close" }),
    el("h2", {}, el("bdi", {}, chosen.word)),
    standing(about),
    ...boxesOf(about.reading),
    // What can be done comes before the details; nothing stands for a name.
    declaring(about, chosen, name),
    ...(name ? [] : swaps(about, chosen)),
    ...when(about),
    ...reading(about.reading, about.missing),
    about.reading ? ipaSwitch() : null,
    ...other(about),
  ];
  panel.replaceChildren(...parts.filter(Boolean));
  // Another word, or what it counts as now, is shown from the top.
  const key = `${chosen.start} ${chosen.word} ${about.status}`;
  if (key !== shownFromTop) panel.scrollTop = 0;
  shownFromTop = key;
  // The focused element has been made again.
  if (inside) panel.focus({ preventScroll: true });
}

/** @param {any} about */
function standing(about) {
  const status = STATUS_SAYS[/** @type {keyof typeof STATUS_SAYS} */ (about.status)];
  const mark = { untaught: "u", sight: "s", story: "t", decodable: "" }[/** @type {string} */ (about.status)];
  return el(
    "p",
    { className: "standing" },
    el("strong", { className: mark }, status),
    about.status === "story" ? "" : ` at lesson ${lessonId(desk.lesson)}`,
    about.practises ? ", and practises what that lesson teaches" : "",
    about.origin ? el("span", { className: "origin" }, about.origin) : null,
  );
}

/**
 * The boxes of a reading.
 * @param {any} reading
 */
function boxesOf(reading) {
  if (!reading?.drawing) return [];
  return [el("div", { className: "drawing" }, drawing(reading.drawing)), reading.boxes?.note ? el("p", { className: "small" }, `${reading.boxes.note}.`) : null];
}

/**
 * The parts of a reading.
 * @param {any} reading
 * @param {any[]} [missing]
 */
function reading(reading, missing = []) {
  if (!reading) return [];
  const labels = new Set(missing.map((/** @type {any} */ one) => one.label));
  const row = (/** @type {any} */ part) => {
    const lacks = labels.has(part.pattern);
    return el(
      "tr",
      { className: lacks ? "lacks" : "" },
      el("th", { scope: "row" }, el("bdi", {}, part.spelling)),
      el("td", { className: "sounds-ipa" }, part.ipa ? `/${part.ipa}/` : "no sound"),
      el("td", {}, part.pattern),
      el("td", {}, lessonCell(part.lesson)),
    );
  };
  const head = ["spelling", "sound", "pattern", "lesson"].map((name) => el("th", { scope: "col", className: name === "sound" ? "sounds-ipa" : "" }, name));
  const skills = reading.skills.map((/** @type {any} */ skill) =>
    el("tr", { className: labels.has(skill.label) ? "lacks" : "" }, el("th", { scope: "row", colSpan: 2 }, skill.label), el("td", { className: "sounds-ipa" }), el("td", {}, lessonCell(skill.lesson))),
  );
  return [
    el("p", { className: "ipa sounds-ipa" }, `/${reading.ipa}/`),
    el("table", { className: "parts" }, el("thead", {}, el("tr", {}, ...head)), el("tbody", {}, ...reading.parts.map(row), ...skills)),
  ].filter(Boolean);
}

/** @param {number | null} place */
function lessonCell(place) {
  return place === null ? "never" : lessonId(place);
}

/** @param {any} about */
function when(about) {
  if (about.status !== "untaught") return [];
  const whole = about.missing.length === 1 && about.missing[0].label === "a sight word";
  const needs = about.missing.map((/** @type {any} */ one) =>
    el("li", {}, el("strong", {}, one.label), one.lesson === null ? ", which this scope never teaches" : `, lesson ${lessonId(one.lesson)}`),
  );
  const made = whole ? [el("p", {}, "This is a sight word: taught as a whole word, not sounded out.")] : [el("h3", {}, "It needs"), el("ul", { className: "needs" }, ...needs)];
  if (about.readable !== null) {
    const id = lessonId(about.readable);
    made.push(el("p", {}, `It can be read from lesson ${id}. `, button(`Go to lesson ${id}`, () => change({ lesson: about.readable }))));
  }
  return made;
}

/** @param {any} about */
function other(about) {
  if (!about.other) return [];
  return [
    el("details", {}, el("summary", {}, "Another pronunciation, not taught yet", inIpa(`: /${about.other.ipa}/`)), ...boxesOf(about.other).filter(Boolean), ...reading(about.other)),
  ];
}

/**
 * @param {any} about
 * @param {any} chosen
 */
function swaps(about, chosen) {
  const one = (/** @type {any} */ swap) => {
    const shown = swap.article ? `${swap.article} ${swap.text}` : swap.text;
    const sense = swap.sense ? el("span", { className: "origin" }, swap.sense) : null;
    return el("li", {}, button(shown, () => replaceWord(chosen, swap)), sense);
  };
  const several = desk.marked?.distinct.findIndex((/** @type {any} */ type) => type.word === about.word && type.count > 1) ?? -1;
  const all = (/** @type {any} */ swap) => el("li", {}, button(`${swap.text}, all ${desk.marked.distinct[several].count}`, () => replaceAll(desk.marked, several, swap)));
  const everywhere = several < 0 ? [] : [...about.swaps, ...about.of_the_kind].slice(0, 3).map(all);
  const whole = everywhere.length ? [el("h3", {}, "Replace everywhere"), el("ul", { className: "chips" }, ...everywhere)] : [];
  const without = about.without ? [el("p", { className: "chips" }, button("Leave it out", () => leaveOut(chosen, about.without)))] : [];
  const wider = about.rewordings.map((/** @type {any} */ made) => el("li", {}, button(rewordingSays(made), () => rewordHere(chosen, made))));
  const inOtherWords = wider.length ? [el("h3", {}, "Or in other words"), el("ul", { className: "chips" }, ...wider)] : [];
  if (about.status === "untaught" && !about.swaps.length && !about.of_the_kind.length && !about.without && !wider.length) return [otherWords(about, chosen)];
  const list = (/** @type {string} */ title, /** @type {any[]} */ found) =>
    found.length ? [el("h3", {}, title), el("ul", { className: "chips" }, ...found.map(one))] : [];
  return [...list("Replace with", about.swaps), ...without, ...inOtherWords, ...list("Change to another of the kind", about.of_the_kind), ...whole];
}

/**
 * What the button of a rewording says.
 * @param {any} made
 */
export function rewordingSays(made) {
  const old = made.old.replace(/\s+/g, " ");
  return made.new ? `${old} → ${made.new}` : `leave out “${old}”`;
}

/**
 * @param {any} chosen
 * @param {any} made
 */
function rewordHere(chosen, made) {
  reword(chosen.start, chosen.end, made);
  void showWord(null);
}

/**
 * Words that can be read, for a word without a swap; they come when they are found.
 * @param {any} about
 * @param {any} chosen
 */
function otherWords(about, chosen) {
  const sounds = Math.min(Math.max(about.reading?.parts.length ?? 3, 2), 6);
  const list = el("ul", { className: "chips" });
  const fill = async () => {
    const found = await desk.ask({ ask: "words", scope: theScope(desk.source), lesson: desk.lesson, sounds: [Math.max(sounds - 1, 2), sounds + 1], limit: 8 });
    const words = (found.words ?? []).map((/** @type {any} */ one) => one.word);
    list.replaceChildren(...words.map((/** @type {string} */ word) => el("li", {}, button(word, () => replaceWord(chosen, { text: word, takes_an: /^[aeiou]/.test(word) })))));
  };
  void fill();
  return el("div", {}, el("p", { className: "small" }, "No swap of the same meaning is known. Words that can be read, to say it another way:"), list, button("More words", () => openBank(String(sounds)), { className: "plain", id: "open-bank" }));
}

/**
 * Takes the selected word out, with one space, in a way the browser can undo.
 * @param {any} chosen
 * @param {any} without
 */
function leaveOut(chosen, without) {
  removeWord(chosen.start, chosen.end, without.article);
  void showWord(null);
}

/**
 * Replaces the selected word in a way the browser can undo.
 * @param {any} chosen
 * @param {any} swap
 */
function replaceWord(chosen, swap) {
  const { start, text } = fitted(swap, chosen.start, chosen.end);
  edit(start, chosen.end, text);
  const end = start + text.length;
  const word = desk.story.slice(end - swap.text.length, end);
  void showWord({ word, start: end - swap.text.length, end });
}

/**
 * Whether the story has this word as an untaught word that looks like a name.
 * @param {string} word
 */
function looksLikeName(word) {
  const { untaught, distinct } = desk.marked ?? { untaught: [], distinct: [] };
  return untaught.some((/** @type {any} */ one) => one.likely_name && distinct[one.number].word === word);
}

/**
 * @param {any} about
 * @param {any} chosen
 * @param {boolean} name whether it looks like a name
 */
function declaring(about, chosen, name) {
  const same = (/** @type {string} */ word) => word.toLowerCase() === chosen.word.toLowerCase();
  if ([...desk.names, ...desk.storyWords].some((word) => same(word) || same(`${word}'s`) || same(`${word}’s`))) {
    return el("p", { className: "chips" }, button("Remove from pre-taught words", () => undeclare(chosen.word.replace(/['’]s$/i, ""))));
  }
  if (about.status !== "untaught") return null;
  const asName = button("This is a name", () => declare("names", chosen.word));
  const asWord = button("I'll pre-teach it", () => declare("storyWords", chosen.word.toLowerCase()));
  const asSight = !name && desk.source.id ? button(`Add to lesson ${lessonId(desk.lesson)} as a sight word`, () => void toScope(chosen.word), { id: "add-sight" }) : "";
  return el("p", { className: "chips" }, ...(name ? [asName, asWord] : [asWord, asName]), asSight);
}

/**
 * Makes a word a sight word of the lesson, in the user's own scope.
 * @param {string} word
 */
async function toScope(word) {
  const written = word.toLowerCase().replaceAll("’", "'");
  const refused = await addSightWord(written === "i" ? "I" : written);
  if (refused) return say(refused);
  const back = () => {
    undoDraft();
    say("");
  };
  by("said").replaceChildren(`“${written}” is now a sight word of lesson ${lessonId(desk.lesson)} in ${desk.scope.title}. `, button("Undo", back, { className: "plain", id: "undo-sight" }));
}

/**
 * @param {"names" | "storyWords"} list
 * @param {string} word
 */
export function declare(list, word) {
  // The possessive goes with the name: *Finn's* with *Finn*.
  const written = word.trim().replace(/^[^\p{L}]+|[^\p{L}]+$/gu, "").replace(/['’]s$/i, "");
  if (written && !desk[list].some((/** @type {string} */ one) => one.toLowerCase() === written.toLowerCase())) {
    undoable(() => change({ [list]: [...desk[list], written] }));
  }
}

/** @param {string} word */
export function undeclare(word) {
  const others = (/** @type {string} */ one) => one.toLowerCase() !== word.toLowerCase();
  undoable(() => change({ names: desk.names.filter(others), storyWords: desk.storyWords.filter(others) }));
}
