// One lesson of a scope that is being written, as a row of fields.

import { button, el, unseen } from "./dom.js";
import { changeDraft, draft, emptyLesson } from "./draft.js";
import { rowOpener } from "./find-lesson.js";
import { picker } from "./pick.js";

/** What the fields can be chosen from; the editor asks for it once. */
export const draftChoices = { skills: /** @type {any[]} */ ([]), accents: /** @type {any[]} */ ([]) };

/**
 * What a row needs of the editor.
 * @typedef {{redraw: (focus?: string) => void, pasted: (text: string, at: number) => void, next: (place: number, field: string) => void}} RowHost
 */

/** @param {number} place */
export function draftLessonId(place) {
  return draft.scope.lessons[place].id.trim() || String(place + 1);
}

/**
 * A field with its label, and a place for what is wrong with it.
 * @param {string} key such as `3-teach`
 * @param {string} label
 * @param {string} value
 * @param {(value: string) => void} set
 * @param {Record<string, any>} [properties]
 */
export function draftField(key, label, value, set, properties = {}) {
  const { rows, of, ...others } = properties;
  const id = `draft-${key}`;
  const input = el(rows ? "textarea" : "input", { id, value, autocomplete: "off", spellcheck: false, rows, "data-field": key, "aria-describedby": `fault-${key}`, ...others });
  input.addEventListener("input", () => changeDraft(() => set(input.value), key));
  return el("div", { className: `draft-field ${key.replace(/^\d+-/, "of-")}` }, el("label", { htmlFor: id }, label, of ? unseen(` of ${of}`) : null), input, el("p", { id: `fault-${key}`, className: "fault" }));
}

/**
 * @param {number} place
 * @param {RowHost} host
 */
export function lessonRow(place, host) {
  const lesson = draft.scope.lessons[place];
  const of = `lesson ${draftLessonId(place)}`;
  const [letters, words] = place ? ["", ""] : ["such as s a t p, or sh, ea as in bread", "such as the, said"];
  const teach = draftField(`${place}-teach`, "Patterns", lesson.teach, (value) => (lesson.teach = value), { rows: 1, of, autocapitalize: "none", placeholder: letters });
  const sight = draftField(`${place}-sight`, "Sight words", lesson.sight, (value) => (lesson.sight = value), { rows: 1, of, autocapitalize: "none", placeholder: words });
  const title = draftField(`${place}-title`, "Title", lesson.title, (value) => (lesson.title = value), { of });
  for (const one of [teach, title]) {
    one.addEventListener("paste", (/** @type {ClipboardEvent} */ event) => {
      const text = event.clipboardData?.getData("text") ?? "";
      if (!isLines(text)) return;
      event.preventDefault();
      host.pasted(text, place);
    });
  }
  for (const one of [teach, sight, title]) {
    const key = one.querySelector("[data-field]").dataset.field.replace(/^\d+-/, "");
    one.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
      if (event.key !== "Enter" || event.shiftKey || event.isComposing) return;
      event.preventDefault();
      host.next(place, key === "title" ? "title" : "teach");
    });
  }
  const row = el(
    "li",
    { className: "lesson-row folded", id: `row-${place}` },
    rowOpener(place),
    el("span", { className: "row-number" }, unseen("Lesson "), draftLessonId(place)),
    title,
    teach,
    sight,
    rowActs(place, of, host),
    moreOf(place, of),
  );
  const pick = button("Pick…", () => openPicker(row, place, of, pick), { className: "plain", "aria-label": `Pick patterns for ${of}` });
  teach.querySelector("label").after(pick);
  return row;
}

/**
 * Whether a text is several lessons, not a list of patterns.
 * @param {string} text
 */
function isLines(text) {
  const lines = text.trim().split(/\r\n|\n|\r/).filter((line) => line.trim());
  return text.includes("\t") || (lines.length > 1 && lines.some((line) => line.trim().includes(" ")));
}

/**
 * @param {number} place
 * @param {string} of
 * @param {RowHost} host
 */
function rowActs(place, of, host) {
  const { lessons } = draft.scope;
  const move = (/** @type {number} */ by_) => () => {
    changeDraft((scope) => {
      const [moved] = scope.lessons.splice(place, 1);
      scope.lessons.splice(place + by_, 0, moved);
    });
    host.redraw(`#row-${place + by_} .${by_ < 0 ? "up" : "down"}:not(:disabled), #row-${place + by_} .remove`);
  };
  const remove = () => {
    changeDraft((scope) => void scope.lessons.splice(place, 1));
    host.redraw(lessons.length ? `#row-${Math.min(place, lessons.length - 1)} .remove` : "#add-lesson");
  };
  const insert = () => {
    changeDraft((scope) => void scope.lessons.splice(place + 1, 0, emptyLesson()));
    host.redraw(`#draft-${place + 1}-teach`);
  };
  return el(
    "div",
    { className: "row-acts" },
    button("↑", move(-1), { className: "up", disabled: place === 0, "aria-label": `Move ${of} up`, title: "Move up" }),
    button("↓", move(1), { className: "down", disabled: place === lessons.length - 1, "aria-label": `Move ${of} down`, title: "Move down" }),
    button("+", insert, { "aria-label": `Add a lesson after ${of}`, title: "Add a lesson below" }),
    button("×", remove, { className: "remove", "aria-label": `Remove ${of}`, title: "Remove" }),
  );
}

/** @param {string} text */
function namesIn(text) {
  return text.split(",").map((one) => one.trim()).filter(Boolean);
}

/**
 * The fields that most lessons leave empty: skills, patterns to practise again, the lesson's own id.
 * @param {number} place
 * @param {string} of
 */
function moreOf(place, of) {
  const lesson = draft.scope.lessons[place];
  const summary = el("summary", {}, saysMore(lesson), unseen(` of ${of}`));
  const inside = el("div", { className: "more-fields" });
  const details = el("details", { className: "more" }, summary, inside);
  const fill = () => {
    if (inside.childElementCount) return;
    const tickOf = (/** @type {any} */ skill) => {
      const box = el("input", { type: "checkbox", id: `skill-${place}-${skill.name}`, checked: namesIn(lesson.skills).includes(skill.name) });
      box.addEventListener("change", () =>
        changeDraft(() => {
          const others = namesIn(lesson.skills).filter((name) => name !== skill.name);
          lesson.skills = [...others, ...(box.checked ? [skill.name] : [])].join(", ");
          summary.replaceChildren(saysMore(lesson), unseen(` of ${of}`));
        }),
      );
      return el("div", { className: "field tick" }, box, el("label", { htmlFor: box.id }, skill.name.endsWith("-blends") ? `${skill.name.replace("-", " ")}: ${skill.label}` : skill.label));
    };
    inside.append(
      el("fieldset", { "data-field": `${place}-skills`, tabIndex: -1 }, el("legend", {}, "Skills"), ...draftChoices.skills.map(tickOf), el("p", { id: `fault-${place}-skills`, className: "fault" })),
      draftField(`${place}-review`, "Patterns to practise again", lesson.review, (value) => (lesson.review = value), { rows: 1, of, autocapitalize: "none" }),
      draftField(`${place}-id`, "Own number or name of the lesson", lesson.id, (value) => (lesson.id = value), { of, placeholder: String(place + 1) }),
    );
  };
  details.addEventListener("toggle", fill);
  // What has a fault there is shown at once.
  if (draft.faults.some((fault) => fault.lesson === place && ["skills", "review", "id"].includes(fault.field))) {
    fill();
    details.open = true;
  }
  return details;
}

/** @param {import("./draft.js").DraftLesson} lesson */
function saysMore(lesson) {
  const labelOf = (/** @type {string} */ name) => draftChoices.skills.find((skill) => skill.name === name)?.label ?? name;
  const parts = [namesIn(lesson.skills).map(labelOf).join(", "), lesson.review ? `again: ${lesson.review}` : ""].filter(Boolean);
  return parts.length ? `Skills and more: ${parts.join("; ")}` : "Skills and more";
}

/**
 * @param {HTMLElement} row
 * @param {number} place
 * @param {string} of
 * @param {HTMLElement} from
 */
function openPicker(row, place, of, from) {
  const open = document.querySelector(".picker");
  open?.remove();
  if (open && row.contains(from) && open.id === `picker-${place}`) return;
  const input = /** @type {HTMLTextAreaElement} */ (row.querySelector(`#draft-${place}-teach`));
  const pick = (/** @type {string} */ pattern) => {
    const lesson = draft.scope.lessons[place];
    changeDraft(() => {
      lesson.teach = [lesson.teach.trim().replace(/,$/, ""), pattern].filter(Boolean).join(", ");
    });
    input.value = lesson.teach;
  };
  const panel = picker(of, pick, () => {
    panel.remove();
    from.focus();
  });
  panel.id = `picker-${place}`;
  row.append(panel);
  panel.querySelector("input").focus();
}
