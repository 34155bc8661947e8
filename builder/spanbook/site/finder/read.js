// What a query gives, from the tables: the twin of matching.py, search.py and results.py, held to them by the tests.
"use strict";

const SpanbookRead = (() => {
  const MOST = 8;
  const SHORTEST_WORD = 2;
  const MOST_TOGETHER = 4;
  const MOST_DIGITS = 12;
  const MOST_COMPLETIONS = 60;
  const PAGES_OF_A_BLOCK = 160;
  const JOINTS = /[\s.·•\u00ad\u2010-\u2015\u2043\u2212\ufe58\ufe63\uff0d_-]+/gu;
  const WORN = { o: "0", q: "0", d: "0", i: "1", l: "1", b: "8", 3: "8", s: "5", z: "2", g: "6", t: "7" };
  // The digits that each worn form may have been, and how many may be in doubt.
  const DIGITS = { 0: "0", 1: "1", 2: "2", 4: "4", 5: "5", 6: "6", 7: "7", 8: "38", 9: "9" };
  const MOST_EITHER = 6;
  const HOW = ["exact", "spacing", "as-worn", "begins"];

  // What no eye sees and a script needs all the same; nobody can be asked to type it.
  const without = (text) => text.replace(/[\u200c\u200d\ufe0e\ufe0f]/gu, "");
  const plain = (text) => without(text).normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const squeezed = (text) => plain(text).replace(JOINTS, "");
  const asWorn = (text) => [...text].map((c) => WORN[c] ?? c).join("");
  const worn = (text) => asWorn(squeezed(text));
  const words = (text) => plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];
  // A serial number's own fold keeps accents: only case, spaces, dots and dashes are nothing.
  const fold = (text) => without(text).replace(JOINTS, "").toLowerCase();

  function say(sentences, name, ...values) {
    return values.reduce((text, value) => text.replace("{}", () => value), sentences[name]);
  }

  const show = ([, prefix, width, suffix], number) => prefix + String(number).padStart(width, "0") + suffix;
  const issued = (runs, number) => runs.some(([first, last]) => first <= number && (last === null || number <= last));

  // What stands between a series' prefix and suffix, if those are there.
  function digits([, , , , prefix, suffix], folded) {
    const end = folded.length - suffix.length;
    if (end <= prefix.length) return null;
    const alike = (read, stamped) => [...read].every((c, i) => c === stamped[i] || c === "?");
    const fits = alike(folded.slice(0, prefix.length), prefix) && alike(folded.slice(end), suffix);
    return fits ? folded.slice(prefix.length, end) : null;
  }

  // Every number that digits with ? may be, in rising order.
  function numbers(text) {
    if (!/^[0-9?]+$/.test(text) || text.split("?").length > 5) return [];
    let made = [""];
    for (const c of text) made = made.flatMap((start) => (c === "?" ? [..."0123456789"] : [c]).map((d) => start + d));
    return [...new Set(made.map(Number))];
  }

  // The series in which a text reads: [series, number, issued], the issued first.
  function readings(series, text) {
    const isWorn = text.includes("?");
    const found = [];
    for (const one of series) {
      const between = digits(one, fold(text));
      if (between === null || between.length > MOST_DIGITS || (!isWorn && !/^[0-9]+$/.test(between))) continue;
      for (const number of numbers(between)) {
        const was = issued(one[6], number);
        if (was || !isWorn) found.push([one, number, was]);
      }
    }
    return isWorn ? found : found.sort((a, b) => b[2] - a[2] || (a[0][0] < b[0][0] ? -1 : 1));
  }

  // The numbers whose stamp, worn, may read as a text does, its plain reading too.
  function wornFrom([, , , , prefix, suffix], folded) {
    const typed = folded.slice(prefix.length, folded.length - suffix.length);
    const digits = asWorn(typed);
    if (asWorn(folded) !== asWorn(prefix) + digits + asWorn(suffix)) return [];
    if (digits.length === 0 || digits.length > MOST_DIGITS || [...digits].some((c) => !(c in DIGITS))) return [];
    const either = [...digits].filter((c) => DIGITS[c].length > 1).length;
    if (!/[0-9]/.test(typed) || either > MOST_EITHER) return [];
    return [...digits].reduce((made, c) => made.flatMap((start) => [...DIGITS[c]].map((d) => start + d)), [""]).map(Number);
  }

  // The issued numbers that a worn stamp may have made of a text, beside what it reads as.
  function wornTo(series, text) {
    const plainly = (one) => readings([one], text).map(([, number]) => number);
    return series.flatMap((one) => wornFrom(one, fold(text)).filter((n) => issued(one[6], n) && !plainly(one).includes(n)).map((n) => [one, n, true]));
  }

  const cardAddress = (serial) => "card/?serial=" + encodeURIComponent(serial).replace(/%20/g, "+").replace(/[!'()*~]/g, (c) => c === "~" ? c : "%" + c.charCodeAt(0).toString(16).toUpperCase());

  function serialRow(sentences, [series, number, was]) {
    const shown = show(series, number);
    if (was) return [shown, say(sentences, "card", series[7]), cardAddress(shown)];
    const distance = ([first, last]) => Math.max(first - number, last === null ? 0 : number - last, 0);
    const [first, last] = series[6].reduce((best, run) => (distance(run) < distance(best) ? run : best));
    const near = last === null ? say(sentences, "up", show(series, first)) : say(sentences, "to", show(series, first), show(series, last));
    return [shown, say(sentences, "never", series[7], near), `series/${series[0]}/`];
  }

  function wornRows(sentences, series, text, found) {
    const also = wornTo(series, text);
    const numbers = also.slice(0, MOST).map(([one, number]) => [show(one, number), one[7]]);
    if (also.length === 0 || !found.some(([, , was]) => was)) return numbers.map(([number, machine]) => [number, say(sentences, "worn-card", machine), cardAddress(number)]);
    const all = numbers.map(([number]) => number).join(", ");
    return [[text, say(sentences, "worn-too", also.length > MOST ? say(sentences, "and-more", all) : all), cardAddress(text)]];
  }

  // Every way in which a text reads as several issued numbers given together: those of one model, else all.
  function together(series, text) {
    if (text.includes("?") || readings(series, text).length > 0) return [];
    for (const joint of [/\s+\/\s+/, /\//]) {
      const read = text.split(joint).map((part) => readings(series, part).filter(([, , was]) => was));
      if (read.length < 2 || read.length > MOST_TOGETHER || read.some((one) => one.length === 0)) continue;
      const ways = read.reduce((made, found) => made.flatMap((way) => found.map((one) => [...way, one])), [[]]);
      const alike = ways.filter((way) => oneModel(way));
      return alike.length > 0 ? alike : ways;
    }
    return [];
  }

  const oneModel = (way) => new Set(way.map(([one]) => one[8])).size === 1;
  const shownOf = (way) => way.map(([one, number]) => show(one, number)).join(" / ");

  function togetherRow(sentences, way) {
    const detail = oneModel(way) ? say(sentences, "together", way[0][0][7]) : sentences.models;
    return [shownOf(way), detail, cardAddress(shownOf(way))];
  }

  function serialRows(sentences, series, text) {
    const ways = together(series, text);
    if (ways.length > 0) return ways.map((way) => togetherRow(sentences, way));
    const found = readings(series, text);
    if (!text.includes("?")) return [...found.map((reading) => serialRow(sentences, reading)), ...wornRows(sentences, series, text, found)];
    const all = found.length > 1 ? [[text, say(sentences, "worn", String(found.length)), cardAddress(text)]] : [];
    return [...all, ...found.slice(0, MOST).map((reading) => serialRow(sentences, reading))];
  }

  // The worn forms that a pattern with ? may be: the longest run of readable characters leads the way.
  async function turnedForms(pattern) {
    const whole = pattern + "$";
    const runs = [...(whole + whole).matchAll(/[^?]+/g)].filter((m) => m.index < whole.length);
    const longest = runs.reduce((best, m) => (m[0].length > best[0].length ? m : best));
    const form = new RegExp("^" + [...pattern].map((c) => (c === "?" ? "." : c.replace(/[^\p{L}\p{N}]/u, "\\$&"))).join("") + "$", "u");
    const found = await spanbookBeginning("turned", longest[0].slice(0, whole.length));
    const forms = found.map(([key]) => key.slice(key.indexOf("$") + 1) + key.slice(0, key.indexOf("$")));
    return [...new Set(forms.filter((one) => form.test(one)))];
  }

  async function matches(text) {
    const folded = worn(text);
    const wanted = squeezed(text);
    if (folded.replaceAll("?", "").length < SHORTEST_WORD) return [];
    const found = [];
    if (folded.includes("?")) {
      for (const form of await turnedForms(folded)) {
        for (const [key, entries] of await spanbookBeginning("number", form)) {
          if (key === form) found.push(...entries.map((entry) => [entry, "as-worn"]));
        }
      }
      return found.sort(order);
    }
    const begun = await spanbookBeginning("number", folded);
    const alike = begun.filter(([key]) => key === folded).flatMap(([, entries]) => entries);
    for (const entry of alike) {
      const exact = plain(entry[0]) === plain(text);
      found.push([entry, exact ? "exact" : squeezed(entry[0]) === wanted ? "spacing" : "as-worn"]);
    }
    const known = new Set(alike.map((entry) => entry[0]));
    for (const entry of begun.flatMap(([, entries]) => entries)) {
      if (squeezed(entry[0]).startsWith(wanted) && !known.has(entry[0])) found.push([entry, "begins"]);
    }
    return found.sort(order);
  }

  const compared = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
  function order([a, howA], [b, howB]) {
    return HOW.indexOf(howA) - HOW.indexOf(howB) || Boolean(a[1]) - Boolean(b[1]) ||
      compared(squeezed(a[0]), squeezed(b[0])) || compared(a[4], b[4]);
  }

  const summed = (gaps) => { let at = 0; return gaps.map((gap) => (at += gap)); };

  // The documents that hold all words, among their strong ones and anywhere.
  async function holding(asked) {
    let strong = null;
    let every = null;
    for (const word of asked) {
      const inStrong = new Set();
      const anywhere = new Set();
      for (const [, [first, second]] of await spanbookBeginning("word", word, MOST_COMPLETIONS)) {
        for (const page of summed(first)) { inStrong.add(page); anywhere.add(page); }
        for (const page of summed(second)) anywhere.add(page);
      }
      strong = strong === null ? inStrong : new Set([...strong].filter((page) => inStrong.has(page)));
      every = every === null ? anywhere : new Set([...every].filter((page) => anywhere.has(page)));
    }
    return [strong ?? new Set(), every ?? new Set()];
  }

  async function pages(text) {
    const asked = words(text).filter((word) => [...word].length >= SHORTEST_WORD);
    if (asked.length === 0) return [];
    let [strong, every] = await holding(asked);
    if (asked.length > 1) {
      const [alsoStrong, also] = await holding([asked.join("")]);
      strong = new Set([...strong, ...alsoStrong]);
      every = new Set([...every, ...also]);
    }
    const rising = (set) => [...set].sort((a, b) => a - b);
    return [...rising(strong), ...rising(every).filter((page) => !strong.has(page))];
  }

  // The rows of the list: [title, detail, address]; without an address a remark.
  async function rows(query) {
    const text = query.trim();
    const [sentences, series] = (await spanbookLoad("series")) ?? [{}, []];
    const found = serialRows(sentences, series, text);
    const numbersFound = await matches(text);
    for (const [[shown, number, name, whose, address], how] of numbersFound.slice(0, MOST)) {
      const said = number ? say(sentences, `mark-${how}`, number, name, whose) : say(sentences, how, name, whose);
      found.push([shown, said, address]);
    }
    if (numbersFound.length > MOST) found.push([sentences["more-numbers"], "", ""]);
    const pagesFound = await pages(text);
    for (const page of pagesFound.slice(0, MOST)) {
      const block = await spanbookLoad(`page-${Math.floor(page / PAGES_OF_A_BLOCK)}`);
      const [title, sort, address] = block[page % PAGES_OF_A_BLOCK];
      found.push([title, sort, address]);
    }
    if (pagesFound.length > MOST) found.push([sentences["more-pages"], "", ""]);
    return found.length > 0 ? found : [[sentences.none, "", ""]];
  }

  return { rows, readings, wornTo, show, together, oneModel, shownOf };
})();
