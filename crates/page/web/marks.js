// The marks of the words, drawn behind the text in write mode, and as the text itself in read mode and in print.

import { el, unseen } from "./dom.js";
import { LONG_STORY, clearPieces, drawPieces } from "./pieces.js";

/** The lines that are there. @type {Array<string>} */
let drawn = [];
let drawnReading = false;
/** Whether the story is there in pieces. */
let inPieces = false;
/** What is still to be drawn of a long story. */
let drawingOn = 0;

/** How long lines are made at once, in milliseconds; laying them out takes as long again. */
const AT_ONCE = 16;

/** The wording for each status. */
export const STATUS_SAYS = {
  decodable: "decodable",
  sight: "a sight word",
  story: "pre-taught",
  untaught: "untaught",
};

/**
 * Draws the marks; only lines that changed are made again. Many lines are drawn in slices, the first ones at once.
 * @param {HTMLElement} host
 * @param {string} text
 * @param {any} marked
 * @param {boolean} reading whether the words can be chosen
 * @param {number} [chosen] where the selected word begins
 */
export function drawMarks(host, text, marked, reading, chosen = -1) {
  clearTimeout(drawingOn);
  const long = reading && text.length > LONG_STORY;
  if (reading !== drawnReading || long !== inPieces) {
    drawn = [];
    host.replaceChildren();
    clearPieces();
    [drawnReading, inPieces] = [reading, long];
  }
  // Marks of an earlier text may not fit this one.
  if (long) return drawPieces(host, text, marked?.of === text ? marked : null, chosen);
  drawLines(host, linesOf(text, marked, chosen), reading);
}

/**
 * @param {HTMLElement} host
 * @param {any[]} lines
 * @param {boolean} reading
 */
function drawLines(host, lines, reading) {
  const until = performance.now() + AT_ONCE;
  const keys = lines.map((line) => line.key);
  let first = 0;
  while (first < keys.length && first < drawn.length && keys[first] === drawn[first]) first++;
  let last = 0;
  const most = Math.min(keys.length, drawn.length) - first;
  while (last < most && keys[keys.length - 1 - last] === drawn[drawn.length - 1 - last]) last++;
  const stale = document.createRange();
  stale.setStart(host, first);
  stale.setEnd(host, drawn.length - last);
  stale.deleteContents();
  const after = host.children[first] ?? null;
  const made = document.createDocumentFragment();
  let next = first;
  while (next < lines.length - last && (next === first || performance.now() < until)) made.append(drawLine(lines[next++], reading));
  host.insertBefore(made, after);
  drawn = [...keys.slice(0, next), ...keys.slice(keys.length - last)];
  if (next < lines.length - last) drawingOn = setTimeout(() => drawLines(host, lines, reading), 0);
}

/**
 * The lines of the text, each with its words: their positions in the line, their marks, and their index in the text.
 * @param {string} text
 * @param {any} marked
 * @param {number} chosen
 */
export function linesOf(text, marked, chosen) {
  const words = marked?.words ?? [];
  const distinct = marked?.distinct ?? [];
  const classes = distinct.map(classesOf);
  let [start, at] = [0, 0];
  return text.split("\n").map((line) => {
    const end = start + line.length;
    const own = [];
    let key = `${line}\n`;
    for (; at < words.length && words[at] < end; at += 3) {
      const mark = words[at] === chosen ? `${classes[words[at + 2]]} c`.trim() : classes[words[at + 2]];
      own.push({ from: words[at] - start, to: words[at + 1] - start, mark, type: distinct[words[at + 2]] });
      key += `${words[at] - start}-${words[at + 1] - start}${mark} `;
    }
    start = end + 1;
    return { line, own, key };
  });
}

/** @param {any} word */
function classesOf(word) {
  const classes = [];
  if (word.status === "untaught") classes.push("u");
  else if (word.status === "sight") classes.push("s");
  else if (word.status === "story") classes.push("t");
  if (word.doubtful) classes.push("d");
  if (word.focus) classes.push("f");
  return classes.join(" ");
}

/**
 * @param {any} line
 * @param {boolean} reading
 */
export function drawLine({ line, own }, reading) {
  const made = el("div", { className: "line" });
  let at = 0;
  for (const { from, to, mark, type } of own) {
    if (!mark && !reading) continue;
    made.append(line.slice(at, from));
    const word = line.slice(from, to);
    made.append(reading ? readWord(word, mark, type) : el("span", { className: mark }, word));
    at = to;
  }
  made.append(line.slice(at) || (made.childNodes.length ? "" : "\u200b"));
  return made;
}

/**
 * A word that can be selected. Only marked words are tab stops: a story has many words.
 * @param {string} word
 * @param {string} mark
 * @param {any} type
 */
function readWord(word, mark, type) {
  if (!/\b[usdt]\b/.test(mark)) return el("span", { className: `w ${mark}` }, word);
  const says = type.doubtful && type.status === "decodable" ? "check this word" : STATUS_SAYS[/** @type {keyof typeof STATUS_SAYS} */ (type.status)];
  return el("button", { type: "button", className: `w ${mark}` }, word, unseen(` (${says})`));
}

/**
 * The word at a position in the text, with its bounds and type; null between words.
 * @param {any} marked
 * @param {number} offset in UTF-16 code units
 */
export function wordAt(marked, offset) {
  const words = marked?.words ?? [];
  let [low, high] = [0, words.length / 3 - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const [start, end, type] = words.slice(middle * 3, middle * 3 + 3);
    if (offset < start) high = middle - 1;
    else if (offset > end) low = middle + 1;
    else return { start, end, type: marked.distinct[type] };
  }
  return null;
}

/**
 * A selected word after an edit: moved if the text before it changed, null if the word itself changed.
 * @param {any} chosen
 * @param {string} before
 * @param {string} after
 */
export function moved(chosen, before, after) {
  if (!chosen) return null;
  const most = Math.min(before.length, after.length);
  let same = 0;
  while (same < most && before[same] === after[same]) same++;
  let last = 0;
  while (last < most - same && before[before.length - 1 - last] === after[after.length - 1 - last]) last++;
  if (chosen.end <= same) return chosen;
  if (chosen.start < before.length - last) return null;
  const by = after.length - before.length;
  return { ...chosen, start: chosen.start + by, end: chosen.end + by };
}

/**
 * The first occurrence of a distinct word.
 * @param {any} marked
 * @param {number} number
 */
export function firstPlace(marked, number) {
  for (let at = 0; at < marked.words.length; at += 3) {
    if (marked.words[at + 2] === number) return { start: marked.words[at], end: marked.words[at + 1], type: marked.distinct[number] };
  }
  return null;
}
