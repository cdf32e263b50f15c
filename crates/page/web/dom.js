// Makes elements without markup: text from a story is always text, never HTML.

/**
 * An element with properties and children. Properties that the element has are set; others become attributes.
 * @param {string} tag
 * @param {Record<string, any>} [properties]
 * @param {...(Node | string | null | undefined | false)} children
 * @returns {any}
 */
export function el(tag, properties = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (name in made && name !== "list") /** @type {any} */ (made)[name] = value;
    else made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children.filter((child) => child !== null && child !== undefined && child !== false));
  return made;
}

/**
 * The element with that id.
 * @param {string} id
 * @returns {any}
 */
export function by(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no ${id}`);
  return found;
}

/**
 * A button.
 * @param {string} text
 * @param {() => void} act
 * @param {Record<string, any>} [properties]
 */
export function button(text, act, properties = {}) {
  return el("button", { type: "button", onclick: act, ...properties }, text);
}

/**
 * A drawing made by the library.
 * @param {string} svg
 */
export function drawing(svg) {
  return document.importNode(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement, true);
}

/**
 * `one word`, `2 words`.
 * @param {number} count
 * @param {string} one
 */
export function many(count, one) {
  return `${count} ${count === 1 ? one : `${one}s`}`;
}

/**
 * Text for screen readers only.
 * @param {string} text
 */
export function unseen(text) {
  return el("span", { className: "hidden" }, text);
}

/**
 * A sentence of the library for the page: with a capital, a full stop, and quotes as in a book.
 * @param {string} text
 */
export function asSentence(text) {
  const quoted = text.replace(/`([^`]*)`/g, "“$1”");
  return `${quoted.charAt(0).toUpperCase()}${quoted.slice(1)}${/[.?!…]$/.test(quoted) ? "" : "."}`;
}
