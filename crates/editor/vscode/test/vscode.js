// As much of VS Code as the extension and its language client use, for tests without VS Code. Texts are edited and settings changed
// through `host`; what the extension shows is read from it.

const Module = require('node:module');
const { URI } = require('vscode-uri');
const { TextDocument: Text } = require('vscode-languageserver-textdocument');

class EventEmitter {
  #listeners = new Set();
  event = (listener, that, disposables) => {
    const bound = that ? listener.bind(that) : listener;
    this.#listeners.add(bound);
    const subscription = new Disposable(() => this.#listeners.delete(bound));
    disposables?.push(subscription);
    return subscription;
  };
  fire(value) {
    for (const listener of [...this.#listeners]) listener(value);
  }
  dispose() {
    this.#listeners.clear();
  }
}

class Disposable {
  constructor(dispose) {
    this.dispose = dispose ?? (() => {});
  }
  static from(...all) {
    return new Disposable(() => all.forEach((one) => one.dispose()));
  }
}

class Position {
  constructor(line, character) {
    Object.assign(this, { line, character });
  }
}

class Range {
  constructor(a, b, c, d) {
    this.start = typeof a === 'number' ? new Position(a, b) : a;
    this.end = typeof a === 'number' ? new Position(c, d) : b;
  }
}

class Diagnostic {
  constructor(range, message, severity) {
    Object.assign(this, { range, message, severity });
  }
}

class WorkspaceEdit {
  texts = [];
  set(uri, edits) {
    this.texts.push({ uri, edits: edits.map((edit) => (Array.isArray(edit) ? edit[0] : edit)) });
  }
}

class TextEdit {
  constructor(range, newText) {
    Object.assign(this, { range, newText });
  }
}

class CancellationTokenSource {
  #emitter = new EventEmitter();
  token = { isCancellationRequested: false, onCancellationRequested: this.#emitter.event };
  cancel() {
    this.token.isCancellationRequested = true;
    this.#emitter.fire();
  }
  dispose() {}
}

/** A text that is open; the library's own text counts its lines and columns. */
class OpenText {
  constructor(uri, languageId, text) {
    this.inner = Text.create(uri.toString(), languageId, 1, text);
    Object.assign(this, { uri, languageId, fileName: uri.fsPath, isDirty: false, isClosed: false });
  }
  get version() {
    return this.inner.version;
  }
  get lineCount() {
    return this.inner.lineCount;
  }
  getText(range) {
    return this.inner.getText(range);
  }
  positionAt(offset) {
    // As in VS Code, no place is inside a character.
    const inside = /^[\uDC00-\uDFFF]/.test(this.getText().slice(offset)) && /[\uD800-\uDBFF]$/.test(this.getText().slice(0, offset));
    const { line, character } = this.inner.positionAt(inside ? offset - 1 : offset);
    return new Position(line, character);
  }
  offsetAt(position) {
    return this.inner.offsetAt(position);
  }
}

function makeHost() {
  const events = {};
  const event = (name) => (events[name] ??= new EventEmitter()).event;
  const settings = {};
  const providers = {};
  const commands = {};
  const collections = [];
  const host = { errors: [], items: [], watchers: [], providers, settings, output: [] };

  const register = (kind) => (selector, provider) => {
    (providers[kind] ??= new Set()).add(provider);
    return new Disposable(() => providers[kind].delete(provider));
  };
  const languages = {
    match: (selector, document) => {
      const one = ({ language, scheme, pattern }) =>
        !pattern && (!language || language === document.languageId) && (!scheme || scheme === document.uri.scheme);
      return [selector].flat().some((filter) => (typeof filter === 'string' ? one({ language: filter }) : one(filter))) ? 10 : 0;
    },
    createDiagnosticCollection: () => {
      const found = new Map();
      collections.push(found);
      return {
        set: (uri, list) => found.set(uri.toString(), list ?? []),
        delete: (uri) => found.delete(uri.toString()),
        get: (uri) => found.get(uri.toString()),
        has: (uri) => found.has(uri.toString()),
        clear: () => found.clear(),
        dispose: () => found.clear(),
      };
    },
  };
  for (const kind of ['Hover', 'CodeActions']) languages[`register${kind}Provider`] = register(kind);
  const workspace = {
    textDocuments: [],
    notebookDocuments: [],
    workspaceFolders: undefined,
    isTrusted: true,
    getWorkspaceFolder: () => workspace.workspaceFolders?.[0],
    getConfiguration: (section) => {
      const values = section === 'untaught' ? settings : section ? {} : { untaught: settings };
      return {
        ...values,
        get: (key, otherwise) => values[key] ?? otherwise,
        has: (key) => key in values,
        inspect: () => undefined,
      };
    },
    createFileSystemWatcher: (pattern) => {
      const watcher = { pattern, changed: new EventEmitter(), created: new EventEmitter(), deleted: new EventEmitter() };
      host.watchers.push(watcher);
      const { changed, created, deleted } = watcher;
      return { onDidChange: changed.event, onDidCreate: created.event, onDidDelete: deleted.event, dispose: () => {} };
    },
    applyEdit: async (edit) => {
      for (const { uri, edits } of edit.texts) host.edit(uri, ...edits.map(({ range, newText }) => ({ range, text: newText })));
      return true;
    },
  };
  const on = [
    'onDidOpenTextDocument', 'onDidChangeTextDocument', 'onDidSaveTextDocument', 'onDidCloseTextDocument',
    'onWillSaveTextDocument', 'onDidChangeConfiguration', 'onDidChangeWorkspaceFolders', 'onDidOpenNotebookDocument',
    'onDidCloseNotebookDocument', 'onDidChangeNotebookDocument', 'onDidSaveNotebookDocument', 'onDidCreateFiles',
    'onDidRenameFiles', 'onDidDeleteFiles', 'onWillCreateFiles', 'onWillRenameFiles', 'onWillDeleteFiles',
  ];
  for (const name of on) workspace[name] = event(name);
  const window = {
    activeTextEditor: undefined,
    visibleTextEditors: [],
    tabGroups: { all: [], onDidChangeTabs: event('tabs'), onDidChangeTabGroups: event('tabGroups') },
    onDidChangeActiveTextEditor: event('onDidChangeActiveTextEditor'),
    onDidChangeVisibleTextEditors: event('onDidChangeVisibleTextEditors'),
    createStatusBarItem: (id) => {
      const item = { id, text: '', shown: false, show: () => (item.shown = true), hide: () => (item.shown = false), dispose: () => {} };
      host.items.push(item);
      return item;
    },
    createOutputChannel: () => {
      const add = (text) => host.output.push(String(text));
      return {
        ...Object.fromEntries(['append', 'appendLine', 'trace', 'debug', 'info', 'warn', 'error'].map((name) => [name, add])),
        logLevel: 3, onDidChangeLogLevel: event('log'), clear: () => {}, show: () => {}, hide: () => {}, dispose: () => {},
      };
    },
    showErrorMessage: async (text) => void host.errors.push(text),
    showWarningMessage: async () => undefined,
    showInformationMessage: async () => undefined,
    withProgress: (_options, task) => task({ report: () => {} }, new CancellationTokenSource().token),
  };

  /** Opens a text, in front. */
  host.open = (uri, languageId, text) => {
    const document = new OpenText(uri, languageId, text);
    workspace.textDocuments.push(document);
    events.onDidOpenTextDocument?.fire(document);
    host.front(document);
    return document;
  };
  host.front = (document) => {
    window.activeTextEditor = document && { document };
    window.visibleTextEditors = document ? [window.activeTextEditor] : [];
    window.tabGroups.all = document ? [{ tabs: [{ isActive: true, input: new known.TabInputText(document.uri) }], isActive: true }] : [];
    events.onDidChangeActiveTextEditor?.fire(window.activeTextEditor);
    events.tabs?.fire({ opened: window.tabGroups.all[0]?.tabs ?? [], closed: [], changed: [] });
  };
  host.document = (uri) => workspace.textDocuments.find((one) => one.uri.toString() === uri.toString());
  /** Edits a text: ranges of it as it is now, which do not overlap. */
  host.edit = (uri, ...changes) => {
    const document = host.document(uri);
    const contentChanges = changes
      .map(({ range, text }) => {
        const rangeOffset = document.offsetAt(range.start);
        return { range, text, rangeOffset, rangeLength: document.offsetAt(range.end) - rangeOffset };
      })
      // VS Code tells the last first.
      .sort((a, b) => b.rangeOffset - a.rangeOffset);
    document.inner = Text.update(document.inner, contentChanges.map(({ range, text }) => ({ range, text })), document.version + 1);
    events.onDidChangeTextDocument?.fire({ document, contentChanges, reason: undefined });
  };
  host.close = (document) => {
    workspace.textDocuments.splice(workspace.textDocuments.indexOf(document), 1);
    document.isClosed = true;
    host.front(undefined);
    events.onDidCloseTextDocument?.fire(document);
  };
  host.set = (values) => {
    Object.assign(settings, values);
    const affectsConfiguration = (key) => key === 'untaught' || Object.keys(values).some((name) => key === `untaught.${name}`);
    events.onDidChangeConfiguration?.fire({ affectsConfiguration });
  };
  host.diagnostics = (document) => collections.flatMap((found) => found.get(document.uri.toString()) ?? []);
  host.run = (command) => commands[command]();
  host.workspace = workspace;
  host.window = window;

  const enumeration = (...names) => Object.fromEntries(names.flatMap((name, at) => [[name, at], [at, name]]));
  const known = {
    version: '1.91.0',
    EventEmitter, Disposable, Position, Range, Diagnostic, WorkspaceEdit, TextEdit, CancellationTokenSource,
    Uri: URI,
    CancellationError: class extends Error {},
    TabInputText: class { constructor(uri) { this.uri = uri; } },
    DiagnosticSeverity: enumeration('Error', 'Warning', 'Information', 'Hint'),
    StatusBarAlignment: { Left: 1, Right: 2 },
    LogLevel: enumeration('Off', 'Trace', 'Debug', 'Info', 'Warning', 'Error'),
    MarkdownString: class { constructor(value) { this.value = value; } appendCodeblock() {} },
    Hover: class { constructor(contents, range) { Object.assign(this, { contents, range }); } },
    CodeAction: class { constructor(title, kind) { Object.assign(this, { title, kind }); } },
    CodeActionKind: class CodeActionKind {
      static Empty = new CodeActionKind('');
      static QuickFix = new CodeActionKind('quickfix');
      constructor(value) { this.value = value; }
      append(part) { return new CodeActionKind(this.value ? `${this.value}.${part}` : part); }
    },
    languages,
    workspace,
    window,
    commands: {
      registerCommand: (name, run) => {
        commands[name] = run;
        return new Disposable(() => delete commands[name]);
      },
      executeCommand: async () => undefined,
    },
    env: { language: 'en', appName: 'a test', openExternal: async () => true },
  };
  // Whatever else there is in VS Code is a class that does nothing, or makes a provider that is never asked.
  const whole = new Proxy(known, { get: (all, key) => (all[key] ??= class {}) });
  known.languages = new Proxy(languages, { get: (all, key) => (all[key] ??= () => new Disposable()) });
  return { host, whole };
}

/** Loads an extension anew, with a VS Code of its own. */
function load(extension) {
  const { host, whole } = makeHost();
  for (const key of Object.keys(require.cache)) {
    if (!key.includes('vscode-uri') && key !== __filename) delete require.cache[key];
  }
  const original = Module._load;
  Module._load = function (request, ...rest) {
    return request === 'vscode' ? whole : original.call(this, request, ...rest);
  };
  try {
    const { activate, deactivate } = require(extension);
    const context = { subscriptions: [] };
    return { host, activate: () => activate(context), deactivate };
  } finally {
    Module._load = original;
  }
}

module.exports = { URI, Range, Position, load };
