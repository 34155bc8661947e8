// The reader's own machine: a serial number once given is remembered on this device, until one tap forgets it.
"use strict";

const SpanbookMine = (() => {
  // Several sites may stand under one host: each has a machine of its own.
  const key = `spanbook-machine:${new URL("../../", spanbookHere).pathname}`;
  let kept = ""; // where the browser keeps nothing, as long as the page is open

  function shown() {
    try { return localStorage.getItem(key) ?? kept; } catch { return kept; }
  }

  function keep(serial) {
    kept = serial;
    try { localStorage.setItem(key, serial); } catch { /* as long as the page is open */ }
  }

  function forget() {
    kept = "";
    try { localStorage.removeItem(key); } catch { /* nothing was kept */ }
  }

  // What somebody has asked for: the first is taken for the reader's own; another must be said to be.
  function given(serial) {
    if (serial && !serial.includes("?") && !shown()) keep(serial);
  }

  // Its series and number; nothing where it is no longer one machine's.
  async function reading() {
    const text = shown();
    const table = text && await spanbookLoad("series");
    if (!table) return null;
    const found = SpanbookSerials.readings(table[1], text).filter(([, , issued]) => issued);
    return found.length === 1 ? found[0] : null;
  }

  return { forget, given, keep, reading, shown };
})();
