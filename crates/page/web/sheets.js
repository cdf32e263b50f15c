// The lists as shown on the page and in print.

import { drawing, el, many } from "./dom.js";
import { inIpa, withIpa } from "./ipa.js";

/**
 * A word list, grouped by number of sounds.
 * @param {any} found
 */
export function wordsSheet(found) {
  const groups = new Map();
  for (const word of found.words) groups.set(word.sounds, [...(groups.get(word.sounds) ?? []), word]);
  const group = (/** @type {[number, any[]]} */ [sounds, words]) =>
    el("section", {}, el("h3", {}, many(sounds, "sound")), el("ul", { className: "bank" }, ...words.map((word) => el("li", {}, word.word))));
  const some = found.found > found.words.length ? `the ${found.words.length} most common of ${found.found} words` : many(found.found, "word");
  const practise = found.patterns.length ? ` that practise ${found.patterns.join(", ")}` : "";
  if (!found.found) return el("p", {}, "No common word matches these options.");
  return el("div", {}, el("p", { className: "small" }, `${some}${practise}`), ...[...groups].sort(([a], [b]) => a - b).map(group));
}

/**
 * Words in sound boxes.
 * @param {any[]} words
 */
export function boxesSheet(words) {
  const one = (/** @type {any} */ word) =>
    el(
      "li",
      // When copied as text, boxes are separated by bars.
      { "data-copy": word.boxes ? `${word.word}: ${word.boxes.boxes.map((/** @type {any} */ box) => box.letters + (box.silent_e ? " (e)" : "")).join(" | ")}` : word.word },
      word.drawing ? drawing(word.drawing) : el("p", {}, el("strong", {}, word.word), " is irregular: teach it as a whole word, without boxes."),
      word.boxes?.note ? el("p", { className: "small" }, word.boxes.note) : null,
    );
  return el("ul", { className: "boxes" }, ...words.map(one));
}

/**
 * A chain of words, and what each step changes.
 * @param {any} chain
 */
export function chainSheet(chain) {
  const rung = (/** @type {string} */ word, /** @type {number} */ at) =>
    el("li", {}, at ? el("span", { className: "step" }, chain.steps[at - 1].say) : el("span", { className: "step" }, "start with"), el("span", { className: "rung" }, word));
  const tiles = el("p", {}, el("span", { className: "small" }, "tiles "), ...chain.tiles.map((/** @type {string} */ tile) => el("span", { className: "card" }, tile)));
  return el("div", {}, el("ol", { className: "ladder" }, ...chain.words.map(rung)), tiles);
}

/**
 * A listening list with its key.
 * @param {any} list
 */
export function listeningSheet(list) {
  const row = (/** @type {any} */ item) =>
    el("li", {}, item.word, " ", el("span", { className: item.has ? "yes" : "" }, item.has ? "yes" : "no", item.foil && !item.has ? inIpa(`, /${item.foil}/`) : null));
  return el(
    "div",
    {},
    el("p", {}, "Say each word. Does it have ", el("strong", {}, ...withIpa(list.heading)), "?"),
    el("ol", { className: "heard" }, ...list.items.map(row)),
    list.pairs.length ? el("p", { className: "small" }, `Pairs that differ only in this sound: ${list.pairs.map((/** @type {string[]} */ pair) => pair.join(" – ")).join(", ")}`) : null,
  );
}

/**
 * Words and sentences to spell.
 * @param {any} list
 */
export function dictationSheet(list) {
  const words = (/** @type {string} */ name, /** @type {string[]} */ all) =>
    all.length ? el("section", {}, el("h3", {}, name), el("ol", { className: "spelled" }, ...all.map((word) => el("li", {}, word)))) : null;
  return el(
    "div",
    {},
    el("div", { className: "columns" }, words("New", list.new), words("Review", list.review), words("Sight words", list.sight)),
    list.sentences.length ? el("section", {}, el("h3", {}, "Sentences"), el("ol", {}, ...list.sentences.map((/** @type {string} */ text) => el("li", {}, text)))) : null,
  );
}

/**
 * Sounds to put together, words to take apart.
 * @param {any} oral
 */
function oralSheet(oral) {
  const list = (/** @type {string} */ name, /** @type {any[]} */ words, /** @type {boolean} */ sounds) =>
    el("section", {}, el("h3", {}, name), el("ul", { className: "bank" }, ...words.map((one) => el("li", {}, sounds ? `${one.sounds.join(" – ")} (${one.word})` : `${one.word} (${one.sounds.join(" – ")})`))));
  return el("div", {}, list("Say the sounds; they say the word", oral.blend, true), list("Say the word; they say the sounds", oral.segment, false));
}

/**
 * Words to sort, and under which heading each belongs.
 * @param {any} sort
 */
function sortSheet(sort) {
  const under = (/** @type {number | null} */ column) => sort.words.filter((/** @type {any} */ one) => one.column === column).map((/** @type {any} */ one) => one.word).join(", ");
  const rows = [...sort.columns.map((/** @type {string} */ name, /** @type {number} */ at) => [name, under(at)]), ["none of them", under(null)]];
  return el(
    "div",
    {},
    el("ul", { className: "bank" }, ...sort.words.map((/** @type {any} */ one) => el("li", {}, one.word))),
    el("ul", {}, ...rows.map(([name, words]) => el("li", {}, el("strong", {}, name), `: ${words}`))),
  );
}

/** @param {any[]} words */
function nonsenseSheet(words) {
  return el("ul", { className: "bank" }, ...words.map((one) => el("li", {}, one.word)));
}

/**
 * The whole lesson: a sheet for the teacher, the story, a sheet for the learner.
 * @param {any} pack
 * @param {{lesson: string, scope: string, seed: number}} of
 * @param {HTMLElement | null} story
 */
export function packSheets(pack, of, story) {
  /** @type {Record<string, string>} */
  const names = { listening: "Listening list", blending: "Sound boxes", chain: "Word chain", sort: "Word sort", nonsense: "Nonsense words", dictation: "Dictation" };
  const part = (/** @type {string} */ list, /** @type {(list: any) => HTMLElement} */ sheet) =>
    pack[list] ? el("section", {}, el("h3", {}, names[list]), sheet(pack[list])) : null;
  const boxed = (/** @type {any[]} */ words) => boxesSheet(words.map((boxes, at) => ({ word: boxes.word, boxes, drawing: pack.drawings[at] })));
  const whole = (/** @type {string} */ name, /** @type {string[]} */ words) =>
    words.length ? el("p", {}, el("span", { className: "small" }, `${name} `), ...words.map((word) => el("span", { className: "card" }, word))) : null;
  const missing = pack.lacking.map((/** @type {any} */ one) => el("li", {}, el("strong", {}, names[one.list]), `: ${one.why}.`));
  const teacher = el(
    "article",
    { className: "page" },
    el("p", { className: "small" }, `For the teacher. ${of.scope}, version ${of.seed}`),
    el("h2", {}, of.lesson),
    el("p", {}, pack.patterns.length ? `Practises ${pack.patterns.join(", ")}` : "Practises what has been taught"),
    pack.sight_new.length || pack.sight_review.length ? el("section", {}, el("h3", {}, "Sight words"), whole("new", pack.sight_new), whole("review", pack.sight_review)) : null,
    pack.oral.blend.length ? el("section", {}, el("h3", {}, "By ear"), oralSheet(pack.oral)) : null,
    ...[pack.listening, ...pack.listening_more].filter(Boolean).map((list, at) => el("section", {}, el("h3", {}, names.listening), listeningSheet({ ...list, heading: pack.headings[at] }))),
    part("blending", boxed),
    el("div", { className: "pair" }, part("chain", chainSheet), part("dictation", dictationSheet)),
    part("sort", sortSheet),
    part("nonsense", nonsenseSheet),
    missing.length ? el("section", {}, el("h3", {}, "Not in this lesson"), el("ul", {}, ...missing)) : null,
  );
  return el("div", {}, teacher, story ? el("article", { className: "page" }, story) : null, learner(pack, of.lesson));
}

/**
 * Empty boxes for the words to blend, and lines for the words and sentences to spell.
 * @param {any} pack
 * @param {string} lesson
 */
function learner(pack, lesson) {
  const boxes = (pack.blending ?? []).map((/** @type {any} */ one) =>
    el("li", { "aria-label": `${one.sounds} empty boxes` }, ...Array.from({ length: one.sounds }, () => el("span", { className: "empty" }))),
  );
  const { new: fresh = [], review = [], sight = [], sentences = [] } = pack.dictation ?? {};
  const lines = [...fresh, ...review, ...sight].map(() => el("li", { className: "rule" }));
  return el(
    "article",
    { className: "page" },
    el("p", { className: "small" }, `${lesson}. Name `, el("span", { className: "name" })),
    boxes.length ? el("section", {}, el("h3", {}, "Boxes"), el("ul", { className: "boxes blank" }, ...boxes)) : null,
    lines.length ? el("section", {}, el("h3", {}, "Words"), el("ol", { className: "columns rules" }, ...lines)) : null,
    sentences.length ? el("section", {}, el("h3", {}, "Sentences"), el("ol", { className: "rules" }, ...sentences.map(() => el("li", { className: "rule long" })))) : null,
  );
}
