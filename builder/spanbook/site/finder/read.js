// What a query gives, from the tables: the twin of matching.py, serials.py, search.py and results.py, held to them by the tests.
"use strict";

const SpanbookRead = (() => {
  const MOST = 8;
  const SHORTEST_WORD = 2;
  const MOST_TOGETHER = 4;
  const MOST_UNREADABLE = 4;
  const MOST_COMPLETIONS = 60;
  const PAGES_OF_A_BLOCK = 160;
  const JOINTS = /[\s.·•\u00ad\u058a\u05be\u1400\u1806\u2010-\u2015\u2043\u2212\u2e17\u2e1a\u2e3a\u2e3b\u2e40\u2e5d\u301c\u3030\u30a0\ufe31\ufe32\ufe58\ufe63\uff0d_-]+/gu;
  const QUOTES = /["'`\u00ab\u00bb\u2018-\u201f\u2032-\u2036\u2039\u203a\u2e42\u301d-\u301f]+/gu;
  const WORN = { o: "0", q: "0", d: "0", i: "1", l: "1", b: "8", 3: "8", s: "5", z: "2", g: "6", t: "7" };
  // The digits that each worn form may have been, and how many may be in doubt.
  const DIGITS = { 0: "0", 1: "1", 2: "2", 4: "4", 5: "5", 6: "6", 7: "7", 8: "38", 9: "9" };
  const MOST_EITHER = 6;
  // What a text that a part is found by is to it, as an entry counts them.
  const KNOWN = ["", "also-", "misprint-", "mark-"];
  const HOW = ["exact", "spacing", "as-worn", "begins"];
  const ITSELF = new Set(["exact", "spacing"]);

  // What no eye sees and a script needs all the same; nobody can be asked to type it.
  const without = (text) => text.replace(/[\u200c\u200d\ufe0e\ufe0f]/gu, "");
  const plain = (text) => without(text).normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const squeezed = (text) => plain(text).replace(JOINTS, "").replace(QUOTES, "");
  const asWorn = (text) => [...text].map((c) => WORN[c] ?? c).join("");
  const worn = (text) => asWorn(squeezed(text));
  const words = (text) => plain(text).match(/[\p{L}\p{N}]+/gu) ?? [];
  // A serial number's own fold keeps accents: only case, spaces, dots and dashes are nothing.
  const fold = (text) => without(text).replace(JOINTS, "").toLowerCase();
  // The same with a space for each of them: where they stand may tell two numbers apart.
  const spelled = (text) => without(text).replace(JOINTS, " ").toLowerCase().trim();

  function say(sentences, name, ...values) {
    return values.reduce((text, value) => text.replace("{}", () => value), sentences[name]);
  }

  // A series is [id, stretches, issued runs, title of the machine, machine, plate]; a stretch [first, last, place of the first, forms].
  const stamped = ([prefix, width, suffix], number) => prefix + String(number).padStart(width, "0") + suffix;
  const issued = (runs, place) => runs.some(([first, last]) => first <= place && (last === null || place <= last));

  // What stands at a place as the plate has it; ? for what may be one thing or another.
  function show([, stretches], place) {
    const [first, , at, forms] = stretches.findLast((one) => one[2] <= place) ?? stretches[0];
    const each = forms.map((form) => [...stamped(form, first + place - at)]);
    const alike = each.filter((one) => one.length === each[0].length);
    return each[0].map((c, i) => (alike.every((one) => one[i] === c) ? c : "?")).join("");
  }

  // What stands between a form's prefix and suffix, if those are there.
  function digits([, , , prefix, suffix], folded) {
    const end = folded.length - suffix.length;
    if (end <= prefix.length) return null;
    const between = folded.slice(prefix.length, end);
    if (!/^[0-9?]{1,12}$/.test(between) || between.split("?").length > MOST_UNREADABLE + 1) return null;
    const alike = (read, stands) => [...read].every((c, i) => c === stands[i] || c === "?");
    return alike(folded.slice(0, prefix.length), prefix) && alike(folded.slice(end), suffix) ? between : null;
  }

  // The stretches that a text may be of, with the digits of the number: where spaces, dots and dashes alone
  // tell two apart, those that a text has do.
  function read([, stretches], text) {
    const folded = fold(text);
    const found = stretches.flatMap((stretch) => stretch[3].map((form) => [stretch, form, digits(form, folded)])).filter(([, , between]) => between !== null);
    if (found.length < 2 || folded.includes("?")) return found;
    const same = found.filter(([, form, between]) => spelled(stamped(form, Number(between))) === spelled(text));
    return same.length > 0 ? same : found;
  }

  // Every text with a choice made at each character.
  const chosen = (text, choices) => [...text].reduce((made, c) => made.flatMap((start) => [...choices(c)].map((d) => start + d)), [""]);
  // The places that numbers have in stretches, each once, in rising order: from pairs of a stretch and numbers.
  function places(found) {
    const every = found.flatMap(([[first, last, at], numbers]) => numbers.map(Number).filter((n) => first <= n && (last === null || n <= last)).map((n) => at + n - first));
    return [...new Set(every)].sort((a, b) => a - b);
  }

  // The series in which a text reads: [series, place, issued], the issued first.
  function readings(series, text) {
    const isWorn = text.includes("?");
    const found = [];
    for (const one of series) {
      const each = read(one, text).map(([stretch, , between]) => [stretch, chosen(between, (c) => (c === "?" ? "0123456789" : c))]);
      for (const place of places(each)) {
        const was = issued(one[2], place);
        if (was || !isWorn) found.push([one, place, was]);
      }
    }
    return isWorn ? found : found.sort((a, b) => b[2] - a[2] || (a[0][0] < b[0][0] ? -1 : a[0][0] > b[0][0] ? 1 : a[1] - b[1]));
  }

  // The digits, as a worn stamp leaves them, of a text that may be a form worn.
  function wornDigits([, , , prefix, suffix], folded) {
    const typed = folded.slice(prefix.length, folded.length - suffix.length);
    const between = asWorn(typed);
    if (asWorn(folded) !== asWorn(prefix) + between + asWorn(suffix)) return null;
    if (!/^[0124-9]{1,12}$/.test(between) || !/[0-9]/.test(typed)) return null;
    return [...between].filter((c) => DIGITS[c].length > 1).length > MOST_EITHER ? null : between;
  }

  // The issued numbers that a worn stamp may have made of a text, beside what it reads as.
  function wornTo(series, text) {
    const folded = fold(text);
    return series.flatMap((one) => {
      const each = one[1].flatMap((stretch) => stretch[3].map((form) => [stretch, wornDigits(form, folded)])).filter(([, between]) => between !== null);
      const found = places(each.map(([stretch, between]) => [stretch, chosen(between, (c) => DIGITS[c])])).filter((place) => issued(one[2], place));
      const plainly = found.length > 0 ? readings([one], text).map(([, place]) => place) : [];
      return found.filter((place) => !plainly.includes(place)).map((place) => [one, place, true]);
    });
  }

  const cardAddress = (serial) => "card/?serial=" + encodeURIComponent(serial).replace(/%20/g, "+").replace(/[!'()*~]/g, (c) => c === "~" ? c : "%" + c.charCodeAt(0).toString(16).toUpperCase());

  function serialRow(sentences, [series, number, was], itself = true) {
    const shown = show(series, number);
    if (was) return [shown, say(sentences, "card", series[3]), cardAddress(shown), itself];
    const distance = ([first, last]) => Math.max(first - number, last === null ? 0 : number - last, 0);
    const [first, last] = series[2].reduce((best, run) => (distance(run) < distance(best) ? run : best));
    const near = last === null ? say(sentences, "up", show(series, first)) : say(sentences, "to", show(series, first), show(series, last));
    return [shown, say(sentences, "never", series[3], near), `series/${series[0]}/`, false];
  }

  function wornRows(sentences, series, text, found) {
    const also = wornTo(series, text);
    const numbers = also.slice(0, MOST).map(([one, number]) => [show(one, number), one[3]]);
    if (also.length === 0 || !found.some(([, , was]) => was)) return numbers.map(([number, machine]) => [number, say(sentences, "worn-card", machine), cardAddress(number), false]);
    const all = numbers.map(([number]) => number).join(", ");
    return [[text, say(sentences, "worn-too", also.length > MOST ? say(sentences, "and-more", all) : all), cardAddress(text), false]];
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

  const oneModel = (way) => new Set(way.map(([one]) => one[4])).size === 1;
  const shownOf = (way) => way.map(([one, number]) => show(one, number)).join(" / ");

  function togetherRow(sentences, way) {
    const detail = oneModel(way) ? say(sentences, "together", way[0][0][3]) : sentences.models;
    return [shownOf(way), detail, cardAddress(shownOf(way)), oneModel(way)];
  }

  function serialRows(sentences, series, text) {
    const ways = together(series, text);
    if (ways.length > 0) return ways.map((way) => togetherRow(sentences, way));
    const found = readings(series, text);
    if (!text.includes("?")) return [...found.map((reading) => serialRow(sentences, reading)), ...wornRows(sentences, series, text, found)];
    const all = found.length > 1 ? [[text, say(sentences, "worn", String(found.length)), cardAddress(text), true]] : [];
    return [...all, ...found.slice(0, MOST).map((reading) => serialRow(sentences, reading, found.length === 1))];
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
    return HOW.indexOf(howA) - HOW.indexOf(howB) || a[1] - b[1] ||
      compared(squeezed(a[0]), squeezed(b[0])) || compared(a[5], b[5]);
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

  // The rows of the list: [title, detail, address, whether it is what was asked for]; without an address a remark.
  // So many of each sort; null where the tables could not be loaded.
  async function rows(query, most = MOST) {
    const text = query.trim();
    const table = await spanbookLoad("series");
    if (!table) return null;
    const [sentences, series] = table;
    const found = serialRows(sentences, series, text);
    const numbersFound = await matches(text);
    for (const [[shown, known, number, name, whose, address], how] of numbersFound.slice(0, most)) {
      const said = known ? say(sentences, KNOWN[known] + how, number, name, whose) : say(sentences, how, name, whose);
      found.push([shown, said, address, ITSELF.has(how)]);
    }
    if (numbersFound.length > most) found.push([sentences["more-numbers"], "", "", false]);
    const pagesFound = await pages(text);
    for (const page of pagesFound.slice(0, most)) {
      const block = await spanbookLoad(`page-${Math.floor(page / PAGES_OF_A_BLOCK)}`);
      const [title, sort, address] = block[page % PAGES_OF_A_BLOCK];
      found.push([title, sort, address, false]);
    }
    if (pagesFound.length > most) found.push([sentences["more-pages"], "", "", false]);
    return found.length > 0 ? found : [[sentences.none, "", "", false]];
  }

  return { rows, say, readings, wornTo, show, together, oneModel, shownOf };
})();
