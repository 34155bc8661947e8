// What a query gives, from the tables: the twin of search.py and results.py, held to them by the tests.
"use strict";

const SpanbookRead = (() => {
  const MOST = 8;
  const MOST_TAKEN = 3;
  const MOST_ALONE = 2;
  const SHORTEST_WORD = 2;
  // What a text that a part is found by is to it, as an entry counts them.
  const KNOWN = ["", "also-", "misprint-", "former-", "mark-"];
  const HOW = ["exact", "spacing", "as-worn", "begins", "ends"];
  const SURE = new Set(["exact", "spacing"]);
  const { plain, readAs, squeezed, unwrapped, words, worn } = SpanbookMatching;
  const { beside, loosely, oneModel, readings, show, shownOf, together, wornTo } = SpanbookSerials;

  function say(sentences, name, ...values) {
    return values.reduce((text, value) => text.replace("{}", () => value), sentences[name]);
  }

  const remark = (title, detail = "") => [title, detail, "", false];
  const cardAddress = (serial) => "card/?serial=" + encodeURIComponent(serial).replace(/%20/g, "+").replace(/[!'()*~]/g, (c) => c === "~" ? c : "%" + c.charCodeAt(0).toString(16).toUpperCase());

  // Which characters were read as which others, in words.
  function readWords(sentences, [first, ...others]) {
    if (!first) return sentences["is-worn"];
    return others.reduce((told, pair) => say(sentences, "and-was", told, ...pair), say(sentences, "was-read", ...first));
  }

  function serialRow(sentences, [series, number, was], itself) {
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
    if (also.length === 0 || !found.some(([, , was]) => was)) {
      return numbers.map(([number, machine]) => [number, say(sentences, "worn-card", machine, readWords(sentences, readAs(text, number))), cardAddress(number), false]);
    }
    const all = numbers.map(([number]) => number).join(", ");
    const pairs = new Map(numbers.flatMap(([number]) => readAs(text, number)).map((pair) => [pair.join(), pair]));
    const may = say(sentences, "worn-too", also.length > MOST ? say(sentences, "and-more", all) : all);
    return [remark(say(sentences, "worn-title", readWords(sentences, [...pairs.values()])), may)];
  }

  function togetherRow(sentences, way) {
    const detail = oneModel(way) ? say(sentences, "together", way[0][0][3]) : sentences.models;
    return [shownOf(way), detail, cardAddress(shownOf(way)), oneModel(way)];
  }

  // Numbers of series that are retired lead to the page of their series, which leads on.
  function retiredRows(sentences, retired, text) {
    const found = readings(retired, text).filter(([, , was]) => was);
    return found.map(([one, number]) => [show(one, number), say(sentences, "retired", one[3]), `series/${one[0]}/`, true]);
  }

  function serialRows(sentences, series, retired, text) {
    const ways = together(series, text);
    if (ways.length > 0) return ways.map((way) => togetherRow(sentences, way));
    const found = readings(series, text);
    if (!text.includes("?")) return [...found.map((reading) => serialRow(sentences, reading, true)), ...retiredRows(sentences, retired, text), ...wornRows(sentences, series, text, found)];
    const all = found.length > 1 ? [[text, _n("may be any of {} number: what they have in common", "may be any of {} numbers: what they have in common", found.length), cardAddress(text), true]] : [];
    return [...all, ...found.slice(0, MOST).map((reading) => serialRow(sentences, reading, found.length === 1))];
  }

  function looseRow(sentences, [series, number]) {
    const shown = show(series, number);
    return [shown, say(sentences, "loose-card", series[3]), cardAddress(shown), false];
  }

  // The positions of machines that the words beside a serial number name, with what their cards have there.
  async function placeRows(sentences, apart) {
    const asked = words(apart.words);
    const rows = [];
    if (!asked.length) return rows;
    for (const [series, number] of [...apart.readings, ...apart.loose]) {
      const table = await SpanbookMachine.load(series[0]);
      const named = table?.positions.some(([title]) => asked.every((one) => words(title).some((word) => word.startsWith(one))));
      if (!named) continue;
      const machine = await SpanbookMachine.of(series, table, number);
      const shown = show(series, number);
      for (const row of machine.rows) {
        const title = words(row.title);
        if (!asked.every((one) => title.some((word) => word.startsWith(one)))) continue;
        const said = say(sentences, "at-place", row.short, table.known[row.known][0]);
        const itself = title.join(" ") === asked.join(" ") && apart.readings.length > 0;
        rows.push([say(sentences, "place", shown, row.title), said, `${cardAddress(shown)}#${SpanbookMachine.line(row.address)}`, itself]);
      }
    }
    return rows;
  }

  // The worn forms that a pattern with ? may be: the longest run of readable characters leads the way.
  function turnedForms(pattern) {
    const whole = pattern + "$";
    const runs = [...(whole + whole).matchAll(/[^?]+/g)].filter((m) => m.index < whole.length);
    const longest = runs.reduce((best, m) => (m[0].length > best[0].length ? m : best));
    return formsLike("^" + likeOf(pattern) + "$", longest[0].slice(0, whole.length));
  }

  // Those that end as a pattern does: what stands before it may be gone.
  async function endingForms(pattern) {
    const longest = pattern.split("?").reduce((best, run) => ([...run].length > [...best].length ? run : best));
    return [...longest].length < SHORTEST_WORD ? [] : formsLike("^.+" + likeOf(pattern) + "$", longest);
  }

  const likeOf = (pattern) => [...pattern].map((c) => (c === "?" ? "." : c.replace(/[^\p{L}\p{N}]/u, "\\$&"))).join("");

  async function formsLike(like, run) {
    const form = new RegExp(like, "u");
    const found = await spanbookBeginning("turned", run);
    const forms = found.map(([key]) => key.slice(key.indexOf("$") + 1) + key.slice(0, key.indexOf("$")));
    return [...new Set(forms.filter((one) => form.test(one)))];
  }

  async function entriesOf(form) {
    const begun = await spanbookBeginning("number", form);
    return begun.filter(([key]) => key === form).flatMap(([, entries]) => entries);
  }

  async function matches(text) {
    const folded = worn(text);
    const wanted = squeezed(text);
    if (folded.replaceAll("?", "").length < SHORTEST_WORD) return [];
    const found = [];
    if (folded.includes("?")) {
      const [whole, ending] = await Promise.all([turnedForms, endingForms].map(async (forms) => Promise.all((await forms(folded)).map(entriesOf))));
      return once([...whole.flat().map((entry) => [entry, "as-worn"]), ...ending.flat().map((entry) => [entry, "ends"])]);
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
    return once(found);
  }

  const compared = (a, b) => (a < b ? -1 : a > b ? 1 : 0);
  function order([a, howA], [b, howB]) {
    return HOW.indexOf(howA) - HOW.indexOf(howB) || a[1] - b[1] ||
      compared(squeezed(a[0]), squeezed(b[0])) || compared(a[5], b[5]);
  }

  // In their order, each part by the best of its own.
  const once = (found) => found.sort(order).filter(([entry], i) => found.findIndex(([other]) => other[5] === entry[5]) === i);

  function numberRow(sentences, text, [[shown, known, number, name, whose, address], how]) {
    const read = how === "as-worn" ? readAs(text, shown) : [];
    const told = [...(known ? [number] : []), name, whose, ...(read.length ? [readWords(sentences, read)] : [])];
    const said = say(sentences, KNOWN[known] + (how === "as-worn" && !read.length ? "begins" : how), ...told);
    return [shown, said, address, SURE.has(how)];
  }

  const awaited = (pages, most) => pages.slice(0, most).forEach(SpanbookPages.load);

  // The pages that hold all words of a text; what they are called is on its way.
  async function found(text, most) {
    const made = await SpanbookWords.find(text);
    awaited(made.pages, most);
    return made;
  }

  // The pages that words find, without those of the parts that are there by their numbers.
  async function pageRows(sentences, { pages, named, taken }, shown, most, alone) {
    const rows = taken.map(([word, others]) => remark(say(sentences, "taken", word), say(sentences, "taken-for", others.slice(0, MOST_TAKEN).join(", "))));
    let count = 0;
    awaited(pages, most);
    for (const [i, page] of pages.entries()) {
      const [title, sort, address, ...picture] = await SpanbookPages.of(page);
      if (shown.has(address)) continue;
      if (count === most) { rows.push(remark(sentences["more-pages"])); break; }
      rows.push([title, sort, address, alone && i < named, ...picture]);
      count += 1;
    }
    return rows;
  }

  // The rows of the list: [title, detail, address, whether it is what was asked for, the address of a small picture if
  // there is one]; without an address a remark.
  // So many of each sort; null where the tables could not be loaded.
  async function rows(query, most = MOST) {
    const table = await spanbookLoad("series");
    return table && made(table, unwrapped(query), most);
  }

  const nothing = { pages: [], named: 0, taken: [] };

  // What the tables have of a query. On a slow line each round of asking costs more than what is sent: all that can
  // be known to be needed is asked for at once.
  async function gathered([sentences, series, retired], whole, most) {
    const near = retiredRows(sentences, retired, whole).length > 0 ? null : beside(series, whole);
    const asked = [whole, ...(near ? [near.words] : [])].map((text) => ({ text, numbers: matches(text), pages: found(text, most) }));
    const places = near ? placeRows(sentences, near) : [];
    const sized = near ? [] : SpanbookSizes.rows(whole, MOST);
    const certain = (await asked[0].numbers).some(([, how]) => SURE.has(how));
    if (near && !certain) {
      const [numbers, both, pages] = await Promise.all([asked[1].numbers, asked[0].pages, asked[1].pages]);
      // First the pages that hold the serial number as well.
      const all = { ...pages, pages: [...new Set([...both.pages, ...pages.pages])] };
      const serials = near.readings.map((reading) => serialRow(sentences, reading, false));
      return { text: near.words, apart: near, numbers, places: await places, serials, loose: near.loose, sizes: [], pages: all };
    }
    const serials = serialRows(sentences, series, retired, whole);
    const loose = certain || serials.length ? [] : loosely(series, whole);
    const sizes = near ? await SpanbookSizes.rows(whole, MOST) : await sized;
    const numbers = await asked[0].numbers;
    let pages = sizes.length ? nothing : await asked[0].pages;
    if (!sizes.length && !serials.length && !loose.length && !numbers.length && !pages.pages.length) pages = await SpanbookWords.near(whole);
    return { text: whole, apart: null, numbers, places: [], serials, loose, sizes, pages };
  }

  async function made(tables, whole, most) {
    const [sentences] = tables;
    const { text, apart, numbers, places, serials, loose, sizes, pages } = await gathered(tables, whole, most);
    const shown = new Set(numbers.slice(0, most).map(([entry]) => entry[5]));
    const listed = numbers.slice(0, most).map((one) => [one[1], numberRow(sentences, text, one)]);
    const sure = listed.filter(([how]) => SURE.has(how)).map(([, row]) => row);
    const other = listed.filter(([how]) => !SURE.has(how)).map(([, row]) => row);
    if (numbers.length > most) other.push(remark(sentences["more-numbers"]));
    const paged = await pageRows(sentences, pages, shown, most, !apart);
    const asWords = !/[\p{Nd}?]/u.test(plain(text));
    const found = [
      ...places.slice(0, MOST), ...serials, ...sure,
      ...(places.length ? [] : loose.slice(0, MOST).map((one) => looseRow(sentences, one))),
      ...sizes,
      ...(asWords ? [...paged, ...other] : [...other, ...paged]),
    ];
    return found.length > 0 ? found : nothingRows(sentences, whole);
  }

  // That nothing was found, and the first words of several that find pages by themselves.
  async function nothingRows(sentences, whole) {
    const asked = words(whole);
    const each = asked.length > 1 ? await Promise.all(asked.map(async (word) => [word, await SpanbookWords.find(word)])) : [];
    const alone = each.filter(([, { pages }]) => pages.length).map(([word]) => word).slice(0, MOST_ALONE);
    return [remark(sentences.none), ...(alone.length ? [remark(sentences.alone, alone.join(", "))] : [])];
  }

  return { placeRows, rows, say, turnedForms };
})();
