// A day as people write one, and as a record has it: `26 May 2019`, `May 2019`, `about 2019`, `2019 to 2021`.
"use strict";

const SpanbookDates = (() => {
  const LEAST = 3; // letters of a month
  // In English anywhere, and as the pages speak.
  const ENGLISH = "january february march april may june july august september october november december";
  const MONTHS = [ENGLISH, _("january february march april may june july august september october november december")];
  const ABOUT = ["about|around|circa", _("about|around|circa")].join("|");
  const BETWEEN = ["to|or", _("to|or")].join("|");
  const two = (number) => String(number).padStart(2, "0");

  const bare = (text) => text.normalize("NFD").replace(/\p{M}/gu, "");

  // By its first letters, where no other begins so: French `jui` is June or July.
  function monthOf(word) {
    const begun = (names) => bare(names).split(" ").flatMap((name, i) => (name.startsWith(bare(word)) ? [i + 1] : []));
    const only = (found) => (word.length >= LEAST && found.length === 1 ? found[0] : 0);
    return MONTHS.map(begun).map(only).find(Boolean) ?? 0;
  }

  // A day that there is: 31 June is none.
  function dayOf(year, month, day) {
    const made = new Date(Date.UTC(year, month - 1, day));
    return made.getUTCMonth() === month - 1 && made.getUTCDate() === Number(day) ? `${year}-${two(month)}-${two(day)}` : "";
  }

  // One date; empty where it is none, or might be two: 3/4/2019 is in March or in April.
  function one(text) {
    const words = text.replace(/[,.]/g, " ").trim().split(/\s+/);
    const year = (word) => /^[12][0-9]{3}$/.test(word);
    const day = (word) => /^[0-9]{1,2}(?:st|nd|rd|th|er)?$/.test(word);
    const iso = /^([12][0-9]{3})-([0-9]{1,2})(?:-([0-9]{1,2}))?$/.exec(text.trim());
    const dotted = /^([0-9]{1,2})\.\s*([0-9]{1,2})\.\s*([12][0-9]{3})$/.exec(text.trim());
    const slashed = /^([0-9]{1,2})\/([0-9]{1,2})\/([12][0-9]{3})$/.exec(text.trim());
    if (iso) return iso[3] ? dayOf(iso[1], iso[2], iso[3]) : dayOf(iso[1], iso[2], 1).slice(0, 7);
    if (dotted) return dayOf(dotted[3], dotted[2], dotted[1]);
    if (slashed) {
      const [, a, b, of] = slashed;
      const ways = [dayOf(of, b, a), dayOf(of, a, b)].filter(Boolean);
      return new Set(ways).size === 1 ? ways[0] : "";
    }
    if (words.length === 1 && year(words[0])) return words[0];
    if (words.length === 2 && monthOf(words[0]) && year(words[1])) return `${words[1]}-${two(monthOf(words[0]))}`;
    if (words.length === 3 && year(words[2])) {
      const [first, second, of] = words;
      if (day(first) && monthOf(second)) return dayOf(of, monthOf(second), parseInt(first, 10));
      if (monthOf(first) && day(second)) return dayOf(of, monthOf(first), parseInt(second, 10));
    }
    return "";
  }

  // A date, about a date, or some time from one to another, as the record has it; empty where it reads as none.
  function read(text) {
    const plain = text.trim().toLowerCase();
    const about = new RegExp(`^(?:${ABOUT}|ca\\.?|c\\.)\\s*(.+)$`).exec(plain);
    if (about) return one(about[1]) && `${one(about[1])}~`;
    const apart = plain.split(new RegExp(`\\s+(?:${BETWEEN}|-|–)\\s+`));
    if (apart.length === 2) {
      const [from, to] = apart.map(one);
      const alike = Math.min(from.length, to.length);
      return from && to && from.slice(0, alike) <= to.slice(0, alike) ? `${from}/${to}` : "";
    }
    return one(plain);
  }

  // Whether all of a date is yet to come, on a day.
  function future(date, today) {
    const [begins] = /^[0-9-]+/.exec(date);
    return begins > today.slice(0, begins.length);
  }

  // Today where the reader is.
  function today(now = new Date()) {
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  }

  return { future, read, today };
})();
