// What is filled in and not yet handed in, kept in this browser: one draft for each site, kind and record.
"use strict";

// The address and the name of the site, the kind and the record give the place of one draft. A draft is
// { from, base, old, values }: the digest of the record it started from, that record, its path, and what is filled
// in. Nothing here throws. What is not wanted or cannot be read is put aside under a reason, never deleted; each
// step gives the sentence to be told, or "".
const spanbookDraft = (() => {
  const FULL = _("This browser has no room left for a draft: what you change now is lost when you leave the page. Write the record and download it, or throw away what was put aside below.");
  const FORBIDDEN = _("This browser keeps no drafts for this site: what you fill in is lost when you leave the page. Write the record and download it.");

  function inStore(task) {
    try {
      return { value: task(localStorage), refused: "" };
    } catch (error) {
      return { value: null, refused: error instanceof DOMException && error.name === "QuotaExceededError" ? FULL : FORBIDDEN };
    }
  }

  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  const isText = (value) => value === null || typeof value === "string";

  // The draft that a text is, or null where it is none.
  function parsed(text) {
    try {
      const { from = null, base = null, old = null, values } = JSON.parse(text);
      return isMap(values) && isText(from) && isText(old) && (base === null || isMap(base)) ? { from, base, old, values } : null;
    } catch {
      return null;
    }
  }

  return (...of) => {
    const place = JSON.stringify(["spanbook-draft", ...of]);
    // Of what was handed in the last is enough.
    const stamped = (why) => (why === "proposed" ? why : `${why} ${new Date().toISOString()}`);
    const asideOf = (name) => `${place} ${name}`;

    const load = () => inStore((store) => store.getItem(place));
    const keep = (draft) => inStore((store) => store.setItem(place, JSON.stringify(draft))).refused;

    // Moves the draft aside; where there is no room for both at once, it stays where it is.
    function aside(why) {
      return inStore((store) => {
        const text = store.getItem(place);
        if (text === null) return;
        store.removeItem(place);
        try {
          store.setItem(asideOf(stamped(why)), text);
        } catch (error) {
          store.setItem(place, text);
          throw error;
        }
      }).refused;
    }

    // What was put aside here: [reason, text], in a stable order.
    function kept() {
      const found = inStore((store) => Object.keys(store).filter((name) => name.startsWith(`${place} `)).sort().map((name) => [name.slice(place.length + 1), store.getItem(name)]));
      return found.value ?? [];
    }

    const drop = (name) => inStore((store) => store.removeItem(asideOf(name)));

    // Exchanges the draft for what was put aside.
    function back(name) {
      return inStore((store) => {
        const [now, then] = [store.getItem(place), store.getItem(asideOf(name))];
        if (then === null) return;
        store.removeItem(asideOf(name));
        if (now !== null) store.setItem(asideOf(stamped("dropped")), now);
        store.setItem(place, then);
      }).refused;
    }

    return { place, load, keep, aside, kept, drop, back, parsed };
  };
})();
