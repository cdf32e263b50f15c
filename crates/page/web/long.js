// Texts far longer than a story: they are not put on the page, so what is there stays, and nothing freezes. They can be checked in slices.

import { button, by, el, many } from "./dom.js";
import { desk, lessonId, theStory } from "./desk.js";

/** The longest story that the page shows, in UTF-16 code units: some 70,000 words. */
export const LONGEST_STORY = 400_000;

/** What is checked at once, in UTF-16 code units. */
const SLICE = 100_000;

/** Untaught words that are named. */
const NAMED_UNTAUGHT = 30;

let stopped = false;

/** @param {string} text */
export function isTooLong(text) {
  return text.length > LONGEST_STORY;
}

/** @param {number} count */
function inThousands(count) {
  return count.toLocaleString("en");
}

/**
 * Asks what is to become of a text that is too long. The story on the page stays as it is until its beginning is wanted.
 * @param {string} text
 * @param {string} name of the file, or empty
 * @param {(beginning: string) => void} openBeginning
 */
export function offerLong(text, name, openBeginning) {
  const dialog = by("long");
  const close = () => dialog.close();
  const beginning = () => {
    close();
    openBeginning(beginningOf(text));
  };
  dialog.onclose = () => {
    stopped = true;
    by("text").focus({ preventScroll: true });
  };
  dialog.replaceChildren(
    el("h2", { id: "long-name" }, "This text is longer than a story"),
    el("p", {}, `${name || "It"} has ${inThousands(text.length)} characters; this page shows up to ${inThousands(LONGEST_STORY)}. The story on the page has not been changed.`),
    el("div", { id: "long-result", role: "status" }),
    el(
      "div",
      { className: "acts" },
      button(`Check it at lesson ${lessonId(desk.lesson)}`, () => void checkLong(text), { id: "check-long" }),
      button("Open its beginning", beginning, { id: "open-beginning" }),
      button("Leave it", close, { id: "leave-long" }),
    ),
  );
  dialog.showModal();
}

/**
 * As much of a text as the page shows, up to the end of a line or a word.
 * @param {string} text
 */
function beginningOf(text) {
  return text.slice(0, cutAt(text, LONGEST_STORY * 0.9, 0));
}

/**
 * Where to cut a text: after a line if there is one, otherwise after a word.
 * @param {string} text
 * @param {number} most
 * @param {number} from
 */
function cutAt(text, most, from) {
  if (text.length <= from + most) return text.length;
  const end = from + most;
  const line = text.lastIndexOf("\n", end);
  if (line > from + most / 2) return line + 1;
  const space = text.lastIndexOf(" ", end);
  return space > from ? space + 1 : end;
}

/** @param {string} text */
async function checkLong(text) {
  stopped = false;
  const stop = () => {
    stopped = true;
  };
  const progress = el("progress", { max: text.length, value: 0, "aria-label": "Checked so far" });
  by("check-long").disabled = true;
  by("long-result").replaceChildren(el("p", {}, "Checking… ", progress, " ", button("Stop", stop, { id: "stop-long" })));
  const counts = { words: 0, decodable: 0, sight: 0, story: 0, untaught: 0 };
  /** @type {Map<string, number>} */
  const untaught = new Map();
  const story = theStory();
  let at = 0;
  while (at < text.length && !stopped) {
    const end = cutAt(text, SLICE, at);
    const marked = await desk.ask({ ask: "mark", ...story, text: text.slice(at, end) });
    if (marked.problem) return by("long-result").replaceChildren(el("p", {}, `${marked.problem}.`));
    for (const key of /** @type {Array<keyof typeof counts>} */ (Object.keys(counts))) counts[key] += marked.counts[key];
    for (const { number } of marked.untaught) {
      const { word, count } = marked.distinct[number];
      untaught.set(word, (untaught.get(word) ?? 0) + count);
    }
    at = end;
    progress.value = at;
  }
  by("check-long").disabled = false;
  if (by("long").open) by("long-result").replaceChildren(...resultOf(counts, untaught, at < text.length));
}

/**
 * @param {{words: number, decodable: number, sight: number, story: number, untaught: number}} counts
 * @param {Map<string, number>} untaught
 * @param {boolean} partly
 */
function resultOf(counts, untaught, partly) {
  if (!counts.words) return [el("p", {}, partly ? "Stopped." : "There are no words in it.")];
  const percent = (/** @type {number} */ part) => `${((100 * part) / counts.words).toFixed(1)} %`;
  const most = [...untaught].sort(([, a], [, b]) => b - a).slice(0, NAMED_UNTAUGHT);
  const readable = counts.words - counts.untaught;
  return [
    el("p", {}, el("strong", {}, `${percent(readable)} readable, ${percent(counts.decodable)} decodable`), ` of ${inThousands(counts.words)} words${partly ? ", as far as it was checked" : ""}, at lesson ${lessonId(desk.lesson)}.`),
    untaught.size ? el("p", {}, `${many(untaught.size, "different word")} untaught; most often: ${most.map(([word, count]) => `${word} (${inThousands(count)})`).join(", ")}.`) : null,
  ].filter(Boolean);
}
