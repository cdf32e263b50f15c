// The word bank beside the story: words that can be read at the lesson, to put in with a click.

import { button, by, el, many } from "./dom.js";
import { desk, lessonId, theScope } from "./desk.js";
import { insertWord } from "./edit.js";

/** What is shown. */
const bankWanted = { kind: "focus", pattern: "", sounds: "", shown: 60 };

/** Words that are shown at first, and that each click adds. */
const BANK_STEP = 60;

/** Words that are asked for. */
const BANK_MOST = 600;

let latestBank = 0;
let bankWaiting = 0;

/** @type {Array<[string, string]>} */
const BANK_KINDS = [
  ["focus", "practise the lesson"],
  ["all", "any readable word"],
  ["sight", "sight words"],
];

/** Connects the bank; it is open where there is room for it. */
export function startBank() {
  const bank = by("bank");
  bank.open = window.matchMedia("(min-width: 60.01rem)").matches;
  bank.addEventListener("toggle", () => void drawBank());
}

/** Draws the bank again a moment later: the lesson may go on changing. */
export function bankLater() {
  clearTimeout(bankWaiting);
  bankWaiting = setTimeout(() => void drawBank(), 150);
}

/**
 * Opens the bank with words of any pattern.
 * @param {string} sounds how many they have
 */
export function openBank(sounds) {
  Object.assign(bankWanted, { kind: "all", pattern: "", sounds, shown: BANK_STEP });
  by("bank").open = true;
  void drawBank();
  by("bank").querySelector("summary").focus();
}

/** The patterns taught up to the lesson, the latest first. */
function taughtSoFar() {
  const lessons = desk.scope.lessons.slice(0, desk.lesson + 1).reverse();
  return [...new Set(lessons.flatMap((/** @type {any} */ lesson) => lesson.patterns))];
}

/** @returns {Promise<{words: string[], found: number, problem?: string}>} */
async function wordsOfBank() {
  const { kind, pattern, sounds } = bankWanted;
  if (kind === "sight") {
    const lessons = desk.scope.lessons.slice(0, desk.lesson + 1).reverse();
    const words = lessons.flatMap((/** @type {any} */ lesson) => lesson.sight);
    return { words, found: words.length };
  }
  const range = sounds ? [Number(sounds), sounds === "6" ? 40 : Number(sounds)] : null;
  const answer = await desk.ask({ ask: "words", scope: theScope(desk.source), lesson: desk.lesson, focus: pattern ? [pattern] : [], all: kind === "all" && !pattern, sounds: range, limit: BANK_MOST });
  return answer.problem ? { words: [], found: 0, problem: answer.problem } : { words: answer.words.map((/** @type {any} */ one) => one.word), found: answer.found };
}

async function drawBank() {
  if (!by("bank").open || !desk.scope.lessons.length) return;
  const number = ++latestBank;
  const taught = taughtSoFar();
  if (bankWanted.pattern && !taught.includes(bankWanted.pattern)) bankWanted.pattern = "";
  const { words, found, problem } = await wordsOfBank();
  if (number !== latestBank) return;
  const host = by("bank-words");
  const held = document.activeElement instanceof HTMLElement && host.contains(document.activeElement) ? document.activeElement.id : "";
  const choose = (/** @type {"kind" | "pattern" | "sounds"} */ key, /** @type {string} */ label, /** @type {Array<[string, string]>} */ options) => {
    const select = el("select", { id: `bank-${key}` }, ...options.map(([value, text]) => el("option", { value }, text)));
    select.value = bankWanted[key];
    select.disabled = bankWanted.kind === "sight" && key !== "kind";
    select.addEventListener("change", () => {
      bankWanted[key] = select.value;
      bankWanted.shown = BANK_STEP;
      void drawBank();
    });
    return el("div", { className: "field" }, el("label", { htmlFor: select.id }, label), select);
  };
  const sounds = [["", "any number"], ...[2, 3, 4, 5].map((n) => [String(n), String(n)]), ["6", "6 or more"]];
  const one = (/** @type {string} */ word) => el("li", {}, button(word, () => insertWord(word), { "aria-label": `Insert ${word}` }));
  const more = () => {
    bankWanted.shown += BANK_STEP;
    void drawBank();
  };
  const says = problem ? `${problem}.` : found ? `${many(found, "word")} at lesson ${lessonId(desk.lesson)}. A click puts one in where the cursor is.` : "No common word fits.";
  host.replaceChildren(
    el(
      "div",
      { className: "fields" },
      choose("kind", "Words", BANK_KINDS),
      choose("pattern", "Pattern", [["", bankWanted.kind === "focus" ? "from the lesson" : "any"], ...taught.map((/** @type {string} */ one) => /** @type {[string, string]} */ ([one, one]))]),
      choose("sounds", "Sounds", /** @type {Array<[string, string]>} */ (sounds)),
    ),
    el("p", { className: "small" }, says),
    el("ul", { className: "chips bank-chips" }, ...words.slice(0, bankWanted.shown).map(one)),
    words.length > bankWanted.shown ? button("More words", more, { id: "bank-more" }) : "",
  );
  if (held) host.querySelector(`#${held}`)?.focus({ preventScroll: true });
}
