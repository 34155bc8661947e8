// Reports that are begun or handed over, kept in this browser: one text each, and none is ever lost unasked.
"use strict";

// A report is { id, serial, series, date, by, condition, note, places, begun, sent }: `places` has what was found by the
// paths of positions, each { is, of, signs: [{ sign, seen }], note, condition, number, by, pictures: [{ id, shows }] }; `sent` is how and when it was
// handed over, or nothing. Nothing here throws.
const SpanbookReports = (() => {
  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  const isText = (value) => typeof value === "string";
  const TEXTS = ["serial", "series", "date", "by", "condition", "note"];

  const empty = () => ({ id: crypto.getRandomValues(new Uint32Array(2)).join("-"), ...Object.fromEntries(TEXTS.map((key) => [key, ""])), places: {}, begun: new Date().toISOString(), sent: null });

  function placed(value) {
    const pictures = Array.isArray(value.pictures) ? value.pictures.filter((one) => isMap(one) && isText(one.id) && isText(one.shows)) : [];
    const text = (key) => (isText(value[key]) ? value[key] : "");
    const of = Array.isArray(value.of) ? value.of.filter(isText) : [];
    const signs = Array.isArray(value.signs) ? value.signs.filter((one) => isMap(one) && isText(one.sign) && isText(one.seen)) : [];
    return { is: text("is"), of, signs, note: text("note"), condition: text("condition"), number: text("number"), by: text("by"), pictures };
  }

  // The report that a text is; null where it is none.
  function parsed(text) {
    try {
      const held = JSON.parse(text);
      if (!isMap(held) || !isText(held.id) || !isMap(held.places)) return null;
      const texts = Object.fromEntries(TEXTS.map((key) => [key, isText(held[key]) ? held[key] : ""]));
      const places = Object.fromEntries(Object.entries(held.places).filter(([, value]) => isMap(value)).map(([path, value]) => [path, placed(value)]));
      return { id: held.id, ...texts, places, begun: isText(held.begun) ? held.begun : "", sent: isMap(held.sent) ? held.sent : null };
    } catch {
      return null;
    }
  }

  return (root, site) => {
    const place = JSON.stringify(["spanbook-report", root, site]);
    const who = JSON.stringify(["spanbook-who", root, site]);
    const nameOf = (id) => `${place} ${id}`;

    // Why it was not kept: "full", "forbidden", or nothing.
    function keep(report) {
      try {
        localStorage.setItem(nameOf(report.id), JSON.stringify(report));
        if (report.by) localStorage.setItem(who, report.by);
        return "";
      } catch (error) {
        return error instanceof DOMException && error.name === "QuotaExceededError" ? "full" : "forbidden";
      }
    }

    // Every one that is kept, the last begun first: [id, report, text]; without a report a text that is none.
    function all() {
      try {
        const found = Object.keys(localStorage).filter((name) => name.startsWith(`${place} `)).map((name) => [name.slice(place.length + 1), localStorage.getItem(name)]);
        const every = found.map(([id, text]) => [id, parsed(text), text]);
        return every.sort(([, a], [, b]) => ((a?.begun ?? "") < (b?.begun ?? "") ? 1 : -1));
      } catch {
        return [];
      }
    }

    function drop(id) {
      try { localStorage.removeItem(nameOf(id)); } catch { /* nothing was kept */ }
    }

    // Who told of something last on this device.
    function by() {
      try { return localStorage.getItem(who) ?? ""; } catch { return ""; }
    }

    return { all, by, drop, empty, keep, nameOf, parsed };
  };
})();
