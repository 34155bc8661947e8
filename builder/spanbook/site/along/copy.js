// The copy of the site on this device: fetched whole before the one before it goes, and only what is not there yet.
"use strict";

const SpanbookCopy = (() => {
  const AT_ONCE = 6;
  const LIST = "assets/along/files.json";
  const ABOUT = "assets/along/copy";
  const root = new URL("../../", spanbookHere).href;
  const named = (state) => `spanbook-copy ${root} ${state}`;
  const able = () => "serviceWorker" in navigator && "caches" in self;

  const at = (address) => root + address.replace(/(^|\/)index\.html$/, "$1");

  // What the site consists of now; null where there is no connection.
  async function listed() {
    try {
      const response = await fetch(root + LIST, { cache: "no-cache" });
      return response.ok ? await response.json() : null;
    } catch { return null; }
  }

  async function ours() {
    const names = (await caches.keys()).filter((name) => name.startsWith(named("")));
    return Promise.all(names.map(async (name) => ({ name, cache: await caches.open(name) })));
  }

  // What is said of the copy that is here, with the digests of its files; null where there is none.
  async function here() {
    for (const { cache } of await ours()) {
      const about = await cache.match(root + ABOUT);
      if (about) return { cache, about: await about.json() };
    }
    return null;
  }

  // Which state of all files it is: the tables' state alone says nothing of pages.
  const stateOf = ({ state, files }) => `${state} ${files.map(([, , digest]) => digest).join("")}`;

  // The files that the copy that is here has not as they are now.
  function missing(list, about) {
    const has = new Map((about?.files ?? []).map(([address, , digest]) => [address, digest]));
    return list.files.filter(([address, , digest]) => has.get(address) !== digest);
  }

  const size = (files) => files.reduce((sum, [, bytes]) => sum + bytes, 0);

  // One after another for each of a few hands, so that a slow line is not flooded.
  async function each(files, work) {
    const left = [...files];
    const hand = async () => {
      while (left.length) await work(left.shift()).catch((failure) => { left.length = 0; throw failure; });
    };
    const ended = await Promise.allSettled(Array.from({ length: AT_ONCE }, hand));
    for (const { reason } of ended) if (reason) throw reason;
  }

  async function short(text) {
    const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
    return [...new Uint8Array(digest).slice(0, 8)].map((one) => one.toString(16).padStart(2, "0")).join("");
  }

  // Fetch what is missing. Throws where the line is lost ("failed"), the site changes ("changed"), or there is no room.
  async function keep(list, note, told) {
    const before = await here();
    const name = named(await short(stateOf(list)));
    const cache = await caches.open(name);
    const fresh = new Set(missing(list, before?.about).map(([address]) => address));
    let done = 0;
    await each(list.files, async ([address, bytes]) => {
      const url = at(address);
      if (!await cache.match(url)) {
        const same = fresh.has(address) ? null : await before.cache.match(url);
        await cache.put(url, same ?? await fetched(url));
      }
      done += bytes;
      told(done);
    });
    const now = await listed();
    if (!now) throw new Error("failed");
    if (stateOf(now) !== stateOf(list)) { await caches.delete(name); throw new Error("changed"); }
    await cache.put(root + ABOUT, new Response(JSON.stringify({ ...list, note })));
    for (const one of await ours()) if (one.name !== name) await caches.delete(one.name);
    await navigator.serviceWorker.register(`${root}along-worker.js`);
    await navigator.storage?.persist?.();
  }

  async function fetched(url) {
    let response;
    try { response = await fetch(url, { cache: "no-cache" }); } catch { throw new Error("failed"); }
    if (!response.ok) throw new Error(response.status === 404 ? "changed" : "failed");
    return response;
  }

  async function forget() {
    for (const { name } of await ours()) await caches.delete(name);
    const worker = await navigator.serviceWorker.getRegistration(root);
    await worker?.unregister();
  }

  return { able, at, each, fetched, forget, here, keep, listed, missing, root, size, stateOf };
})();
