// The client of the language server `untaught editor`: it finds the program, starts it when the first story or scope file is opened, and
// shows the summary of the story in the status bar. Everything else is the server's.

const { StatusBarAlignment, commands, window, workspace } = require('vscode');
const { LanguageClient } = require('vscode-languageclient/node');
const { SELECTOR, isOurs } = require('./ours');
const { find } = require('./program');

/** The running client, if there is one. */
let client;
/** Starting and stopping, one after the other. */
let turn = Promise.resolve();
/** The summaries of open stories, by URI. */
const summaries = new Map();
let item;

const settings = () => workspace.getConfiguration('untaught');

/** Shows the summary of the story in front, or nothing. */
function show() {
  const summary = summaries.get(window.activeTextEditor?.document.uri.toString());
  if (!summary) return item?.hide();
  item.text = summary;
  item.show();
}

/**
 * YAML becomes the program's, or ceases to be, while it is written: the server is told of a text from when it is recognised. What it
 * was not told of, it is not told the changes of.
 */
function gate() {
  const told = new Set();
  return {
    didOpen: async (document, next) => {
      if (!isOurs(document)) return;
      told.add(document.uri.toString());
      await next(document);
    },
    didChange: async (event, next) => {
      const { document } = event;
      if (told.has(document.uri.toString())) return next(event);
      if (!isOurs(document)) return;
      told.add(document.uri.toString());
      // The whole text, with this change.
      const params = client.code2ProtocolConverter.asOpenTextDocumentParams(document);
      await client.sendNotification('textDocument/didOpen', params);
    },
    didSave: async (document, next) => {
      // The server looks at its files whenever anything is saved.
      await next(document);
    },
    didClose: async (document, next) => {
      summaries.delete(document.uri.toString());
      show();
      if (told.delete(document.uri.toString())) await next(document);
    },
  };
}

async function start() {
  const { file, problem } = await find(settings().get('path'));
  if (!file) {
    tell(problem);
    return;
  }
  const server = { command: file, args: ['editor'] };
  client = new LanguageClient('untaught', 'untaught', server, {
    documentSelector: SELECTOR,
    initializationOptions: () => ({ untaught: settings() }),
    synchronize: { configurationSection: 'untaught' },
    middleware: gate(),
  });
  // The server sends the summary by itself to a client that says it shows it.
  client.registerFeature({
    fillClientCapabilities: (can) => {
      can.experimental = { ...can.experimental, untaughtSummary: true };
    },
    initialize: () => {},
    getState: () => ({ kind: 'static' }),
    clear: () => {},
  });
  client.onNotification('untaught/summary', ({ uri, summary }) => {
    const key = client.protocol2CodeConverter.asUri(uri).toString();
    if (summary) summaries.set(key, summary);
    else summaries.delete(key);
    show();
  });
  try {
    await client.start();
  } catch (error) {
    client = undefined;
    tell(`The program ${file} did not start: ${error.message ?? error}`);
  }
}

async function stop() {
  const running = client;
  client = undefined;
  summaries.clear();
  show();
  await running?.stop();
}

/** Says what is wrong, with a way to the setting. Nobody waits for the answer. */
function tell(problem) {
  window.showErrorMessage(problem, 'Open settings').then((answer) => {
    if (answer) commands.executeCommand('workbench.action.openSettings', 'untaught.path');
  });
}

function restart() {
  turn = turn.then(stop).then(start);
  return turn;
}

/** Whether there is anything open that the program is for. */
const wanted = () => workspace.textDocuments.some(isOurs);

exports.activate = async (context) => {
  item = window.createStatusBarItem('untaught.summary', StatusBarAlignment.Left);
  item.name = 'untaught: summary of the story';
  item.tooltip = 'What a child can read of this story. Click to see the words that are in the way.';
  item.command = 'workbench.actions.view.problems';
  let started = false;
  const startOnce = async () => {
    if (started || !wanted()) return;
    started = true;
    await restart();
  };
  context.subscriptions.push(
    item,
    commands.registerCommand('untaught.restart', () => {
      started = true;
      return restart();
    }),
    window.onDidChangeActiveTextEditor(show),
    workspace.onDidOpenTextDocument(startOnce),
    // A scope file is recognised once its first lines are written.
    workspace.onDidChangeTextDocument(startOnce),
    workspace.onDidChangeConfiguration((event) => {
      if (started && event.affectsConfiguration('untaught.path')) restart();
    }),
  );
  await startOnce();
};

exports.deactivate = () => {
  turn = turn.then(stop);
  return turn;
};
