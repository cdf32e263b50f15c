// Getting around in a scope of many lessons: rows found by number or words, and on a narrow page folded, one open at a time.

import { button, by, el, many, unseen } from "./dom.js";
import { draft } from "./draft.js";
import { draftLessonId } from "./lesson-row.js";

/** Scopes with fewer lessons need no search. */
const MANY_LESSONS = 8;

/** What is looked for. */
let lookedFor = "";

/** The field above the rows, where there are many. */
export function lessonFinder() {
  if (draft.scope.lessons.length < MANY_LESSONS) {
    lookedFor = "";
    return null;
  }
  const field = el("input", { id: "find-lesson", type: "search", autocomplete: "off", autocapitalize: "none", value: lookedFor, placeholder: "12, sh, said" });
  field.addEventListener("input", () => {
    lookedFor = field.value;
    showFound();
  });
  field.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Enter") goToFound();
  });
  return el(
    "div",
    { className: "find-lesson", role: "search" },
    el("label", { htmlFor: "find-lesson" }, "Find a lesson by its number, title, patterns or sight words"),
    el("div", { className: "acts" }, field, button("Go", goToFound, { id: "go-to-lesson" })),
    el("p", { id: "lessons-found", className: "small", role: "status" }),
  );
}

/**
 * The lessons that fit: the one with that number if there is one.
 * @returns {number[]}
 */
function found() {
  const words = lookedFor.trim().toLowerCase();
  const places = draft.scope.lessons.map((_, place) => place);
  const numbered = places.filter((place) => draftLessonId(place).toLowerCase() === words);
  if (!words || numbered.length) return words ? numbered : places;
  const entries = (/** @type {string} */ text) => text.toLowerCase().split(/[\s,;]+/);
  return places.filter((place) => {
    const { title, teach, sight } = draft.scope.lessons[place];
    return title.toLowerCase().includes(words) || teach.toLowerCase().includes(words) || entries(sight).includes(words);
  });
}

/** Shows the rows that are looked for. */
export function showFound() {
  const status = document.getElementById("lessons-found");
  const fit = new Set(found());
  for (const row of rowsOfDraft()) row.hidden = !fit.has(placeOf(row));
  if (status) status.textContent = lookedFor.trim() ? `${fit.size ? many(fit.size, "lesson") : "No lesson"} of ${draft.scope.lessons.length}.` : "";
}

/** Opens the first lesson that was found, and goes to it. */
function goToFound() {
  const [first] = found();
  if (first === undefined || !lookedFor.trim()) return by("find-lesson").focus();
  const row = by(`row-${first}`);
  unfold(row);
  row.querySelector("input, textarea").focus();
  row.scrollIntoView({ block: "center" });
}

/**
 * The button that opens a row on a narrow page; elsewhere all rows are open.
 * @param {number} place
 */
export function rowOpener(place) {
  const opener = el("button", { type: "button", className: "row-open", "aria-expanded": "false" });
  opener.addEventListener("click", () => {
    const row = opener.closest(".lesson-row");
    if (row.classList.contains("folded")) unfold(row);
    else fold(row);
    // What was open above it has gone.
    row.scrollIntoView({ block: "nearest" });
  });
  nameOpener(opener, place);
  return opener;
}

/**
 * @param {HTMLElement} opener
 * @param {number} place
 */
function nameOpener(opener, place) {
  const { title, teach } = draft.scope.lessons[place];
  const wrong = draft.faults.some((fault) => fault.lesson === place);
  opener.replaceChildren(
    unseen("Lesson "),
    el("strong", {}, draftLessonId(place)),
    el("span", { dir: "auto" }, title || teach || "nothing yet"),
    title && teach ? el("span", { className: "small" }, teach) : "",
    wrong ? el("span", { className: "fault" }, "to correct") : "",
  );
}

/** Names the rows again: what they teach or what is wrong has changed. */
export function nameRows() {
  for (const row of rowsOfDraft()) {
    const opener = row.querySelector(".row-open");
    if (opener instanceof HTMLElement && draft.scope.lessons[placeOf(row)]) nameOpener(opener, placeOf(row));
  }
}

/**
 * Opens the row of an element, and folds the one that was open.
 * @param {Element | null} inside
 */
export function unfold(inside) {
  const row = inside?.closest(".lesson-row");
  if (!(row instanceof HTMLElement)) return;
  for (const other of rowsOfDraft()) if (other !== row) fold(other);
  row.hidden = false;
  setFolded(row, false);
}

/** @param {HTMLElement} row */
function fold(row) {
  if (!row.classList.contains("folded")) setFolded(row, true);
}

/**
 * @param {HTMLElement} row
 * @param {boolean} folded
 */
function setFolded(row, folded) {
  row.classList.toggle("folded", folded);
  row.querySelector(".row-open")?.setAttribute("aria-expanded", String(!folded));
}

/** @returns {HTMLElement[]} */
function rowsOfDraft() {
  return [...by("scope-view").querySelectorAll(".lesson-row")];
}

/** @param {HTMLElement} row */
function placeOf(row) {
  return Number(row.id.replace("row-", ""));
}
