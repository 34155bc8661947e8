// Which serial numbers a text reads as: the twin of ground/serials.py and answers/readings.py, held to them by the tests.
"use strict";

const SpanbookSerials = (() => {
  const MOST_TOGETHER = 4;
  const MOST_UNREADABLE = 4;
  const MOST_EITHER = 6;
  // The digits that each worn form may have been, and how many may be in doubt.
  const DIGITS = { 0: "0", 1: "1", 2: "2", 4: "4", 5: "5", 6: "6", 7: "7", 8: "38", 9: "9" };
  const { asWorn, fold, spelled } = SpanbookMatching;

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

  // The issued numbers that a text may be with its letters left out or at the other end, if it reads as none.
  function loosely(series, text) {
    const match = text.trim().match(/^[#№]?([^0-9?]*)([0-9]{1,12}|[0-9]{1,3}(?:[ \u00a0\u2009\u202f'’][0-9]{3}){1,3})([^0-9?]*)$/);
    if (!match) return [];
    const [, before, , after] = match.map(fold);
    const between = match[2].replace(/[^0-9]/g, "");
    const may = (letters) => !/\p{Nd}/u.test(letters) && ["", letters].some((one) => one === before + after || one === after + before);
    return series.flatMap((one) => {
      const plainly = readings([one], text).map(([, place]) => place);
      const each = one[1].flatMap((stretch) => stretch[3].filter(([, , , prefix, suffix]) => may(prefix + suffix)).map(() => [stretch, [between]]));
      return places(each).filter((place) => issued(one[2], place) && !plainly.includes(place)).map((place) => [one, place, true]);
    });
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

  // A query taken apart: as much of its beginning, or else of its end, as reads as an issued number; and the words beside.
  function beside(series, text) {
    if (text.includes("?") || readings(series, text).length + together(series, text).length > 0) return null;
    const pieces = text.split(/\s+/).filter(Boolean);
    const cuts = pieces.slice(1).map((_, i) => pieces.length - 1 - i);
    const ways = [
      ...cuts.map((at) => [pieces.slice(0, at), pieces.slice(at)]),
      ...cuts.map((at) => [pieces.slice(pieces.length - at), pieces.slice(0, pieces.length - at)]),
    ].map((way) => way.map((some) => some.join(" ")));
    for (const [serial, words] of ways) {
      const found = readings(series, serial).filter(([, , was]) => was);
      if (found.length) return { readings: found, loose: [], words };
    }
    for (const [serial, words] of ways) {
      const found = /\p{Nd}/u.test(words) ? [] : loosely(series, serial);
      if (found.length) return { readings: [], loose: found, words };
    }
    return null;
  }

  return { beside, loosely, oneModel, readings, show, shownOf, together, wornTo };
})();
