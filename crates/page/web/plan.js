// The plan of the story: the fewest words to pre-teach or change until enough of it can be read.

import { button, by, el, many } from "./dom.js";
import { change, desk, lessonId, theStory } from "./desk.js";
import { insertWord, removeWord, replaceAll, reword, undo, undoable } from "./edit.js";
import { say } from "./files.js";
import { declare, rewordingSays } from "./word.js";

let goal = 100;

/** What was done last here, and the story that came of it. */
let done = { says: "", to: "" };

/** The place of that step, until focus has moved on from it. */
let stepNext = -1;

/** The story and what is pre-taught, to see whether they have changed. */
function storyNow() {
  return JSON.stringify([desk.story, desk.names, desk.storyWords]);
}

/**
 * Notes what a step has done, to be shown where it was.
 * @param {string} says
 */
function stepDone(says) {
  done = { says, to: storyNow() };
  const step = document.activeElement?.closest("#plan li");
  stepNext = step?.parentElement ? [...step.parentElement.children].indexOf(step) : 0;
  say(says);
}

/** Moves focus to the step in the place of the one that was taken. */
function focusNext() {
  if (stepNext < 0) return;
  const steps = by("plan").querySelectorAll("ol > li");
  const step = steps[Math.min(stepNext, steps.length - 1)];
  stepNext = -1;
  const next = step?.querySelector(".chip") ?? by("plan").querySelector(".done button");
  if (next instanceof HTMLElement) next.focus({ preventScroll: true });
}

/** What was done last, with the way back. */
function lastDone() {
  if (!done.says || done.to !== storyNow()) return "";
  const back = () => {
    done.says = "";
    undo();
    say("");
  };
  return el("p", { className: "done" }, `${done.says} `, button("Undo", back, { className: "plain", "data-key": "undo step" }));
}
let latestPlan = 0;

/** Steps that are shown. */
const STEPS_SHOWN = 60;

/** Percentages to choose from. */
const GOALS = [100, 98, 95, 90];

/**
 * The section of the notes with the plan; it fills when the answer comes.
 * @param {any} marked
 * @param {(marked: any, number: number, key: string) => HTMLElement} wordButton
 */
export function planSection(marked, wordButton) {
  const section = el("section", { id: "plan", className: "plan" });
  void fillPlan(section, marked, wordButton);
  return section;
}

/**
 * @param {HTMLElement} section
 * @param {any} marked
 * @param {(marked: any, number: number, key: string) => HTMLElement} wordButton
 */
async function fillPlan(section, marked, wordButton) {
  const number = ++latestPlan;
  // The plan must be of the story whose words are counted; new marks, and a new plan, are on their way.
  if (marked.of !== desk.story) return;
  const plan = await desk.ask({ ask: "plan", ...theStory(), goal });
  // The story has changed in the meantime.
  if (number !== latestPlan || plan.problem || marked !== desk.marked) return;
  const held = document.activeElement?.id === "goal";
  const select = el("select", { id: "goal" }, ...GOALS.map((one) => el("option", { value: String(one), selected: one === goal }, `${one} %`)));
  select.addEventListener("change", () => {
    goal = Number(select.value);
    void fillPlan(section, marked, wordButton);
  });
  const head = el("h2", {}, el("label", { htmlFor: "goal" }, "Plan to reach "), select, " readable");
  const names = plan.steps.filter((/** @type {any} */ step) => step.remedy === "name").map((/** @type {any} */ step) => marked.distinct[step.number].shown);
  section.replaceChildren(
    head,
    lastDone(),
    ...(plan.steps.length ? planSteps(plan, marked, wordButton, names) : [el("p", {}, `${marked.percent.readable} of the words can be read: that is enough.`)]),
    ...planLessons(plan),
    ...planPractice(plan),
  );
  focusNext();
  if (held) by("goal").focus({ preventScroll: true });
}

/**
 * @param {any} plan
 * @param {any} marked
 * @param {(marked: any, number: number, key: string) => HTMLElement} wordButton
 * @param {string[]} names
 */
function planSteps(plan, marked, wordButton, names) {
  const one = (/** @type {any} */ step) => {
    const type = marked.distinct[step.number];
    const what = { name: "Pre-teach the name ", whole: "Pre-teach or change ", later: "Change or pre-teach " }[/** @type {string} */ (step.remedy)];
    const replace = (/** @type {any} */ swap) => () => {
      const changed = replaceAll(marked, step.number, swap);
      stepDone(`“${type.shown}” is now “${swap.text}”${changed > 1 ? `, ${changed} times` : ""}.`);
    };
    const swaps = step.swaps.map((/** @type {any} */ swap) =>
      button(swap.text, replace(swap), { className: "chip", title: swap.sense || null, "data-key": `swap ${type.word} ${swap.text}` }),
    );
    const wider = step.rewordings.map((/** @type {any} */ made) => {
      const act = () => {
        const place = onlyPlace(marked, step.number);
        if (!place) return;
        reword(place.start, place.end, made);
        stepDone(made.new ? `“${made.old}” is now “${made.new}”.` : `“${made.old}” is left out.`);
      };
      return button(rewordingSays(made), act, { className: "chip", "data-key": `reword ${type.word} ${made.new}` });
    });
    const leave = () => {
      const place = onlyPlace(marked, step.number);
      if (!place) return;
      removeWord(place.start, place.end, step.without.article);
      stepDone(`“${type.shown}” is left out.`);
    };
    const without = step.without ? [button("leave it out", leave, { className: "chip", "data-key": `without ${type.word}` })] : [];
    const other = [...wider, ...without].flatMap((one) => [one, " "]);
    const preTeach = () => {
      declare(step.remedy === "name" ? "names" : "storyWords", type.shown);
      stepDone(`“${type.shown}” will be pre-taught.`);
    };
    const teach = button("Pre-teach it", preTeach, { className: "chip", "data-key": `teach ${type.word}` });
    const replaced = swaps.length ? [" Replace it with ", ...swaps.flatMap((/** @type {any} */ swap) => [swap, " "])] : [];
    const offer = step.remedy === "name" || !(replaced.length || other.length) ? [] : [...replaced, ...(other.length ? [replaced.length ? "or " : " ", ...other] : []), "or "];
    return el(
      "li",
      {},
      what,
      wordButton(marked, step.number, "plan"),
      step.count > 1 ? ` (${step.count} times)` : "",
      step.remedy === "name" ? ". " : `: it ${step.reason}.`,
      ...offer,
      " ",
      teach,
      el("span", { className: "small" }, ` → ${step.readable} readable`),
    );
  };
  const all = names.length > 1 ? [el("p", {}, button(`Pre-teach the ${names.length} names`, () => preTeachNames(names)))] : [];
  const rest = plan.steps.length - STEPS_SHOWN;
  return [...all, el("ol", {}, ...plan.steps.slice(0, STEPS_SHOWN).map(one)), ...(rest > 0 ? [el("p", { className: "small" }, `and ${many(rest, "more step")}.`)] : [])];
}

/**
 * Where a word stands that the story has once.
 * @param {any} marked
 * @param {number} number of the word
 */
function onlyPlace(marked, number) {
  for (let at = 0; at < marked.words.length; at += 3) {
    if (marked.words[at + 2] === number) return { start: marked.words[at], end: marked.words[at + 1] };
  }
  return null;
}

/** @param {string[]} names */
function preTeachNames(names) {
  undoable(() => change({ names: [...desk.names, ...names] }));
  stepDone(`${names.join(", ")} will be pre-taught.`);
}

/** @param {any} plan */
function planLessons(plan) {
  const place = plan.lesson ?? plan.lesson_if_pretaught;
  if (place === null) return [];
  const id = lessonId(place);
  const when = plan.lesson === null ? "With the names and the words that no lesson teaches pre-taught" : "As it is";
  return [el("p", {}, `${when}, the story can be used from lesson ${id}. `, button(`Go to lesson ${id}`, () => change({ lesson: place }), { "data-key": "plan lesson" }))];
}

/** @param {any} plan */
function planPractice(plan) {
  if (!plan.practise.length) return [];
  const chips = plan.practise.map((/** @type {string} */ word) => el("li", {}, button(word, () => insertWord(word), { "data-key": `insert ${word}`, "aria-label": `Insert ${word}` })));
  return [
    el("p", { className: "practice" }, `The story hardly practises ${desk.marked.focus.patterns.join(", ")}. ${many(plan.practise.length, "readable word")} that would, to insert where the cursor is:`),
    el("ul", { className: "chips practice" }, ...chips),
  ];
}
