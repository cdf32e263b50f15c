// Which open texts are for the program. Stories are; of YAML, which many programs use, only its settings and scope files.

const SCHEMES = ['file', 'untitled'];

/** What the program is started for; of YAML, `isOurs` decides. */
const SELECTOR = SCHEMES.flatMap((scheme) =>
  ['plaintext', 'markdown', 'yaml'].map((language) => ({ scheme, language })),
);

function isOurs(document) {
  if (!SCHEMES.includes(document.uri.scheme)) return false;
  if (document.languageId !== 'yaml') return ['plaintext', 'markdown'].includes(document.languageId);
  if (/(^|\/)untaught\.yaml$/.test(document.uri.path)) return true;
  const text = document.getText();
  return /^\uFEFF?lessons:/m.test(text) && (/^\uFEFF?format:/m.test(text) || text.includes('teach:'));
}

module.exports = { SELECTOR, isOurs };
