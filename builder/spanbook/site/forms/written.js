// Records that somebody wrote in forms and will hand over together, kept in this browser by their paths.
"use strict";

// One is { path, title, text, corrects }: the path in the community's folder, what it is called, the record, and the
// digest of the one it began with, or "". Nothing here throws.
const spanbookWritten = (root, site) => {
  const place = JSON.stringify(["spanbook-along", root, site]);

  function parsed(text) {
    try {
      const { path, title, text: record, corrects } = JSON.parse(text);
      return [path, title, record, corrects].every((one) => typeof one === "string") ? { path, title, text: record, corrects } : null;
    } catch {
      return null;
    }
  }

  // In the order of their paths.
  function all() {
    try {
      const names = Object.keys(localStorage).filter((name) => name.startsWith(`${place} `)).sort();
      return names.map((name) => parsed(localStorage.getItem(name))).filter(Boolean);
    } catch {
      return [];
    }
  }

  // Whether it is kept.
  function put(one) {
    try {
      localStorage.setItem(`${place} ${one.path}`, JSON.stringify(one));
      return true;
    } catch {
      return false;
    }
  }

  function drop(path) {
    try { localStorage.removeItem(`${place} ${path}`); } catch { /* nothing was kept */ }
  }

  return { all, drop, put };
};
