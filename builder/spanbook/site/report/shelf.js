// The pictures of reports, kept in this browser until they are thrown away: too large for what keeps the words.
"use strict";

const SpanbookShelf = (() => {
  const NAME = "spanbook-report";
  const STORE = "pictures";
  const held = new Map(); // as long as the page is open, whatever the browser keeps
  let opening = null;

  const asked = (request) => new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

  function opened() {
    opening ??= new Promise((resolve, reject) => {
      const request = indexedDB.open(NAME, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(STORE);
      request.onsuccess = () => {
        request.result.onversionchange = () => { request.result.close(); opening = null; };
        resolve(request.result);
      };
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(new Error("blocked"));
    }).catch((error) => { opening = null; throw error; }); // it may be there the next time
    return opening;
  }

  // What a task makes of the store once all of it is on the disk.
  async function inStore(mode, task) {
    const transaction = (await opened()).transaction(STORE, mode, mode === "readwrite" ? { durability: "strict" } : {});
    const done = new Promise((resolve, reject) => {
      transaction.oncomplete = resolve;
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
    });
    const [made] = await Promise.all([asked(task(transaction.objectStore(STORE))), done]);
    return made;
  }

  // Whether the browser keeps it; if not it lasts as long as the page.
  async function put(key, bytes) {
    held.set(key, bytes);
    try {
      navigator.storage?.persist?.().catch(() => {}); // else it may be cleared when room is short
      await inStore("readwrite", (store) => store.put(bytes, key));
      return true;
    } catch {
      return false;
    }
  }

  // The bytes of a picture, or null where it is not here.
  async function get(key) {
    if (held.has(key)) return held.get(key);
    const found = await inStore("readonly", (store) => store.get(key)).catch(() => null);
    if (found) held.set(key, found);
    return found ?? null;
  }

  async function drop(key) {
    held.delete(key);
    await inStore("readwrite", (store) => store.delete(key)).catch(() => {});
  }

  return { drop, get, put };
})();
