// The story for the class: alone on the screen, large, with or without marks, line by line. And the copy that a child gets on paper.

import { button, by, el } from "./dom.js";
import { desk, whenChanged } from "./desk.js";

/** The size of the letters, in steps of an eighth. */
let size = 8;
let marksShown = false;
/** The line that is read, if they are read one by one. */
let lineAt = -1;

/** Connects the buttons. */
export function startProjector() {
  by("project").addEventListener("click", openProjector);
  by("print-child").addEventListener("click", printForChild);
  document.addEventListener("keydown", (event) => {
    if (by("projector").hidden) return;
    if (event.key === "Escape") closeProjector();
    else if (event.key === "+") resize(1);
    else if (event.key === "-") resize(-1);
    else if (event.key === "m") toggleMarks();
    else if (["ArrowDown", "PageDown", " "].includes(event.key)) step(1);
    else if (["ArrowUp", "PageUp"].includes(event.key)) step(-1);
    else return;
    event.preventDefault();
  });
  // Some browsers keep the Escape key for leaving the full screen.
  document.addEventListener("fullscreenchange", () => {
    if (!document.fullscreenElement && !by("projector").hidden) closeProjector();
  });
  whenChanged((what) => {
    if (!by("projector").hidden && what.has("marked")) drawProjector();
  });
}

function openProjector() {
  lineAt = -1;
  by("projector").hidden = false;
  document.body.classList.add("projecting");
  drawProjector();
  by("projector-close").focus();
  void document.documentElement.requestFullscreen?.().then(leaveIfClosed, () => {});
}

/** The browser may need a moment for the full screen; a view closed before then has none. */
function leaveIfClosed() {
  if (by("projector").hidden && document.fullscreenElement) void document.exitFullscreen();
}

function closeProjector() {
  by("projector").hidden = true;
  document.body.classList.remove("projecting");
  leaveIfClosed();
  by("project").focus();
}

/** @param {number} by_ */
function resize(by_) {
  size = Math.min(Math.max(size + by_, 4), 20);
  drawProjector();
}

function toggleMarks() {
  marksShown = !marksShown;
  drawProjector();
}

/** @param {number} by_ */
function step(by_) {
  const last = by("projected").querySelectorAll(".line").length - 1;
  lineAt = Math.min(Math.max(lineAt + by_, -1), last);
  drawProjector();
  by("projected").querySelector(".now-read")?.scrollIntoView({ block: "center" });
}

function drawProjector() {
  const bar = [
    button("Close", closeProjector, { id: "projector-close" }),
    button("Smaller", () => resize(-1)),
    button("Larger", () => resize(1)),
    button(marksShown ? "Without marks" : "With marks", toggleMarks, { "aria-pressed": String(marksShown) }),
    button("Next line", () => step(1)),
    button("Line before", () => step(-1)),
  ];
  const held = by("projector-bar").contains(document.activeElement) ? document.activeElement?.textContent : null;
  by("projector-bar").replaceChildren(...bar);
  if (held) (bar.find((one) => one.textContent === held) ?? bar[0]).focus();
  by("projected").style.fontSize = `${size * 0.375}rem`;
  by("projected").classList.toggle("one-line", lineAt >= 0);
  by("projected").replaceChildren(desk.title ? el("h2", {}, desk.title) : "", ...storyLines(marksShown));
}

/**
 * The lines of the story; the words of the lesson are marked if that is wanted.
 * @param {boolean} marked
 */
function storyLines(marked) {
  const words = (marked && desk.marked?.words) || [];
  let [start, at, number] = [0, 0, 0];
  return desk.story.split("\n").map((/** @type {string} */ line) => {
    const end = start + line.length;
    const made = el("p", {});
    let from = 0;
    for (; at < words.length && words[at] < end; at += 3) {
      const type = desk.marked.distinct[words[at + 2]];
      const mark = [type.focus ? "f" : "", type.status === "untaught" ? "u" : ""].join(" ").trim();
      if (!mark) continue;
      made.append(line.slice(from, words[at] - start), el("span", { className: mark }, line.slice(words[at] - start, words[at + 1] - start)));
      from = words[at + 1] - start;
    }
    made.append(line.slice(from));
    if (line.trim()) {
      made.className = number === lineAt ? "line now-read" : "line";
      number += 1;
    }
    start = end + 1;
    return made;
  });
}

/** Prints the story as a child gets it: large, without a mark. */
function printForChild() {
  const sheet = el("article", { className: "child" }, el("h2", {}, desk.title), ...storyLines(false));
  by("child-sheet").replaceChildren(sheet);
  document.body.classList.add("for-child");
  window.print();
  document.body.classList.remove("for-child");
  by("child-sheet").replaceChildren();
}
