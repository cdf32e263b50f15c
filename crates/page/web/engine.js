// Answers questions: with the library compiled into this page, in a worker beside it; or through the program that serves the page.

/** @typedef {(question: Record<string, any>) => Promise<any>} Ask */

/** What is answered to questions that were given up. */
export const STOPPED = "stopped";

/** @type {() => void} */
let giveUp = () => {};

/** Gives up all questions that have not been answered yet: they get the problem `stopped`. */
export function stopAsking() {
  giveUp();
}

/** @type {Record<string, any> | null} */
let firstAnswers = null;

/**
 * The answer to what the page asks first, if the page came with it: it can be shown before the library is there.
 * @param {Record<string, any>} question
 */
export function firstAnswer(question) {
  firstAnswers ??= JSON.parse(document.getElementById("first-answers")?.textContent || "{}");
  return firstAnswers?.[JSON.stringify(question)];
}

/** @returns {Promise<Ask>} */
export async function engine() {
  if (document.querySelector('meta[name="untaught-engine"]')) return served();
  const packed = document.getElementById("engine")?.textContent ?? "";
  // Compiled while it is unpacked.
  const module = await WebAssembly.compileStreaming(unpacked(packed));
  // The first questions are answered in the page, which is ready sooner than a worker.
  let ask = await librarian(module);
  setTimeout(async () => {
    ask = (await worker(module)) ?? ask;
  }, WORKER_AFTER);
  return (question) => ask(question);
}

/** When the worker is started, in milliseconds after the page can answer. */
const WORKER_AFTER = 250;

/** @returns {Ask} */
function served() {
  let stop = new AbortController();
  giveUp = () => {
    stop.abort();
    stop = new AbortController();
  };
  return async (question) => {
    const { signal } = stop;
    try {
      const reply = await fetch("engine", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify(question),
        signal,
      });
      if (!reply.ok) return { problem: `the program that serves this page refused the request (status ${reply.status})` };
      return await reply.json();
    } catch {
      if (signal.aborted) return { problem: STOPPED };
      return { problem: "the program that serves this page has stopped: start it again with untaught page" };
    }
  };
}

/**
 * The library in a worker, so that a long text does not freeze the page. None if the browser refuses to make one.
 * @param {WebAssembly.Module} module
 * @returns {Promise<Ask | null>}
 */
async function worker(module) {
  const url = URL.createObjectURL(new Blob([`${librarian}\n(${answering})(${librarian.name});`], { type: "text/javascript" }));
  /** @type {Map<number, {answer: (reply: any) => void}>} */
  const waiting = new Map();
  let number = 0;
  /** Says on the document whether an answer is awaited. */
  const asking = () => document.documentElement.toggleAttribute("data-asking", waiting.size > 0);
  /** @type {Worker} */
  let made;
  const again = (/** @type {string} */ problem) => {
    const left = [...waiting.values()];
    waiting.clear();
    asking();
    made.terminate();
    void start();
    for (const one of left) one.answer({ problem });
  };
  const start = () =>
    new Promise((done) => {
      try {
        made = new Worker(url);
      } catch {
        return done(false);
      }
      let ready = false;
      made.onerror = (event) => {
        event.preventDefault();
        if (ready) again("something went wrong in this page, which is a bug in it");
        else done(false);
      };
      made.onmessage = ({ data }) => {
        if (data.ready) {
          ready = true;
          return done(true);
        }
        waiting.get(data.number)?.answer(data.reply);
        waiting.delete(data.number);
        asking();
      };
      made.postMessage({ module });
    });
  if (!(await start())) return null;
  giveUp = () => again(STOPPED);
  return (question) =>
    new Promise((answer) => {
      waiting.set(++number, { answer });
      asking();
      made.postMessage({ number, question });
    });
}

/**
 * What the worker does. It gets the text of this function, so it knows nothing of this page but `make`.
 * @param {typeof librarian} make
 */
function answering(make) {
  const scope = /** @type {any} */ (globalThis);
  /** @type {any} */
  let ask;
  scope.onmessage = async (/** @type {MessageEvent} */ { data }) => {
    if (data.module) {
      ask = await make(data.module);
      return scope.postMessage({ ready: true });
    }
    const reply = await ask(data.question);
    // The places of many words cross as they are, without being copied one by one.
    if (reply.words?.length && typeof reply.words[0] === "number") {
      reply.words = Uint32Array.from(reply.words);
      return scope.postMessage({ number: data.number, reply }, [reply.words.buffer]);
    }
    scope.postMessage({ number: data.number, reply });
  };
}

/**
 * Asks the library: in the worker, which gets the text of this function too, or in this page where there can be no worker.
 * @param {WebAssembly.Module} module
 * @returns {Promise<Ask>}
 */
async function librarian(module) {
  /** @type {any} */
  let library;
  const start = async () => {
    library = (await WebAssembly.instantiate(module)).exports;
  };
  await start();
  const [to, from] = [new TextEncoder(), new TextDecoder()];
  return async (question) => {
    try {
      const bytes = to.encode(JSON.stringify(question));
      const at = library.room(bytes.length);
      new Uint8Array(library.memory.buffer, at, bytes.length).set(bytes);
      const size = library.ask();
      return JSON.parse(from.decode(new Uint8Array(library.memory.buffer, library.answer(), size)));
    } catch (error) {
      // The library crashed and its state may be inconsistent, so start a new instance.
      await start();
      return { problem: `something went wrong in this page, which is a bug in it (${error})` };
    }
  };
}

/**
 * Base 64, then gzip.
 * @param {string} text
 */
function unpacked(text) {
  const unpack = new DecompressionStream("gzip");
  const all = unpack.writable.getWriter();
  void all.write(decoded(text));
  void all.close();
  return new Response(unpack.readable, { headers: { "content-type": "application/wasm" } });
}

/**
 * @param {string} text
 * @returns {Uint8Array<ArrayBuffer>}
 */
function decoded(text) {
  // Newer browsers have this built in, several times as fast.
  const own = /** @type {any} */ (Uint8Array).fromBase64;
  if (own) return own.call(Uint8Array, text);
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
  return bytes;
}
