// A long story in read mode: in pieces, of which only those near the view are laid out and have an element for each word.

import { by, el } from "./dom.js";
import { drawLine, linesOf } from "./marks.js";

/**
 * A longer story, in UTF-16 code units, is shown for reading first: the browser needs too long to lay out a field with so much text.
 * Some 11,000 words.
 */
export const LONG_STORY = 60_000;

/** What a piece has, in UTF-16 code units, up to the end of its line. */
const PIECE = 3000;

/** A line that is longer is cut after a sentence or a word. */
const LONGEST_LINE = 2 * PIECE;

/** How far from the view words are made, in pixels. */
const NEAR = 800;

/**
 * @typedef {object} Piece
 * @property {number} start in the text
 * @property {number} end
 * @property {HTMLElement} host
 * @property {number} first its first word
 * @property {number} last the first word after it
 * @property {boolean} near
 * @property {any} marked what its words were made of; none while it is plain text
 */

/** @type {Piece[]} */
let pieces = [];
/** @type {{host: HTMLElement | null, text: string, marked: any, chosen: number}} */
let shown = { host: null, text: "", marked: null, chosen: -1 };
/** @type {IntersectionObserver | null} */
let watching = null;

/**
 * Draws a long story for reading. Its text is there at once, its marks where it is seen.
 * @param {HTMLElement} host
 * @param {string} text
 * @param {any} marked none yet, or the marks of this text
 * @param {number} chosen where the selected word begins, or -1
 */
export function drawPieces(host, text, marked, chosen) {
  const before = shown;
  shown = { host, text, marked, chosen };
  if (before.host !== host || before.text !== text) cutIntoPieces();
  if (before.marked !== marked || before.text !== text) numberWords();
  const has = (/** @type {Piece} */ piece, /** @type {number} */ at) => piece.start <= at && at < piece.end;
  for (const piece of pieces) {
    const chosenHere = has(piece, chosen);
    if (piece.marked === marked && before.text === text && !chosenHere && !has(piece, before.chosen)) continue;
    if (marked && (piece.near || chosenHere)) makeWords(piece);
    else makePlain(piece);
  }
}

/** Takes the pieces away. */
export function clearPieces() {
  watching?.disconnect();
  pieces = [];
  shown = { host: null, text: "", marked: null, chosen: -1 };
}

/** Makes the words of all pieces: paper has no view. */
export function makeAllPieces() {
  for (const piece of pieces) if (shown.marked && piece.marked !== shown.marked) makeWords(piece);
}

/**
 * The index in the text of a word of the story that is shown.
 * @param {Element} word
 */
export function wordNumber(word) {
  const host = /** @type {HTMLElement} */ (word.closest(".piece") ?? by("marks"));
  return Number(host.dataset.first ?? 0) + [...host.querySelectorAll(".w")].indexOf(word);
}

function cutIntoPieces() {
  const { host, text } = shown;
  watching?.disconnect();
  watching = new IntersectionObserver(seen, { rootMargin: `${NEAR}px 0px` });
  // Lines that fit across the page; only a first guess at how high a piece is, until it has been seen.
  const across = Math.max(20, (host?.parentElement?.clientWidth ?? 700) / 10);
  pieces = [];
  for (let start = 0; start < text.length; ) {
    const end = endOfPiece(text, start);
    const own = text.slice(start, end).replace(/\n$/, "");
    const made = el("div", { className: "piece" }, own);
    const rows = own.split("\n").reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / across)), 0);
    made.style.containIntrinsicBlockSize = `auto ${(rows * 1.9).toFixed(1)}em`;
    pieces.push({ start, end, host: made, first: 0, last: 0, near: false, marked: null });
    start = end;
  }
  host?.replaceChildren(...pieces.map((piece) => piece.host));
  for (const piece of pieces) watching.observe(piece.host);
}

/**
 * @param {string} text
 * @param {number} start
 */
function endOfPiece(text, start) {
  const line = text.indexOf("\n", start + PIECE);
  const end = line < 0 ? text.length : line + 1;
  if (end - start <= PIECE + LONGEST_LINE) return end;
  const most = text.slice(start, start + PIECE + LONGEST_LINE);
  const sentence = most.slice(PIECE).search(/[.!?]["”’)]*\s/);
  if (sentence >= 0) return start + PIECE + sentence + most.slice(PIECE + sentence).search(/\s/) + 1;
  const space = most.lastIndexOf(" ");
  // Half an emoji is none.
  return start + (space > 0 ? space + 1 : most.length - (/[\uD800-\uDBFF]$/.test(most) ? 1 : 0));
}

/** Which words are in which piece. */
function numberWords() {
  const words = shown.marked?.words ?? [];
  let at = 0;
  for (const piece of pieces) {
    piece.first = at;
    while (at * 3 < words.length && words[at * 3] < piece.end) at++;
    piece.last = at;
    piece.host.dataset.first = String(piece.first);
  }
}

/** @param {IntersectionObserverEntry[]} entries */
function seen(entries) {
  for (const { target, isIntersecting } of entries) {
    const piece = pieces.find((one) => one.host === target);
    if (!piece) continue;
    piece.near = isIntersecting;
    if (isIntersecting && shown.marked && piece.marked !== shown.marked) makeWords(piece);
  }
}

/** @param {Piece} piece */
function makeWords(piece) {
  const { text, marked, chosen } = shown;
  const words = [];
  for (let at = piece.first * 3; at < piece.last * 3; at += 3) words.push(marked.words[at] - piece.start, marked.words[at + 1] - piece.start, marked.words[at + 2]);
  const own = text.slice(piece.start, piece.end).replace(/\n$/, "");
  const lines = linesOf(own, { words, distinct: marked.distinct }, chosen - piece.start);
  // The focused word is made again.
  const focused = [...piece.host.querySelectorAll("button.w")].indexOf(/** @type {Element} */ (document.activeElement));
  piece.host.replaceChildren(...lines.map((line) => drawLine(line, true)));
  piece.marked = marked;
  const again = focused < 0 ? null : piece.host.querySelectorAll("button.w")[focused];
  if (again instanceof HTMLElement) again.focus({ preventScroll: true });
}

/** @param {Piece} piece */
function makePlain(piece) {
  if (!piece.marked) return;
  piece.host.replaceChildren(shown.text.slice(piece.start, piece.end).replace(/\n$/, ""));
  piece.marked = null;
}
