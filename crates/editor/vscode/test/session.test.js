// The extension, with the real program behind it and a small stand-in for VS Code before it. UNTAUGHT is the program (by default the one
// on the PATH), EXTENSION the folder of the extension (by default this one; CI gives the one that it has unpacked again).

const assert = require('node:assert/strict');
const fs = require('node:fs');
const os = require('node:os');
const path = require('node:path');
const { after, before, beforeEach, afterEach, test } = require('node:test');
const { URI, Range, load } = require('./vscode');

const extension = path.resolve(process.env.EXTENSION ?? path.join(__dirname, '..'));
const { find } = require(path.join(extension, 'program.js'));
let program;
let folder;
let running;

before(async () => {
  const found = await find(process.env.UNTAUGHT);
  assert.ok(found.file, found.problem);
  program = path.resolve(found.file);
});

beforeEach(() => {
  folder = fs.realpathSync(fs.mkdtempSync(path.join(os.tmpdir(), 'stories-')));
  write('untaught.yaml', 'format: 1\nscope: starter\nlesson: 20\n');
  running = load(path.join(extension, 'extension.js'));
  running.host.workspace.workspaceFolders = [{ uri: URI.file(folder), name: 'stories', index: 0 }];
});

afterEach(async () => {
  await running.deactivate();
  fs.rmSync(folder, { recursive: true });
});

function write(name, text) {
  fs.writeFileSync(path.join(folder, name), text);
  return URI.file(path.join(folder, name));
}

async function until(what, holds) {
  for (const end = Date.now() + 20_000; Date.now() < end; await new Promise((resolve) => setTimeout(resolve, 10))) {
    const held = await holds();
    if (held) return held;
  }
  assert.fail(`waited in vain: ${what}; ${JSON.stringify(running.host.output.slice(-5))}`);
}

const messages = (document) => running.host.diagnostics(document).map((one) => one.message.split(':')[0]);
const wait = (document, ...all) =>
  until(`${all} but ${messages(document)}`, () => JSON.stringify(messages(document)) === JSON.stringify(all)).catch((error) => {
    assert.deepEqual(messages(document), all, error.message);
  });
const status = () => running.host.items[0].shown && running.host.items[0].text;

function rangeOf(document, word) {
  const at = document.getText().indexOf(word);
  assert.notEqual(at, -1, `no ${word} in ${document.getText()}`);
  return new Range(document.positionAt(at), document.positionAt(at + word.length));
}

const STORY = 'Tam had a huge hat.\r\nThen he left at night.\r\n';

test('a story is underlined, summed up, explained and put right', async () => {
  const { host } = running;
  host.settings.path = program;
  await running.activate();
  const story = host.open(write('story.txt', STORY), 'plaintext', STORY);
  await wait(story, '“huge” is untaught at lesson 20', '“night” is untaught at lesson 20');
  assert.deepEqual(host.errors, []);
  await until('the summary', () => status() === 'lesson 20: 60.0 % decodable, 80.0 % readable, 0 focus words');

  const [hovers] = host.providers.Hover;
  const hover = await hovers.provideHover(story, rangeOf(story, 'night').start, {});
  assert.match(hover.contents[0]?.value ?? hover.contents.value, /n·igh·t/);

  host.edit(story.uri, { range: rangeOf(story, 'night'), text: '😀 ten, Dee' });
  await wait(story, '“huge” is untaught at lesson 20', '“dee” is untaught at lesson 20');

  const [actions] = host.providers.CodeActions;
  const act = async (word, title) => {
    const at = rangeOf(story, word);
    const diagnostics = host.diagnostics(story);
    const found = await actions.provideCodeActions(story, at, { diagnostics, triggerKind: 1, only: undefined }, {});
    const action = found.find((one) => one.title.includes(title));
    assert(action, `no action ${title} among: ${found.map((one) => one.title)}`);
    await host.workspace.applyEdit(action.edit);
  };
  await act('huge', 'Replace “huge” with “big”');
  await wait(story, '“dee” is untaught at lesson 20');
  await act('Dee', 'the name “Dee”');
  await wait(story);
  assert.equal(story.getText(), '---\r\nnames: [Dee]\r\n---\r\nTam had a big hat.\r\nThen he left at 😀 ten, Dee.\r\n');
  await until('the new summary', () => /100 % readable/.test(status()));

  // The summary is that of the text in front.
  host.front(undefined);
  assert.equal(status(), false);
  host.front(story);
  assert.match(status(), /100 % readable/);
  host.close(story);
  assert.equal(status(), false);
});

test('settings hold at once, those of the folder, saved by anybody, before those of the editor', async () => {
  const { host } = running;
  Object.assign(host.settings, { path: program, lesson: '40', names: ['Dee'] });
  await running.activate();
  const text = 'Dee sat at night.\n';
  const elsewhere = host.open(URI.parse('untitled:Untitled-1'), 'plaintext', text);
  await wait(elsewhere, '“night” is untaught at lesson 20');
  const watcher = await until('a watcher', () => host.watchers[0]);
  const settings = write('untaught.yaml', 'format: 1\nscope: starter\nlesson: 12\n');
  watcher.changed.fire(settings);
  await wait(elsewhere, '“night” is untaught at lesson 12');
  fs.rmSync(settings.fsPath);
  watcher.deleted.fire(settings);
  await wait(elsewhere);
  host.set({ lesson: '5' });
  await wait(elsewhere, '“night” is untaught at lesson 5');
});

test('of YAML, only settings and scope files are told to the program', async () => {
  const { host } = running;
  // A program that notes what it is told.
  const spy = path.join(folder, 'spy');
  const log = path.join(folder, 'told');
  fs.writeFileSync(spy, `#!/bin/sh\ntee '${log}' | '${program}' "$@"\n`, { mode: 0o755 });
  host.settings.path = spy;
  await running.activate();
  const told = () => (fs.existsSync(log) ? fs.readFileSync(log, 'utf8') : '');
  const open = (name, text) => host.open(write(name, text), 'yaml', text);
  const other = open('compose.yaml', 'services:\n  lessons: [\n');
  await new Promise((resolve) => setTimeout(resolve, 200));
  assert.equal(told(), '', 'it is not even started');

  const settings = open('untaught.yaml', 'format: 1\nlessn: 3\n');
  await until('a fault of the settings', () => /lessn/.test(messages(settings)[0] ?? ''));
  host.edit(other.uri, { range: new Range(0, 0, 0, 0), text: '# not ours\n' });

  // A scope file is recognised as it is written.
  const scope = open('new.yaml', 'format: 1\n');
  host.edit(scope.uri, { range: new Range(1, 0, 1, 0), text: 'lessons:\n' });
  host.edit(scope.uri, { range: new Range(2, 0, 2, 0), text: '- teach: [shh]\n' });
  await until('a fault of the scope', () => /shh/.test(messages(scope)[0] ?? ''));
  host.edit(scope.uri, { range: rangeOf(scope, 'shh'), text: 'sh' });
  await wait(scope);
  assert.doesNotMatch(told(), /compose\.yaml/);
  assert.equal(told().match(/textDocument\/didOpen/g).length, 2);
  host.close(other);
  host.close(scope);
  await until('the end of the scope', () => told().match(/textDocument\/didClose/g)?.length === 1);
});

test('a program that is not there is asked for in one sentence, and found when it is set', async () => {
  const { host } = running;
  host.settings.path = path.join(folder, 'nowhere');
  await running.activate();
  const story = host.open(write('story.txt', STORY), 'plaintext', STORY);
  await until('a message', () => host.errors.length);
  assert.deepEqual(host.errors, [`The setting untaught.path is ${folder}/nowhere, but there is no program there.`]);
  host.set({ path: program });
  await wait(story, '“huge” is untaught at lesson 20', '“night” is untaught at lesson 20');
  await host.run('untaught.restart');
  await wait(story, '“huge” is untaught at lesson 20', '“night” is untaught at lesson 20');
  assert.equal(host.errors.length, 1);
});

test('the program is looked for on the PATH and where cargo installs it', async () => {
  const bin = path.join(folder, '.cargo', 'bin');
  fs.mkdirSync(bin, { recursive: true });
  fs.copyFileSync(program, path.join(bin, 'untaught'));
  assert.deepEqual(await find('', { PATH: '/nowhere:relative' }, folder), { file: path.join(bin, 'untaught') });
  assert.deepEqual(await find('', { PATH: path.dirname(program) }, '/nowhere'), {
    file: path.join(path.dirname(program), 'untaught'),
  });
  assert.match((await find('', {}, '/nowhere')).problem, /^The program untaught was not found\. Install it, or set/);
  assert.deepEqual(await find('~/.cargo/bin/untaught', {}, folder), { file: path.join(bin, 'untaught') });
  assert.match((await find(folder, {}, folder)).problem, /there is no program there/, 'a folder is no program');
});

test('500 edits at random, in windows of VS Code, leave what a text opened anew has', async () => {
  const { host } = running;
  host.settings.path = program;
  await running.activate();
  let state = 20_260_101;
  const random = (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return (state >>> 8) % below;
  };
  const pieces = ['night', 'ship ', '\r\n', '😀', 'e\u0301', '“Rob”', '👩‍👧', '', 'huge hat. ', '\n', ' ', '---\r\n'];
  const story = host.open(URI.parse('untitled:one'), 'plaintext', STORY.repeat(6));
  for (let number = 0; number < 500; number += 1) {
    const length = story.getText().length;
    let [from, to] = [random(length + 1), 0];
    to = Math.min(length, from + random(7));
    const range = new Range(story.positionAt(from), story.positionAt(to));
    host.edit(story.uri, { range, text: pieces[random(pieces.length)] + pieces[random(pieces.length)] });
  }
  const fresh = host.open(URI.parse('untitled:two'), 'plaintext', story.getText());
  const shown = (document) => JSON.stringify(host.diagnostics(document).map(({ range, message }) => [range, message]));
  await until('diagnostics', () => host.diagnostics(fresh).length > 20);
  host.front(story);
  await until('the same diagnostics', () => shown(story) === shown(fresh));
});

after(() => setTimeout(() => process.exit(), 1000).unref());
