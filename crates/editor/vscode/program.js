// Finds the program `untaught` on this computer.

const { constants, promises: fs } = require('node:fs');
const os = require('node:os');
const path = require('node:path');

/** Whether a path is a file that can be run. */
async function runs(file) {
  try {
    await fs.access(file, process.platform === 'win32' ? constants.F_OK : constants.X_OK);
    return (await fs.stat(file)).isFile();
  } catch {
    return false;
  }
}

/**
 * The program that was set, else the first of that name on the PATH or where `cargo install` puts it. Either `file` is its path, or
 * `problem` is a sentence that says why there is none.
 */
async function find(set, env = process.env, home = os.homedir()) {
  if (set) {
    const file = set === '~' || set.startsWith('~/') || set.startsWith('~\\') ? path.join(home, set.slice(1)) : set;
    if (await runs(file)) return { file };
    return { problem: `The setting untaught.path is ${file}, but there is no program there.` };
  }
  const name = process.platform === 'win32' ? 'untaught.exe' : 'untaught';
  const folders = (env.PATH ?? env.Path ?? '').split(path.delimiter).filter((folder) => path.isAbsolute(folder));
  for (const folder of [...folders, path.join(home, '.cargo', 'bin')]) {
    const file = path.join(folder, name);
    if (await runs(file)) return { file };
  }
  return { problem: 'The program untaught was not found. Install it, or set untaught.path to where it is.' };
}

module.exports = { find };
