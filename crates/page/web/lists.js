// The lists for the lesson: the choice of list, its options, and the finished sheet.

import { button, by, el } from "./dom.js";
import { desk, theScope, theStory } from "./desk.js";
import { copied } from "./files.js";
import { ipaSwitch } from "./ipa.js";
import { boxesSheet, chainSheet, dictationSheet, listeningSheet, packSheets, wordsSheet } from "./sheets.js";

/** The options last chosen for each list, kept while another list is shown. */
const wanted = {
  list: "words",
  seed: 1,
  words: { focus: "", all: false, only_new: false, older: false, sounds: "", shape: "", position: "" },
  boxes: { text: "" },
  chain: { from: "", to: "", steps: "8" },
  contrast: { sound: "", position: "", count: "6" },
};

let latestList = 0;

/** @param {string} text */
function split(text) {
  return text.split(",").map((one) => one.trim()).filter(Boolean);
}

/** `3` or `2-4`. @param {string} text */
function range(text) {
  const found = /^\s*(\d+)\s*(?:[-–]\s*(\d+))?\s*$/.exec(text);
  return found ? [Number(found[1]), Number(found[2] ?? found[1])].sort((a, b) => a - b) : null;
}

function at() {
  return { scope: theScope(desk.source), lesson: desk.lesson };
}

/** @type {Record<string, {name: string, drawn: boolean, fields: () => any[], question: () => any, sheet: (reply: any) => HTMLElement}>} */
const LISTS = {
  words: {
    name: "Words",
    drawn: false,
    fields: () => [
      field("words", "focus", "Patterns", { placeholder: "from the lesson", title: "such as sh, a_e, ea as in bread" }),
      field("words", "sounds", "Sounds", { size: 5, placeholder: "2-5" }),
      field("words", "shape", "Shape", { size: 6, placeholder: "CVC" }),
      choice("words", "position", "Where", [["", "anywhere"], ["start", "at the start"], ["middle", "in the middle"], ["end", "at the end"]]),
      tick("words", "only_new", "new in this lesson"),
      tick("words", "all", "any pattern"),
      tick("words", "older", "words older children know"),
    ],
    question: () => {
      const { focus, all, only_new, older, sounds, shape, position } = wanted.words;
      if (sounds.trim() && !range(sounds)) return { problem: "give the number of sounds as a number or a range, such as 3 or 2-4" };
      return { ask: "words", ...at(), focus: split(focus), all, only_new, older, sounds: range(sounds), shape: shape.trim() || null, position: position || null, limit: 200 };
    },
    sheet: wordsSheet,
  },
  boxes: {
    name: "Sound boxes",
    drawn: false,
    fields: () => [field("boxes", "text", "Words", { size: 40, placeholder: "from the lesson, or your own" })],
    question: async () => {
      if (wanted.boxes.text.trim()) return { ask: "boxes", ...at(), text: wanted.boxes.text };
      const some = await desk.ask({ ask: "words", ...at(), sounds: [2, 6], limit: 9 });
      return some.found ? { ask: "boxes", ...at(), text: some.words.map((/** @type {any} */ one) => one.word).join(" ") } : { problem: "this lesson has no common words that fit in boxes: type some words of your own" };
    },
    sheet: (reply) => boxesSheet(reply.words),
  },
  chain: {
    name: "Word chain",
    drawn: true,
    fields: () => [
      field("chain", "from", "From", { size: 10 }),
      field("chain", "to", "To", { size: 10 }),
      field("chain", "steps", "Steps", { size: 3, inputMode: "numeric" }),
    ],
    question: () => {
      const { from, to, steps } = wanted.chain;
      if (!(from && to) && !/^\s*([1-9]|1\d|20)\s*$/.test(steps)) return { problem: "a chain has 1 to 20 steps" };
      return { ask: "chain", ...at(), from: from || null, to: to || null, steps: from && to ? null : Number(steps), seed: wanted.seed };
    },
    sheet: chainSheet,
  },
  contrast: {
    name: "Listening list",
    drawn: true,
    fields: () => [
      field("contrast", "sound", "Sound", { placeholder: "from the lesson", title: "a spelling such as sh or i as in sit, or IPA such as /ʃ/" }),
      choice("contrast", "position", "Where", [["", "where it is easiest to hear"], ["start", "at the start"], ["middle", "in the middle"], ["end", "at the end"]]),
      field("contrast", "count", "Words with it", { size: 3, inputMode: "numeric" }),
    ],
    question: () => {
      const { sound, position, count } = wanted.contrast;
      if (!/^\s*([1-9]|1\d|20)\s*$/.test(count)) return { problem: "a listening list has 1 to 20 words with the sound" };
      return { ask: "contrast", ...at(), sound: sound.trim() || null, position: position || null, count: Number(count), seed: wanted.seed };
    },
    sheet: listeningSheet,
  },
  dictation: {
    name: "Dictation",
    drawn: true,
    fields: () => [],
    question: () => ({ ask: "dictation", ...at(), seed: wanted.seed }),
    sheet: dictationSheet,
  },
  pack: {
    name: "The whole lesson",
    drawn: true,
    fields: () => [],
    question: () => ({ ask: "pack", ...at(), seed: wanted.seed }),
    sheet: (reply) => packSheets(reply, { lesson: lessonLine(), scope: desk.scope.title, seed: wanted.seed }, storySheet()),
  },
};

function lessonLine() {
  const lesson = desk.scope.lessons[desk.lesson];
  return `Lesson ${lesson.id}${lesson.title ? `: ${lesson.title}` : ""}`;
}

/**
 * @param {string} list
 * @param {string} key
 * @param {string} label
 * @param {Record<string, any>} properties
 */
function field(list, key, label, properties) {
  const own = /** @type {any} */ (wanted)[list];
  const input = el("input", { id: `ask-${key}`, value: own[key], autocomplete: "off", ...properties });
  input.addEventListener("input", () => {
    own[key] = input.value;
    void drawList();
  });
  return el("div", { className: "field" }, el("label", { htmlFor: `ask-${key}` }, label), input);
}

/**
 * @param {string} list
 * @param {string} key
 * @param {string} label
 * @param {Array<[string, string]>} options
 */
function choice(list, key, label, options) {
  const own = /** @type {any} */ (wanted)[list];
  const select = el("select", { id: `ask-${key}` }, ...options.map(([value, text]) => el("option", { value }, text)));
  select.value = own[key];
  select.addEventListener("change", () => {
    own[key] = select.value;
    void drawList();
  });
  return el("div", { className: "field" }, el("label", { htmlFor: `ask-${key}` }, label), select);
}

/**
 * @param {string} list
 * @param {string} key
 * @param {string} label
 */
function tick(list, key, label) {
  const own = /** @type {any} */ (wanted)[list];
  const box = el("input", { type: "checkbox", id: `ask-${key}`, checked: own[key] });
  box.addEventListener("change", () => {
    own[key] = box.checked;
    void drawList();
  });
  return el("div", { className: "field tick" }, box, el("label", { htmlFor: `ask-${key}` }, label));
}

/** The story as printed with the lesson, with the words that practise its patterns in bold; null without a story. */
function storySheet() {
  const marked = desk.marked;
  if (!marked?.counts.words) return null;
  const story = el("div", { className: "read" });
  let at = 0;
  for (let word = 0; word < marked.words.length; word += 3) {
    const [from, to, type] = marked.words.slice(word, word + 3);
    if (!marked.distinct[type].focus) continue;
    story.append(desk.story.slice(at, from), el("strong", {}, desk.story.slice(from, to)));
    at = to;
  }
  story.append(desk.story.slice(at).trimEnd());
  const preTaught = [...desk.names, ...desk.storyWords, ...marked.untaught.map((/** @type {any} */ one) => marked.distinct[one.number].shown)];
  return el(
    "div",
    {},
    el("p", { className: "small" }, "Story"),
    el("h2", {}, theStory().title || "The story"),
    story,
    el("p", { className: "small" }, `${marked.percent.readable} readable, ${marked.percent.decodable} decodable of ${marked.counts.words} words; ${marked.focus.tokens === 1 ? "1 practises" : `${marked.focus.tokens} practise`} the lesson.`),
    preTaught.length ? el("p", { className: "small" }, `Pre-teach: ${[...new Set(preTaught)].join(", ")}`) : null,
  );
}

/** Draws the choice of lists and the options of the chosen one. */
export function drawLists() {
  const list = LISTS[wanted.list];
  const choose = (/** @type {string} */ key) => () => {
    wanted.list = key;
    drawLists();
    by(`list-${key}`).focus();
  };
  const choices = Object.entries(LISTS).map(([key, one]) =>
    button(one.name, choose(key), { id: `list-${key}`, className: "view", "aria-current": key === wanted.list ? "true" : null }),
  );
  const another = () => {
    wanted.seed += 1;
    void drawList();
  };
  by("lists-view").replaceChildren(
    el("nav", { className: "kinds", "aria-label": "Lists" }, ...choices),
    el(
      "section",
      { className: "sheet", "aria-labelledby": "list-name" },
      el("h2", { id: "list-name" }, list.name),
      el("form", { className: "fields", onsubmit: (/** @type {Event} */ event) => event.preventDefault() }, ...list.fields()),
      el("div", { id: "list", className: "list" }),
      el(
        "div",
        { className: "acts" },
        list.drawn ? button("New selection", another, { id: "again" }) : null,
        button("Copy", copyList, { id: "copy-list" }),
        button("Print", () => window.print(), { id: "print-list" }),
        ["contrast", "pack"].includes(wanted.list) ? ipaSwitch() : null,
      ),
      el("p", { id: "list-said", className: "said", role: "status" }),
    ),
  );
  void drawList();
}

/** Makes the chosen list again. */
async function drawList() {
  const number = ++latestList;
  const list = LISTS[wanted.list];
  const question = await list.question();
  const reply = question.problem ? question : await desk.ask(question);
  if (number !== latestList) return;
  by("list-said").textContent = "";
  by("list").replaceChildren(reply.problem ? el("p", { className: "why" }, sentence(reply.problem)) : list.sheet(reply));
}

/**
 * A list as plain text: numbered where the list is numbered, boxes as their letters.
 * @param {HTMLElement} list
 */
function plain(list) {
  const copy = /** @type {HTMLElement} */ (list.cloneNode(true));
  for (const one of copy.querySelectorAll("[data-copy]")) one.textContent = /** @type {HTMLElement} */ (one).dataset.copy ?? "";
  for (const ordered of copy.querySelectorAll("ol:not(.ladder)")) [...ordered.children].forEach((one, at) => one.prepend(`${at + 1}. `));
  for (const step of copy.querySelectorAll(".step")) step.append(": ");
  // Laid out off the page, so that its lines break as they do on screen.
  copy.style.cssText = "position: absolute; left: -99rem; width: 60rem";
  document.body.append(copy);
  const text = copy.innerText.trim();
  copy.remove();
  return text;
}

/** @param {string} text */
function sentence(text) {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? "" : "."}`;
}

async function copyList() {
  const done = await copied(`${lessonLine()}\n\n${plain(by("list"))}\n`);
  by("list-said").textContent = done ? "The list is on the clipboard." : "The browser did not allow the list to be copied.";
}
