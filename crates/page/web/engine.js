// Answers questions: with the library compiled into this page, or through the program that serves the page.

/** @typedef {(question: Record<string, any>) => Promise<any>} Ask */

/** @returns {Promise<Ask>} */
export async function engine() {
  return document.querySelector('meta[name="untaught-engine"]') ? served : await compiled();
}

/** @type {Ask} */
async function served(question) {
  try {
    const reply = await fetch("engine", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(question),
    });
    if (!reply.ok) return { problem: `the program that serves this page refused the request (status ${reply.status})` };
    return await reply.json();
  } catch {
    return { problem: "the program that serves this page has stopped: start it again with untaught page" };
  }
}

async function compiled() {
  const packed = document.getElementById("engine")?.textContent ?? "";
  // Compiled while it is unpacked.
  const module = await WebAssembly.compileStreaming(unpacked(packed));
  /** @type {any} */
  let library;
  const start = async () => {
    library = (await WebAssembly.instantiate(module)).exports;
  };
  await start();
  const [to, from] = [new TextEncoder(), new TextDecoder()];
  /** @type {Ask} */
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
