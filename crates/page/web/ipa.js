// IPA is shown only if it is wanted: key words come first.

import { el } from "./dom.js";

const IPA = "untaught.ipa";

/** Shows IPA if it was wanted the last time. */
export function startIpa() {
  let wanted = false;
  try {
    wanted = localStorage.getItem(IPA) === "yes";
  } catch {
    // The browser remembers nothing; IPA stays hidden.
  }
  showIpa(wanted);
}

/** @param {boolean} wanted */
function showIpa(wanted) {
  document.documentElement.dataset.ipa = wanted ? "yes" : "no";
}

/** Whether IPA is shown. */
export function ipaShown() {
  return document.documentElement.dataset.ipa === "yes";
}

/**
 * IPA, which the switch shows or hides.
 * @param {string} text
 */
export function inIpa(text) {
  return el("span", { className: "sounds-ipa" }, text);
}

/**
 * A sentence in which IPA can be hidden, with its brackets.
 * @param {string} sentence
 * @returns {Array<string | HTMLElement>}
 */
export function withIpa(sentence) {
  return sentence.split(/( ?\(\/[^/]+\/\)|:? \/[^/]+\/)/).map((part, at) => (at % 2 ? inIpa(part) : part));
}

/** A switch for IPA. */
export function ipaSwitch() {
  const box = el("input", { type: "checkbox", checked: ipaShown() });
  box.addEventListener("change", () => {
    showIpa(box.checked);
    for (const other of document.querySelectorAll(".ipa-switch input")) /** @type {HTMLInputElement} */ (other).checked = box.checked;
    try {
      localStorage.setItem(IPA, box.checked ? "yes" : "no");
    } catch {
      // Then it holds until the page is closed.
    }
  });
  return el("label", { className: "ipa-switch small" }, box, " Show IPA");
}
