// What is on the desk: the scope, the lesson, the story and what is known of it. Whoever wants to know of changes is told.

/** @type {Record<string, any>} */
export const desk = {
  /** @type {import("./engine.js").Ask} */
  ask: async () => ({ problem: "the page has not started yet" }),
  scopes: [],
  /** The scope that counts: `{name}` or `{text}`. */
  source: { name: "starter" },
  /** What it teaches. */
  scope: { title: "", lessons: [] },
  /** The place of the lesson, from 0. */
  lesson: 0,
  title: "",
  story: "",
  names: [],
  storyWords: [],
  focus: [],
  /** The marks of the story. */
  marked: null,
  /** The word that is looked at: the text of it, and where it stands. */
  chosen: null,
  /** Whether the story is read, not written. */
  reading: false,
};

/** @type {Array<(what: Set<string>) => void>} */
const listeners = [];

/** @param {(what: Set<string>) => void} listener */
export function whenChanged(listener) {
  listeners.push(listener);
}

/**
 * Changes something on the desk and tells everybody.
 * @param {Record<string, any>} changes
 */
export function change(changes) {
  Object.assign(desk, changes);
  const what = new Set(Object.keys(changes));
  for (const listener of listeners) listener(what);
}

/**
 * What is asked of the library: it need not know the name of one's own file.
 * @param {any} source
 */
export function theScope(source) {
  return source.name ? { name: source.name } : { text: source.text };
}

/** What a question about the story says of it. */
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
 * Whether somebody has declared a word, whatever its case.
 * @param {string} word
 */
export function isDeclared(word) {
  return desk.marked?.distinct.some((/** @type {any} */ one) => one.declared && one.word === word) ?? false;
}
