// The session that .ci/editor runs in Node with the library of the protocol that extensions of VS Code are made with. The program is
// the first argument. It is used as three clients: one that is told diagnostics, one that asks for
// them, and one that would ask but cannot be told when to ask again. Any failure leaves with an exit
// code that is not 0.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';

// The library lies with the other tools, not beside this file.
const require = createRequire(process.env.TOOLS);
const protocol = require('vscode-languageserver-protocol/node');
const { TextDocument } = require('vscode-languageserver-textdocument');

/**
 * What the client says of itself: as much of what VS Code says as matters here. It is told diagnostics ('told'), asks for them
 * ('asks'), or asks for them but cannot be told that they have changed ('cannot be refreshed'), as Neovim 0.11.
 */
function capabilities(kind) {
  const all = {
    general: { positionEncodings: ['utf-16'] },
    workspace: {
      applyEdit: true,
      configuration: true,
      workspaceEdit: { documentChanges: true },
      didChangeWatchedFiles: { dynamicRegistration: true },
      inlayHint: { refreshSupport: true },
    },
    textDocument: {
      publishDiagnostics: { relatedInformation: true, versionSupport: true },
      hover: { contentFormat: ['markdown', 'plaintext'] },
      codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['', 'quickfix'] } } },
      inlayHint: {},
    },
  };
  if (kind !== 'told') {
    all.textDocument.diagnostic = { relatedDocumentSupport: true };
  }
  if (kind === 'asks') {
    all.workspace.diagnostics = { refreshSupport: true };
  }
  return all;
}

async function session(program, kind) {
  const pulls = kind === 'asks';
  const server = spawn(program, ['editor'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = once(server, 'exit');
  const connection = protocol.createProtocolConnection(
    new protocol.StreamMessageReader(server.stdout),
    new protocol.StreamMessageWriter(server.stdin),
  );
  const pushed = [];
  let heard = () => {};
  connection.onNotification(protocol.PublishDiagnosticsNotification.type, (params) => {
    pushed.push(params);
    heard();
  });
  // It has no settings of its own for the program.
  connection.onRequest(protocol.ConfigurationRequest.type, ({ items }) => items.map(() => null));
  const registered = [];
  connection.onRequest(protocol.RegistrationRequest.type, ({ registrations }) => {
    registered.push(...registrations.map((one) => one.method));
  });
  let refreshed = 0;
  connection.onRequest(protocol.DiagnosticRefreshRequest.type, () => {
    refreshed += 1;
    return null;
  });
  connection.onRequest(protocol.InlayHintRefreshRequest.type, () => null);
  connection.listen();

  const root = pathToFileURL(process.cwd()).href;
  const uri = `${root}/story.txt`;
  const about = await connection.sendRequest(protocol.InitializeRequest.type, {
    processId: process.pid,
    rootUri: root,
    workspaceFolders: [{ uri: root, name: 'stories' }],
    capabilities: capabilities(kind),
  });
  assert.equal(about.serverInfo.name, 'untaught');
  assert.equal(about.capabilities.textDocumentSync.change, protocol.TextDocumentSyncKind.Incremental);
  assert.equal(Boolean(about.capabilities.diagnosticProvider), pulls);
  await connection.sendNotification(protocol.InitializedNotification.type, {});

  let story = TextDocument.create(uri, 'plaintext', 1, await readFile('story.txt', 'utf8'));
  const textDocument = { uri };

  /** The diagnostics of the story as it is now. */
  async function diagnostics() {
    if (pulls) {
      const report = await connection.sendRequest(protocol.DocumentDiagnosticRequest.type, { textDocument });
      assert.equal(report.kind, 'full');
      const same = { textDocument, previousResultId: report.resultId };
      const again = await connection.sendRequest(protocol.DocumentDiagnosticRequest.type, same);
      assert.deepEqual(again, { kind: 'unchanged', resultId: report.resultId });
      assert.equal(pushed.length, 0, 'what is asked for is not pushed as well');
      return report.items;
    }
    const late = setTimeout(() => assert.fail('waited in vain for diagnostics'), 30_000);
    const now = () => pushed.findLast((params) => params.uri === uri && params.version === story.version);
    while (!now()) {
      await new Promise((resolve) => (heard = resolve));
    }
    clearTimeout(late);
    return now().diagnostics;
  }

  /** Each diagnostic as the word it stands at and the first words of what it says. */
  async function shown() {
    return (await diagnostics()).map((item) => {
      assert.equal(item.source, 'untaught');
      return `${story.getText(item.range)}: ${item.message.split(':')[0]}`;
    });
  }

  async function change(changes) {
    story = TextDocument.update(story, changes, story.version + 1);
    const versioned = { uri, version: story.version };
    await connection.sendNotification(protocol.DidChangeTextDocumentNotification.type, {
      textDocument: versioned,
      contentChanges: changes,
    });
  }

  function rangeOf(word) {
    const at = story.getText().indexOf(word);
    assert.notEqual(at, -1, `no ${word} in ${story.getText()}`);
    return { start: story.positionAt(at), end: story.positionAt(at + word.length) };
  }

  /** Applies the code action of that title for a word. */
  async function act(word, title) {
    const context = { diagnostics: await diagnostics(), only: ['quickfix'] };
    const params = { textDocument, range: rangeOf(word), context };
    const actions = await connection.sendRequest(protocol.CodeActionRequest.type, params);
    const action = actions.find((one) => one.title.includes(title));
    assert(action, `no action ${title} among: ${actions.map((one) => one.title)}`);
    const [edit] = action.edit.documentChanges;
    assert.deepEqual(edit.textDocument, { uri, version: story.version });
    // The last first, so that the places of the others stay right.
    await change(edit.edits.toReversed().map(({ range, newText }) => ({ range, text: newText })));
  }

  await connection.sendNotification(protocol.DidOpenTextDocumentNotification.type, {
    textDocument: { uri, languageId: 'plaintext', version: 1, text: story.getText() },
  });
  assert.deepEqual(await shown(), [
    'huge: “huge” is untaught at lesson 20',
    'night: “night” is untaught at lesson 20',
  ]);
  const hover = await connection.sendRequest(protocol.HoverRequest.type, {
    textDocument,
    position: rangeOf('night').start,
  });
  assert.equal(hover.contents.kind, 'markdown');
  assert.match(hover.contents.value, /n·igh·t/);
  assert.deepEqual(hover.range, rangeOf('night'));
  const whole = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
  const hints = await connection.sendRequest(protocol.InlayHintRequest.type, { textDocument, range: whole });
  assert.equal(hints[0].label, 'lesson 20: 60 % decodable, 80 % readable');

  // Edit: a word goes, others come, with letters of several code units before them.
  await change([{ range: rangeOf('night'), text: '😀 ten, Dee' }]);
  assert.deepEqual(await shown(), [
    'huge: “huge” is untaught at lesson 20',
    'Dee: “dee” is untaught at lesson 20',
  ]);

  await act('huge', 'Replace “huge” with “big”');
  assert.deepEqual(await shown(), ['Dee: “dee” is untaught at lesson 20']);
  await act('Dee', 'the name “Dee”');
  assert.deepEqual(await shown(), []);
  assert.equal(
    story.getText(),
    '---\nnames: [Dee]\n---\nTam had a big hat.\nThen he left at 😀 ten, Dee.\n',
  );
  assert.deepEqual(registered, ['workspace/didChangeWatchedFiles']);

  // Another program changes the settings, and the watcher of the client says so: nobody is left with old diagnostics.
  const before = pushed.length;
  await writeFile('untaught.yaml', 'format: 1\nscope: starter\nlesson: 1\n');
  const changes = [{ uri: `${root}/untaught.yaml`, type: protocol.FileChangeType.Changed }];
  await connection.sendNotification(protocol.DidChangeWatchedFilesNotification.type, { changes });
  const late = setTimeout(() => assert.fail('waited in vain for news of the settings'), 30_000);
  while (pulls ? refreshed === 0 : pushed.length === before) {
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  clearTimeout(late);
  assert((await shown()).every((text) => text.endsWith('at lesson 1')));

  await connection.sendNotification(protocol.DidCloseTextDocumentNotification.type, { textDocument });
  await connection.sendRequest(protocol.ShutdownRequest.type);
  await connection.sendNotification(protocol.ExitNotification.type);
  const [code] = await ended;
  assert.equal(code, 0, 'it ends cleanly');
  connection.dispose();
}

const settings = await readFile('untaught.yaml', 'utf8');
for (const kind of ['told', 'asks', 'cannot be refreshed']) {
  await writeFile('untaught.yaml', settings);
  await session(process.argv[2], kind);
}
