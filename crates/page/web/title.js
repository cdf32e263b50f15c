// The title on the first line of a story that was pasted or opened.

import { button, by } from "./dom.js";
import { change } from "./desk.js";
import { edit } from "./edit.js";

/**
 * The title on the first line of a text and the rest; null if that line may belong to the story.
 * @param {string} text
 * @returns {{title: string, story: string} | null}
 */
export function titleIn(text) {
  const found = /^\s*([^\r\n]{1,60})\r?\n\s*(?=\S)/.exec(text);
  const title = found?.[1].trim() ?? "";
  if (!found || title.startsWith("---") || !/\p{L}/u.test(title) || /[.!?…:;,]["”’']?$|^["“‘]/u.test(title) || title.split(/\s+/).length > 8) return null;
  const story = text.slice(found[0].length);
  // Verse and lists have short lines too: in a story a sentence ends the next one.
  return /[.!?…]["”’']?\s*$/u.test(story.split(/\r?\n/, 1)[0]) ? { title, story } : null;
}

/**
 * Shows a story without its first line, which becomes the title, and offers the way back.
 * @param {{title: string, story: string}} titled
 * @param {string} text the story with its title
 */
export function takeTitle(titled, text) {
  edit(0, by("text").value.length, titled.story);
  by("title").value = titled.title;
  change({ title: titled.title });
  const without = by("text").value;
  const back = () => {
    // What was written since stays.
    edit(0, by("text").value === without ? without.length : 0, by("text").value === without ? text : `${titled.title}\n`);
    by("title").value = "";
    change({ title: "" });
    by("said").textContent = "";
  };
  by("said").replaceChildren("The first line is now the title. ", button("Put it back into the story", back, { className: "plain", id: "untitle" }));
}
