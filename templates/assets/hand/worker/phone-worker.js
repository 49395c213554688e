/* Keeps one pack whole on the phone. Before this stands PACK: its reference, version, fingerprint, and each file's SHA-256 by name.
   A pack is a store of its own; another pack, or a newer one, never mixes with it. */
const MINE = `doorpost ${PACK.reference} `, STORE = MINE + PACK.version;
const at = name => new URL(name, registration.scope).href;
const names = new Map(Object.keys(PACK.files).map(name => [at(name), name]));
const sum = async bytes => [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))].map(one => one.toString(16).padStart(2, "0")).join("");

/* A file as it should be: from any store of this phone if it is unchanged there, else from the network, past every store on the way. */
const keep = async (store, url, name) => {
  for (const ask of [() => caches.match(url), () => fetch(url, {cache: "no-store"})]) {
    const answer = await ask(), bytes = answer?.ok && await answer.arrayBuffer();
    if (bytes && await sum(bytes) === PACK.files[name])
      return store.put(url, new Response(bytes, {headers: {"Content-Type": answer.headers.get("Content-Type")}}));
  }
  throw Error(name);
};
const whole = async () => {
  const kept = new Set((await (await caches.open(STORE)).keys()).map(one => one.url));
  return [...names.keys()].every(url => kept.has(url));
};

/* All or nothing: a file that is cut off, or not the one that was meant, ends the installation; what came whole is not fetched again. */
addEventListener("install", event => event.waitUntil((async () => {
  const store = await caches.open(STORE), left = [...names];
  const fetchNext = async () => { for (let one; one = left.pop();) await keep(store, ...one); };
  await Promise.all([..."123456"].map(fetchNext));
})()));
addEventListener("activate", event => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith(MINE) && name !== STORE) await caches.delete(name);
  await clients.claim();
})()));
/* A newer pack takes over when somebody asks for it, never by itself. */
addEventListener("message", event => event.data === "take" ? skipWaiting()
  : event.waitUntil(whole().then(all => event.ports[0].postMessage({whole: all, files: names.size, fingerprint: PACK.fingerprint}))));
addEventListener("fetch", event => {
  const url = event.request.url.replace(/[?#].*/, ""), page = url === registration.scope ? at("index.html") : url;
  if (event.request.method === "GET" && names.has(page))
    event.respondWith(caches.match(page, {cacheName: STORE}).then(kept => kept || fetch(event.request)));
});
