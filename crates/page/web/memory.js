// The stories that the page remembers, in the browser's own storage: what was typed yesterday is there today.

import { button, by, el } from "./dom.js";
import { change, desk, whenChanged } from "./desk.js";
import { forgetUndo } from "./edit.js";
import { say } from "./files.js";
import { useScope } from "./scope.js";

const STORIES = "untaught.stories";
const SCOPES = "untaught.scopes";

/** What makes a story worth writing down again. */
const KEPT = ["title", "story", "names", "storyWords", "focus", "lesson", "source"];

/** The id of the story on the page, once it has been written down. */
let storyId = "";
let writing = 0;
let refused = false;

/** An id that nothing else has. */
export function newId() {
  return `${Date.now().toString(36)}${Math.random().toString(36).slice(2, 8)}`;
}

/**
 * The scopes of one's own, the latest first: the file as it was good last, and what is being written.
 * @returns {Array<{id: string, file: string, title: string, text: string, draft: any, changed: number}>}
 */
export function keptScopes() {
  return stored(SCOPES).filter((one) => typeof one?.id === "string" && typeof one.text === "string");
}

/** @param {{id: string, file: string, title: string, text: string, draft: any, changed: number}} kept */
export function keepScope(kept) {
  store([kept, ...keptScopes().filter((one) => one.id !== kept.id)], SCOPES);
}

/** @param {string} id */
export function forgetScope(id) {
  store(keptScopes().filter((one) => one.id !== id), SCOPES);
}

/** Whether the browser keeps what the page writes down. */
export function remembers() {
  return !refused;
}

/** The stories, the latest first. */
function storedStories() {
  return stored(STORIES).filter((one) => typeof one?.id === "string" && typeof one.story === "string");
}

/**
 * @param {string} key
 * @returns {any[]}
 */
function stored(key) {
  try {
    const found = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(found) ? found : [];
  } catch {
    refused = true;
    return [];
  }
}

/**
 * @param {any[]} list
 * @param {string} [key]
 */
function store(list, key = STORIES) {
  try {
    localStorage.setItem(key, JSON.stringify(list));
    refused = false;
  } catch {
    if (!refused) say("This browser does not let the page remember stories and scopes, or not so much. Save them as files.");
    refused = true;
  }
}

/** Writes the story on the page down now. */
export function rememberNow() {
  clearTimeout(writing);
  writing = 0;
  if (!desk.story.trim() && !storyId) return;
  const { title, story, names, storyWords, focus, source, scope, lesson } = desk;
  storyId ||= newId();
  const others = storedStories().filter((one) => one.id !== storyId);
  const kept = { id: storyId, title, story, names, storyWords, focus, source, scopeTitle: scope.title, lesson: scope.lessons[lesson]?.id ?? "", changed: Date.now() };
  // An emptied story is none.
  store(story.trim() ? [kept, ...others] : others);
  drawStories();
}

/** What comes next is another story. */
export function anotherStory() {
  if (writing || desk.story.trim()) rememberNow();
  storyId = "";
  forgetUndo();
}

/**
 * Opens a story that was written down, with its own scope and lesson.
 * @param {any} kept
 */
async function openStored(kept) {
  anotherStory();
  const used = await useScope(kept.source ?? { name: "starter" }, kept.scopeTitle ?? "");
  const place = desk.scope.lessons.findIndex((/** @type {any} */ lesson) => lesson.id === kept.lesson);
  storyId = kept.id;
  by("text").value = kept.story;
  by("title").value = kept.title ?? "";
  change({
    title: kept.title ?? "",
    story: by("text").value,
    names: kept.names ?? [],
    storyWords: kept.storyWords ?? [],
    focus: kept.focus ?? [],
    lesson: place < 0 ? desk.lesson : place,
    chosen: null,
  });
  say(used ? "" : `The scope of this story, ${kept.scopeTitle}, cannot be read any more; the figures are for ${desk.scope.title}.`);
}

/**
 * Opens a story from the list, which is below it.
 * @param {any} kept
 */
async function reopen(kept) {
  await openStored(kept);
  by("main").focus({ preventScroll: true });
  window.scrollTo(0, 0);
}

/** An empty page; the story that was on it is remembered. */
function newStory() {
  const before = desk.story.trim() ? nameOfStory(desk) : "";
  anotherStory();
  by("text").value = "";
  by("title").value = "";
  change({ title: "", story: "", names: [], storyWords: [], focus: [], chosen: null });
  say(before && remembers() ? `“${before}” is kept under My stories.` : "");
  if (!desk.reading) by("text").focus();
}

/** @param {any} kept */
function forget(kept) {
  store(storedStories().filter((one) => one.id !== kept.id));
  const was = kept.id === storyId;
  if (was) {
    clearTimeout(writing);
    writing = 0;
    storyId = "";
  }
  drawStories();
  const back = () => {
    if (was && !storyId) storyId = kept.id;
    store([kept, ...storedStories()].sort((a, b) => b.changed - a.changed));
    drawStories();
    say("");
  };
  by("said").replaceChildren(`Forgot ${nameOfStory(kept)}. `, button("Undo", back, { className: "plain", id: "remember-again" }));
}

function forgetAll() {
  if (!window.confirm("Forget all stories and scopes that this page remembers? What is on the page stays until you close it.")) return;
  clearTimeout(writing);
  writing = 0;
  store([]);
  store([], SCOPES);
  storyId = "";
  say("");
  drawStories();
}

/** @param {any} kept */
function nameOfStory(kept) {
  return kept.title || kept.story.trim().split("\n")[0].slice(0, 40);
}

/** The list of stories. */
function drawStories() {
  const stories = storedStories();
  // Lesson 15 of one scope is not that of another.
  const scopes = new Set(stories.map((kept) => kept.scopeTitle));
  const of = (/** @type {any} */ kept) => (scopes.size > 1 && kept.scopeTitle ? ` of ${kept.scopeTitle}` : "");
  const row = (/** @type {any} */ kept) =>
    el(
      "li",
      { className: kept.id === storyId ? "here" : "" },
      button(nameOfStory(kept), () => void reopen(kept), { className: "plain", dir: "auto", "aria-current": kept.id === storyId ? "true" : null }),
      el("span", { className: "small" }, ` lesson ${kept.lesson}${of(kept)}, ${new Date(kept.changed).toLocaleDateString()} `),
      button("Forget", () => forget(kept), { className: "plain", "aria-label": `Forget ${nameOfStory(kept)}` }),
    );
  const nothing = refused ? "This browser does not let the page remember stories." : "Stories that you type or open are remembered in this browser, and nowhere else.";
  by("stories").replaceChildren(
    ...(stories.length ? [el("ul", {}, ...stories.map(row)), button("Forget all", forgetAll, { id: "forget-all" })] : [el("p", { className: "small" }, nothing)]),
  );
}

/** Takes up the story of the last time, and goes on to write down what changes. */
export async function startMemory() {
  by("new-story").addEventListener("click", newStory);
  const [last] = storedStories();
  drawStories();
  if (last && !desk.story.trim()) await openStored(last);
  whenChanged((what) => {
    if (!KEPT.some((key) => what.has(key))) return;
    clearTimeout(writing);
    writing = setTimeout(rememberNow, 400);
  });
  window.addEventListener("pagehide", () => writing && rememberNow());
}
