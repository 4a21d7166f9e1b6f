// Keeps a handout on the phone: its page and sheets at once, its tracks when the page asks for them. Files are this folder's own;
// nothing else is ever asked for. NAME and FILES are written in when the handout is made; NAME changes whenever one of the files does.

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const { scope } = worker.registration;

const own = (/** @type {string} */ name) => new URL(name, scope).href;

worker.addEventListener("install", (event) => {
  const fetched = async () => {
    const kept = await caches.open(NAME);
    const fresh = (/** @type {string} */ name) => new Request(own(name), { cache: "reload" });
    await kept.addAll(FILES.page.map(fresh));
    // A sheet may have been taken out of the folder; the page is kept all the same.
    await Promise.allSettled(FILES.sheets.map((name) => kept.add(fresh(name))));
    await worker.skipWaiting();
  };
  event.waitUntil(fetched());
});

// A page that was opened without this worker is left alone: a player that began on the network breaks off when its next part comes
// from elsewhere.
worker.addEventListener("activate", (event) => {
  const cleared = async () => {
    const mine = (/** @type {string} */ name) => name.startsWith(`leadpipe ${scope} `);
    for (const name of await caches.keys()) if (mine(name) && name !== NAME) await caches.delete(name);
  };
  event.waitUntil(cleared());
});

// "keep" fetches the tracks too, and says how far it has come.
worker.addEventListener("message", (event) => {
  if (event.data !== "keep") return;
  const keep = async () => {
    const kept = await caches.open(NAME);
    let done = 0;
    for (const name of FILES.tracks) {
      if (!(await kept.match(own(name)))) await kept.add(new Request(own(name), { cache: "reload" }));
      event.source?.postMessage({ kept: ++done, of: FILES.tracks.length });
    }
  };
  event.waitUntil(keep().catch((error) => event.source?.postMessage({ failed: String(error.message ?? error) })));
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(scope)) return;
  event.respondWith(request.mode === "navigate" ? page(request) : file(request));
});

/**
 * The page or a sheet as it is now, and as it was last where there is no network.
 * @param {Request} request
 */
async function page(request) {
  try {
    const answer = await fetch(request);
    if (answer.ok) return answer;
  } catch {
    // No network.
  }
  const kept = await caches.open(NAME);
  return (await kept.match(request.url, { ignoreSearch: true })) ?? Response.error();
}

/** @param {Request} request */
async function file(request) {
  const kept = await (await caches.open(NAME)).match(request.url, { ignoreSearch: true });
  if (!kept) return fetch(request);
  const range = /^bytes=(\d+)-(\d*)$/.exec(request.headers.get("range") ?? "");
  return range ? part(kept, Number(range[1]), range[2]) : kept;
}

/**
 * A part of a track, as players ask for it (RFC 9110, section 14).
 * @param {Response} kept
 * @param {number} from first byte
 * @param {string} to last byte; empty for all that is left
 */
async function part(kept, from, to) {
  const whole = await kept.blob();
  const last = to === "" ? whole.size - 1 : Math.min(Number(to), whole.size - 1);
  if (from > last) return new Response(null, { status: 416, headers: { "Content-Range": `bytes */${whole.size}` } });
  // Its state (ETag and the like) too: a player that began on the network takes a part without it for another file's.
  const headers = new Headers(kept.headers);
  headers.set("Content-Range", `bytes ${from}-${last}/${whole.size}`);
  headers.set("Content-Length", String(last + 1 - from));
  headers.set("Accept-Ranges", "bytes");
  return new Response(whole.slice(from, last + 1), { status: 206, headers });
}
