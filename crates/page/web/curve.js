// The lesson slider, and above it a curve: how much of the story can be read at each lesson.

import { by, el } from "./dom.js";
import { change, desk, lessonId } from "./desk.js";

const SVG = "http://www.w3.org/2000/svg";

/** Sight words that are named above the slider. */
const SIGHT = 12;

/** Lets the slider and its buttons change the lesson. */
export function startLesson() {
  const slider = by("lesson");
  const to = (/** @type {number} */ place) => {
    const last = desk.scope.lessons.length - 1;
    change({ lesson: Math.min(Math.max(place, 0), last) });
  };
  slider.addEventListener("input", () => to(Number(slider.value)));
  by("earlier").addEventListener("click", () => to(desk.lesson - 1));
  by("later").addEventListener("click", () => to(desk.lesson + 1));
}

/** Shows what the lesson teaches. */
export function drawLesson() {
  const slider = by("lesson");
  const lesson = desk.scope.lessons[desk.lesson];
  if (!lesson) return;
  slider.max = String(desk.scope.lessons.length - 1);
  slider.value = String(desk.lesson);
  slider.setAttribute("aria-valuetext", `lesson ${lesson.id}${lesson.title ? `, ${lesson.title}` : ""}`);
  by("earlier").disabled = desk.lesson === 0;
  by("later").disabled = desk.lesson === desk.scope.lessons.length - 1;
  by("lesson-name").replaceChildren("Lesson ", el("bdi", {}, lesson.id), lesson.title ? ": " : "", el("bdi", {}, lesson.title));
  const taught = [];
  if (lesson.patterns.length) taught.push(el("span", {}, "teaches ", el("strong", {}, lesson.patterns.join(", "))));
  if (lesson.skills.length) taught.push(el("span", {}, lesson.skills.join(", ")));
  if (lesson.sight.length) {
    const few = lesson.sight.slice(0, SIGHT);
    const more = lesson.sight.length > SIGHT ? ` and ${lesson.sight.length - SIGHT} more` : "";
    taught.push(el("span", { title: lesson.sight.join(", ") }, "sight words: ", el("strong", {}, few.join(", ")), more));
  }
  by("lesson-teaches").replaceChildren(...(taught.length ? taught : ["nothing new: a review lesson"]));
}

/** Draws the story's curve. */
export function drawCurve() {
  const svg = by("curve");
  const curve = desk.marked?.curve;
  const lessons = desk.scope.lessons.length;
  if (!curve || !desk.marked.counts.words || lessons < 2) {
    svg.replaceChildren();
    svg.setAttribute("aria-label", "No story yet");
    by("curve-says").textContent = "";
    return;
  }
  const x = (/** @type {number} */ place) => (place / (lessons - 1)) * 100;
  const y = (/** @type {number | null} */ percent) => 39 - ((percent ?? 0) / 100) * 37;
  const points = (/** @type {Array<number>} */ list) => list.map((percent, place) => `${x(place)},${y(percent)}`).join(" ");
  const shape = (/** @type {string} */ name, /** @type {Record<string, any>} */ attributes) => {
    const made = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
    return made;
  };
  svg.replaceChildren(
    shape("polygon", { class: "area", points: `0,39 ${points(curve.readable)} 100,39` }),
    shape("line", { class: "grid", x1: 0, x2: 100, y1: y(100), y2: y(100) }),
    shape("polyline", { class: "readable", points: points(curve.readable) }),
    shape("polyline", { class: "decodable", points: points(curve.decodable) }),
    shape("line", { class: "here", x1: x(desk.lesson), x2: x(desk.lesson), y1: 0, y2: 40 }),
  );
  const whole = curve.whole;
  const says = whole === null ? "Not all words can be read even at the last lesson." : `All words can be read from lesson ${lessonId(whole)}.`;
  const at = (/** @type {number} */ place) => `lesson ${lessonId(place)} ${curve.readable[place]} %`;
  const few = [0, 1, 2, 3, 4].map((n) => at(Math.round((n * (lessons - 1)) / 4)));
  svg.setAttribute("aria-label", `Readable words by lesson: ${few.join(", ")}. ${says}`);
  const line = (/** @type {string} */ kind, /** @type {string} */ text) => el("span", { className: `key ${kind}` }, text);
  by("curve-says").replaceChildren(line("readable", "readable"), line("decodable", "decodable"), el("span", { className: "whole" }, says));
}
