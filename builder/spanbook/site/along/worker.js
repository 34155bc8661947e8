// The copy of the site on this device. What comes over the line is shown as it comes; where there is no line the copy is
// shown, and every page of it says so, and of which day it is. What belongs to another state than the copy is never
// answered from it.
"use strict";

const SCOPE = self.registration.scope;
const COPIES = `spanbook-copy ${SCOPE} `; // how the names of its caches begin: several sites may stand under one host
const ABOUT = `${SCOPE}assets/along/copy`; // what a cache that is whole has
const sides = new Map(); // by page that is open: "line" or "copy"

async function whole() {
  for (const name of await caches.keys()) {
    if (!name.startsWith(COPIES)) continue;
    const cache = await caches.open(name);
    const about = await cache.match(ABOUT);
    if (about) return { cache, about: await about.json() };
  }
  return null;
}

// Where a file of the copy is kept: without a query, and a folder's index under the folder.
const kept = (cache, url) => cache.match((url.origin + url.pathname).replace(/\/index\.html$/, "/"));

// A page with what it is, before everything else in it.
async function noted(response, { note }, status) {
  const said = note.replace(/[&<]/g, (one) => (one === "&" ? "&amp;" : "&lt;"));
  const html = (await response.text()).replace(/<body[^>]*>/, (body) => `${body}<p class="sb-from-copy" role="status">${said}</p>`);
  return new Response(html, { status, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

async function page(event, url) {
  try {
    const response = await fetch(event.request);
    sides.set(event.resultingClientId, "line");
    return response;
  } catch (failure) {
    const copy = await whole();
    if (!copy) throw failure;
    sides.set(event.resultingClientId, "copy");
    const found = await kept(copy.cache, url);
    if (found) return noted(found, copy.about, 200);
    return noted(await copy.cache.match(`${SCOPE}404.html`), copy.about, 404);
  }
}

async function file(event, url) {
  const side = sides.get(event.clientId);
  const copy = await whole();
  const same = url.searchParams.get("of") === copy?.about.state;
  if (copy && (same || side === "copy")) {
    const found = await kept(copy.cache, url);
    if (found) return found;
  }
  try {
    return await fetch(event.request);
  } catch (failure) {
    const other = side === "line" || url.searchParams.has("of");
    const found = copy && !other ? await kept(copy.cache, url) : null;
    if (!found) throw failure;
    return found;
  }
}

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const { method, mode, url } = event.request;
  const asked = new URL(url);
  // The list of files is what tells whether there is more by now.
  if (method !== "GET" || !url.startsWith(SCOPE) || asked.pathname.endsWith("/assets/along/files.json")) return;
  event.respondWith(mode === "navigate" ? page(event, asked) : file(event, asked));
});
