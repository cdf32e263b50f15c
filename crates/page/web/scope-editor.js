// The view in which a scope is written: lessons as rows, faults beside their fields, saved as the file that the command reads.

import { asSentence, button, by, el, many } from "./dom.js";
import { desk, theScope } from "./desk.js";
import { changeDraft, draft, draftFile, dropEmptyEnd, emptyDraft, emptyLesson, flushDraft, isInUse, putAway, takeUp, toFirstFault, undoDraft, useDraft, whenChecked } from "./draft.js";
import { download } from "./files.js";
import { lessonFinder, nameRows, showFound, unfold } from "./find-lesson.js";
import { draftChoices, draftField, draftLessonId, lessonRow } from "./lesson-row.js";
import { forgetScope, keptScopes, remembers } from "./memory.js";
import { forgetOwn } from "./scope.js";

/** The scope that is begun with, as chosen in the list. */
let beginWith = "in use";
let pastedText = "";

/** Connects the editor with what it depends on. */
export function startScopeEditor() {
  whenChecked(drawFaults);
  window.addEventListener("pagehide", flushDraft);
}

/** Draws the view: the draft, or what to begin with. */
export async function drawScopeEditor() {
  if (!draftChoices.accents.length) Object.assign(draftChoices, await desk.ask({ ask: "draft_choices" }));
  const kept = keptScopes().find((one) => one.id === desk.source.id);
  if (!draft.id && kept?.draft) await takeUp(kept.draft, kept.id);
  if (draft.id) drawDraft();
  else drawBeginning();
}

/** @param {string} text */
function sayOfScope(text) {
  by("scope-said").textContent = text;
}

/** A line that tells what happened. */
function saidLine() {
  return el("p", { id: "scope-said", className: "said", role: "status" });
}

function drawBeginning() {
  const inUse = desk.source.name ? [] : [el("option", { value: "in use" }, desk.scope.title || desk.source.file)];
  const named = desk.scopes.map((/** @type {any} */ scope) => el("option", { value: scope.name }, scope.title));
  const select = el("select", { id: "begin-with" }, ...inUse, ...named);
  select.value = inUse.length ? "in use" : (desk.source.name ?? beginWith);
  const begin = async () => {
    beginWith = select.value;
    await beginDraft(beginWith === "in use" ? desk.source : { name: beginWith }, beginWith !== "in use" || !desk.source.id);
  };
  const own = keptScopes();
  const goOn = (/** @type {any} */ one) => async () => {
    if (one.draft) await takeUp(one.draft, one.id);
    else return beginDraft({ text: one.text, id: one.id }, false);
    drawDraft(true);
  };
  const row = (/** @type {any} */ one) =>
    el(
      "li",
      {},
      button(one.title, goOn(one), { className: "plain", dir: "auto" }),
      el("span", { className: "small" }, ` ${one.draft ? `${many(one.draft.lessons.length, "lesson")}, ` : ""}${new Date(one.changed).toLocaleDateString()}${one.id === desk.source.id ? ", in use" : ""} `),
      button("Forget", () => forgetOne(one), { className: "plain", "aria-label": `Forget ${one.title}` }),
    );
  by("scope-view").replaceChildren(
    el(
      "section",
      { className: "sheet begin", "aria-labelledby": "scope-heading" },
      el("h2", { id: "scope-heading" }, "Your own scope and sequence"),
      el("p", {}, "Write down what each lesson teaches, in the order in which you teach it: spelling patterns, sight words, skills. Stories and lists then follow it."),
      own.length ? el("h3", {}, "Continue with") : null,
      own.length ? el("ul", { className: "kept-scopes" }, ...own.map(row)) : null,
      el("h3", {}, "Type it, lesson by lesson"),
      el("p", {}, button("Start with an empty lesson 1", () => void beginNew(), { id: "begin-nothing" })),
      el("h3", {}, "Or paste what you have"),
      pasteField("Make lessons of it", "begin-paste", async (text) => {
        await takeUp(emptyDraft());
        drawDraft();
        await addPasted(text);
      }),
      el("h3", {}, "Or change a copy of an order that is here"),
      el("div", { className: "fields" }, el("div", { className: "field" }, el("label", { htmlFor: "begin-with" }, "Copy of"), select), button("Start with the copy", () => void begin(), { id: "begin-copy" })),
      saidLine(),
    ),
  );
}

/** @param {any} one */
function forgetOne(one) {
  if (!window.confirm(`Forget the scope ${one.title}? Stories keep their copy of it.`)) return;
  forgetScope(one.id);
  forgetOwn(one.id);
  drawBeginning();
}

async function beginNew() {
  await takeUp({ ...emptyDraft(), title: freeTitle("My scope"), lessons: [emptyLesson()] });
  drawDraft(true);
  unfold(by("row-0"));
  by("draft-0-teach").focus();
}

/**
 * Begins with a scope that there is.
 * @param {any} source
 * @param {boolean} copy whether it becomes another scope
 */
export async function beginDraft(source, copy) {
  const begun = await desk.ask({ ask: "begin_draft", scope: theScope(source) });
  if (begun.problem || begun.faults) return sayOfScope(`This file cannot be shown here: ${begun.problem ?? begun.faults[0].message}.`);
  const scope = begun.draft;
  if (copy) scope.title = titleOfCopy(scope.title || "A scope");
  await takeUp(scope, copy ? "" : source.id);
  drawDraft(true);
  if (begun.comments && !source.name) sayOfScope("The comments in the file (lines that begin with #) are not kept here. Keep your file if you need them.");
}

/**
 * A title that no other scope has: scopes are saved under their titles.
 * @param {string} title
 */
function titleOfCopy(title) {
  return freeTitle(title, (number) => `${title} (my copy${number > 1 ? ` ${number}` : ""})`);
}

/**
 * @param {string} title
 * @param {(number: number) => string} [numbered]
 */
function freeTitle(title, numbered = (number) => (number > 1 ? `${title} ${number}` : title)) {
  const taken = new Set(keptScopes().map((one) => one.title));
  let number = 1;
  while (taken.has(numbered(number))) number++;
  return numbered(number);
}

/**
 * A field for pasted lines.
 * @param {string} act
 * @param {string} id
 * @param {(text: string) => Promise<void>} use
 */
function pasteField(act, id, use) {
  const area = el("textarea", { id, rows: 4, spellcheck: false, value: pastedText, placeholder: "s a t p i n\nTwo letters, one sound: sh ch | said, was" });
  area.addEventListener("input", () => {
    pastedText = area.value;
  });
  const submit = async () => {
    if (!area.value.trim()) return area.focus();
    pastedText = "";
    await use(area.value);
  };
  return el(
    "div",
    { className: "paste-lessons" },
    el("label", { htmlFor: id }, "A lesson on each line, or rows copied from a spreadsheet (lesson, title, patterns, sight words, skills)"),
    area,
    button(act, () => void submit(), { id: `${id}-add` }),
  );
}

/** How the columns of a pasted table are called. */
const COLUMN_NAMES = { id: "lesson", title: "title", teach: "patterns", sight: "sight words", skills: "skills", review: "to practise again", unused: "not used" };

/**
 * Adds pasted lessons at the end, or in place of an empty lesson.
 * @param {string} text
 * @param {number} [place]
 */
async function addPasted(text, place) {
  const { lessons } = draft.scope;
  const empty = (/** @type {any} */ lesson) => lesson && !Object.values(lesson).some(Boolean);
  const at = place === undefined ? lessons.length : place + (empty(lessons[place]) ? 0 : 1);
  const answer = await desk.ask({ ask: "lines", text, after: at });
  if (answer.problem) return sayOfScope(asSentence(answer.problem));
  if (!answer.lessons.length) return sayOfScope("There are no lessons in these lines.");
  changeDraft((scope) => {
    if (answer.draft && !scope.lessons.some((lesson) => !empty(lesson))) Object.assign(scope, answer.draft);
    else scope.lessons.splice(at, empty(scope.lessons[at]) ? 1 : 0, ...answer.lessons);
  });
  drawDraft();
  const columns = answer.columns.map((/** @type {keyof typeof COLUMN_NAMES} */ column) => COLUMN_NAMES[column]);
  sayOfScope(`${many(answer.lessons.length, "lesson")} added.${columns.length ? ` The columns were read as: ${columns.join(", ")}.` : ""}`);
  unfold(by("scope-view").querySelector(`#row-${at}`));
  by("scope-view").querySelector(`#row-${at} textarea`)?.focus();
}

/**
 * Draws all rows. Focus goes to the first element that fits, or stays where it is.
 * @param {boolean} [top] whether the top of the view is shown
 * @param {string} [focus]
 */
function drawDraft(top = false, focus = "") {
  const { scope } = draft;
  const host = {
    redraw: (/** @type {string | undefined} */ wanted) => drawDraft(false, wanted ?? ""),
    pasted: (/** @type {string} */ text, /** @type {number} */ place) => void addPasted(text, place),
    next: (/** @type {number} */ place, /** @type {string} */ field) => (place + 1 < scope.lessons.length ? by(`draft-${place + 1}-${field}`).focus() : add(field)),
  };
  const accent = el("select", { id: "draft-accent", "data-field": "accent" }, ...draftChoices.accents.map((one) => el("option", { value: one.name }, one.label)));
  accent.value = scope.accent || draftChoices.accents[0]?.name;
  accent.addEventListener("change", () => changeDraft(() => (scope.accent = accent.value)));
  const age = el("select", { id: "draft-age", "data-field": "age" }, ...["5", "6", "7", "8"].map((one) => el("option", { value: one }, one)));
  age.value = scope.age || "8";
  age.addEventListener("change", () => changeDraft(() => (scope.age = age.value)));
  const add = (field = "teach") => {
    changeDraft((all) => void all.lessons.push(emptyLesson()));
    drawDraft(false, `#draft-${scope.lessons.length - 1}-${field}`);
  };
  const own = (/** @type {"about" | "source" | "pronounce"} */ key, /** @type {string} */ label, /** @type {string} */ placeholder) =>
    draftField(key, label, scope[key], (value) => (scope[key] = value), { rows: 2, placeholder });
  const view = by("scope-view");
  const y = window.scrollY;
  view.replaceChildren(
    el(
      "section",
      { className: "sheet scope-sheet", "aria-labelledby": "scope-heading" },
      el("h2", { id: "scope-heading" }, "Your own scope and sequence"),
      el(
        "div",
        { className: "fields scope-fields" },
        draftField("title", "Title", scope.title, (value) => (scope.title = value)),
        el("div", { className: "draft-field" }, el("label", { htmlFor: "draft-accent" }, "Accent"), accent, el("p", { id: "fault-accent", className: "fault" })),
        el("div", { className: "draft-field" }, el("label", { htmlFor: "draft-age" }, "Age of the oldest children, for word lists"), age, el("p", { id: "fault-age", className: "fault" })),
      ),
      el(
        "div",
        { className: "acts scope-acts" },
        button("Use for my stories", () => void putToUse(), { id: "use-draft", className: "main" }),
        button("Save as a file", saveDraft, { id: "save-draft" }),
        button("Undo", () => undoDraft() && drawDraft(), { id: "undo-draft" }),
        button("All my scopes", closeDraft, { id: "close-draft" }),
      ),
      // Stays in view: rows and pasted lessons may be far from the top.
      el("div", { className: "scope-bar" }, el("p", { id: "scope-standing", className: "scope-standing", role: "status" }), saidLine()),
      el("p", { id: "fault-lessons", className: "fault" }),
      lessonFinder(),
      el("ol", { className: "lesson-rows" }, ...scope.lessons.map((_, place) => lessonRow(place, host))),
      el("div", { className: "acts" }, button("Add a lesson", () => add(), { id: "add-lesson" }), el("span", { className: "small" }, "Or press Enter in a field.")),
      el("details", { className: "paste" }, el("summary", {}, "Paste lessons"), pasteField("Add these lessons", "paste-lessons", (text) => addPasted(text))),
      el(
        "details",
        { className: "about-scope", open: Boolean(scope.pronounce) },
        el("summary", {}, "About this scope; names and how they are read"),
        own("about", "About", ""),
        own("source", "Where the order comes from", ""),
        own("pronounce", "Names and local words, a line for each", "Priya: p·r·i=/iː/·y·a=/ə/"),
      ),
    ),
  );
  drawFaults();
  showFound();
  const next = focus ? view.querySelector(focus) : null;
  unfold(next);
  if (next instanceof HTMLElement) next.focus({ preventScroll: false });
  else window.scrollTo(0, top ? 0 : y);
}

/** Shows what is wrong beside each field, and how the scope stands. */
function drawFaults() {
  const view = by("scope-view");
  if (!draft.id || !view.querySelector(".scope-sheet")) return;
  for (const old of view.querySelectorAll(".fault")) old.textContent = "";
  for (const input of view.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
  for (const fault of draft.faults) {
    const key = fault.lesson === null ? fault.field : `${fault.lesson}-${fault.field}`;
    const folded = view.querySelector(`#row-${fault.lesson} details.more`);
    // Fields that are folded are made when they are shown.
    if (folded instanceof HTMLDetailsElement && !view.querySelector(`#fault-${key}`)) folded.open = true;
    const place = view.querySelector(`[id="fault-${key}"]`);
    if (!place) {
      if (fault.lesson === null) by("fault-lessons").append(asSentence(fault.message), " ");
      continue;
    }
    place.append(asSentence(fault.message), " ");
    view.querySelector(`[data-field="${key}"]`)?.setAttribute("aria-invalid", "true");
  }
  nameRows();
  by("undo-draft").disabled = !draft.past.length;
  by("use-draft").disabled = isInUse() || Boolean(draft.faults.length) || !teaches();
  by("scope-standing").replaceChildren(...standingOfDraft());
}

/** Whether some lesson teaches something. */
function teaches() {
  return draft.scope.lessons.some((lesson) => [lesson.teach, lesson.sight, lesson.skills].some((entry) => entry.trim()));
}

/** @returns {Array<string | HTMLElement>} */
function standingOfDraft() {
  const lessons = many(draft.scope.lessons.length, "lesson");
  const kept = remembers() ? "" : " This browser does not let the page remember it: save it as a file.";
  if (!draft.faults.length) {
    if (isInUse()) return [`${lessons}. Stories are checked with this scope, and changes count at once.${kept} `, button("Go to the story", toStory, { className: "plain", id: "to-story" })];
    if (!teaches()) return [`Nothing is taught yet: write what lesson 1 teaches, such as s a t p.${kept}`];
    return [`${lessons}; no mistakes found. Not used for stories yet.${kept} `, button("Use it", () => void putToUse(), { className: "plain", id: "use-it" })];
  }
  const places = [...new Set(draft.faults.map((fault) => (fault.lesson === null ? "the scope itself" : `lesson ${draftLessonId(fault.lesson)}`)))];
  const few = places.length > 4 ? `${places.slice(0, 4).join(", ")} and ${places.length - 4} more` : places.join(", ");
  const still = isInUse() ? " Until that is corrected, stories are checked with it as it was." : "";
  return [`${lessons}. ${draft.faults.length === 1 ? "One thing" : `${draft.faults.length} things`} to correct, in ${few}.${still}${kept} `, button("Go to the first", toFirstFault, { className: "plain", id: "first-fault" })];
}

function toStory() {
  by("show-story").click();
  (desk.reading ? by("read") : by("text")).focus({ preventScroll: true });
}

async function putToUse() {
  if (await dropEmptyEnd()) drawDraft();
  await useDraft();
  drawFaults();
  sayOfScope("");
  by("to-story").focus();
}

function saveDraft() {
  download(draft.text, draftFile(), "text/yaml");
  sayOfScope(draft.faults.length ? `Saved as ${draftFile()}. It cannot be used until what is wrong is corrected.` : `Saved as ${draftFile()}.`);
}

function closeDraft() {
  putAway();
  drawBeginning();
  by("begin-with").focus();
}

/**
 * Shows a scope file whose entries have faults, to be corrected here.
 * @param {any} source
 */
export async function correctHere(source) {
  by("show-scope").click();
  putAway();
  await beginDraft(source, false);
}

