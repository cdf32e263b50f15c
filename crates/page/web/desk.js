// The state of the page: the scope, the lesson, the story and its marks. Listeners are called when it changes.

/** @type {Record<string, any>} */
export const desk = {
  /** @type {import("./engine.js").Ask} */
  ask: async () => ({ problem: "the page has not started yet" }),
  scopes: [],
  /** The scope in use: `{name}` or `{text}`. */
  source: { name: "starter" },
  /** Its title and lessons. */
  scope: { title: "", lessons: [] },
  /** The lesson's index, from 0. */
  lesson: 0,
  title: "",
  story: "",
  names: [],
  storyWords: [],
  focus: [],
  /** The marks of the story. */
  marked: null,
  /** The selected word: its text and its position in the story. */
  chosen: null,
  /** The scope file that an opened story is for, and its lesson there, while that file is not open. */
  awaits: null,
  /** Whether the page is in read mode, not write mode. */
  reading: false,
};

/** @type {Array<(what: Set<string>) => void>} */
const listeners = [];

/** @param {(what: Set<string>) => void} listener */
export function whenChanged(listener) {
  listeners.push(listener);
}

/**
 * Changes part of the state and calls every listener.
 * @param {Record<string, any>} changes
 */
export function change(changes) {
  Object.assign(desk, changes);
  const what = new Set(Object.keys(changes));
  for (const listener of listeners) listener(what);
}

/**
 * The scope as the library expects it: without the name of the user's file.
 * @param {any} source
 */
export function theScope(source) {
  return source.name ? { name: source.name } : { text: source.text };
}

/** The part that every question about the story has in common. */
export function theStory() {
  const { lesson, story, title, names, storyWords, focus } = desk;
  return { scope: theScope(desk.source), lesson, text: story, title, names, story_words: storyWords, focus };
}

/**
 * `lesson 12`
 * @param {number} place
 */
export function lessonId(place) {
  return desk.scope.lessons[place]?.id ?? "";
}

/**
 * Whether a word has been declared, in any case.
 * @param {string} word
 */
export function isDeclared(word) {
  return desk.marked?.distinct.some((/** @type {any} */ one) => one.declared && one.word === word) ?? false;
}
