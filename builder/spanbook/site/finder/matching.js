// What two spellings have in common: the twin of ground/matching.py, held to it by the table of queries.
"use strict";

const SpanbookMatching = (() => {
  const JOINTS = /[\s.·•\u00ad\u058a\u05be\u1400\u1806\u2010-\u2015\u2043\u2212\u2e17\u2e1a\u2e3a\u2e3b\u2e40\u2e5d\u301c\u3030\u30a0\ufe31\ufe32\ufe58\ufe63\uff0d_-]+/gu;
  const QUOTES = /["'`\u00ab\u00bb\u2018-\u201f\u2032-\u2036\u2039\u203a\u2e42\u301d-\u301f]+/gu;
  const WORN = { o: "0", q: "0", d: "0", i: "1", l: "1", b: "8", 3: "8", s: "5", z: "2", g: "6", t: "7" };

  // A decimal comma as the point that it stands for, where the pages' language writes one.
  const COMMA = (1.5).toLocaleString("LANGUAGE-OF-THE-PAGES").includes(",");
  const pointed = (text) => (COMMA && !text.includes(".") ? text.replace(/([0-9]),(?=[0-9])/g, "$1.") : text);

  // What no eye sees and a script needs all the same; nobody can be asked to type it.
  const without = (text) => text.replace(/[\u200c\u200d\ufe0e\ufe0f]/gu, "");
  const plain = (text) => without(text).normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const squeezed = (text) => plain(text).replace(JOINTS, "").replace(QUOTES, "");
  // What was asked, out of the sentence that it was copied from.
  function unwrapped(text) {
    const bare = text.trim().replace(/[ \t\r\n\u00a0,;:]+$/, "");
    const inside = bare.match(/^[(["'\u00ab\u00bb\u2018-\u201f]([^()[\]]+)[)\]"'\u00ab\u00bb\u2018-\u201f]$/u);
    return (inside ? inside[1].trim() : bare) || text.trim();
  }
  const asWorn = (text) => [...text].map((c) => WORN[c] ?? c).join("");
  const worn = (text) => asWorn(squeezed(text));
  const words = (text) => plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];
  // A serial number's own fold keeps accents: only case, spaces, dots and dashes are nothing.
  const fold = (text) => without(text).replace(JOINTS, "").toLowerCase();
  // The same with a space for each of them: where they stand may tell two numbers apart.
  const spelled = (text) => without(text).replace(JOINTS, " ").toLowerCase().trim();
  const bare = (text) => without(text).replace(JOINTS, "").replace(QUOTES, "");

  const wornAlike = (read, stands) => read.length === stands.length &&
    read.every((c, i) => c === "?" || stands[i] === "?" || asWorn(plain(c)) === asWorn(plain(stands[i])));

  // Which characters of a number were read as which others, each pair once; zeros may be left out.
  function readAs(typed, stamped) {
    const read = [...bare(typed)];
    let stands = [...bare(stamped)];
    const more = stands.length - read.length;
    for (let at = 0; more > 0 && at < stands.length; at += 1) {
      const shorter = [...stands.slice(0, at), ...stands.slice(at + more)];
      if (stands.slice(at, at + more).join("") === "0".repeat(more) && wornAlike(read, shorter)) { stands = shorter; break; }
    }
    if (!wornAlike(read, stands)) return [];
    const pairs = stands.map((c, i) => [c, read[i]]).filter(([a, b]) => a !== "?" && b !== "?" && a.toLowerCase() !== b.toLowerCase());
    return [...new Map(pairs.map((pair) => [pair.join(), pair])).values()];
  }

  // Whether one text is another with one character more, less or other, or two neighbours changed about.
  function oneEdit(one, other) {
    const [a, b] = [[...one], [...other]];
    if (one === other || Math.abs(a.length - b.length) > 1) return false;
    const same = (x, y) => x.length === y.length && x.every((c, i) => c === y[i]);
    while (a.length && b.length && a[0] === b[0]) { a.shift(); b.shift(); }
    if (a.length !== b.length) return a.length > b.length ? same(a.slice(1), b) : same(a, b.slice(1));
    return same(a.slice(1), b.slice(1)) || (a[0] === b[1] && a[1] === b[0] && same(a.slice(2), b.slice(2)));
  }

  return { asWorn, bare, fold, oneEdit, plain, pointed, readAs, spelled, squeezed, unwrapped, words, worn };
})();
