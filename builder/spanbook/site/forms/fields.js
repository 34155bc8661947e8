// What stands in a form: groups that repeat, reading the fields into values, and filling them from values.
"use strict";

const spanbookFields = (form) => {
  const MOST = 500; // of one group; whatever has more is no draft of a person's
  let helps = 0;

  const mine = (place, wanted) => [...place.querySelectorAll(wanted)].filter((one) => one.parentElement.closest("[data-item], [data-form]") === place);
  const fieldsOf = (place) => mine(place, "[data-key]").sort((a, b) => a.dataset.order - b.dataset.order);
  const itemsOf = (field) => [...field.querySelector(":scope > [data-items]").children];
  const control = (field) => field.querySelector("input, select, textarea");
  const titleOf = (field) => field.querySelector(":scope > legend, label > span").firstChild.textContent.trim();

  // --- groups that repeat

  // Groups inside of groups that are the same have the entries of those around them.
  const around = (field) => field.parentElement.closest(`[data-key="${field.dataset.key}"]`);
  const template = (field) => field.querySelector(":scope > template") ?? template(around(field));

  function add(field) {
    const item = template(field).content.firstElementChild.cloneNode(true);
    field.querySelector(":scope > [data-items]").append(item);
    dress(item);
    return item;
  }

  // An entry that folds is headed by what it is called.
  function head(item) {
    const summary = item.querySelector(":scope > summary");
    if (!summary) return;
    summary.dataset.item ??= summary.textContent;
    summary.textContent = control(item).value.trim() || summary.dataset.item;
  }

  function fold(item) {
    head(item);
    if (item.matches("details")) item.open = false;
  }

  // Whatever is folded around a field opens.
  function show(at) {
    const folded = at.closest("details:not([open])");
    if (folded) { folded.open = true; show(folded); }
  }

  form.addEventListener("input", ({ target }) => {
    const item = target.closest("[data-item]");
    if (item) head(item);
  });

  // An entry that folds is filed under what it is called, where nobody said under what.
  function file(hyphened) {
    for (const item of form.querySelectorAll("details[data-item]")) {
      const at = mine(item, "[data-key=id]").map(control)[0];
      if (!at || at.value.trim()) continue;
      const word = hyphened(control(item).value).slice(0, 60).replace(/-$/, "");
      const taken = [...item.parentElement.children].map((sister) => mine(sister, "[data-key=id]").map(control)[0]?.value.trim());
      let number = 1;
      while (taken.includes(number > 1 ? `${word}-${number}` : word)) number += 1;
      at.value = number > 1 && word ? `${word}-${number}` : word;
    }
  }

  function dress(place) {
    for (const field of place.querySelectorAll("[data-sort]")) {
      const help = field.querySelector("small");
      const at = field.querySelector(":scope > label > :is(input, select, textarea)");
      if (help && at && !help.id) {
        help.id = `sb-help-${helps += 1}`;
        at.setAttribute("aria-describedby", help.id);
      }
      if (field.querySelector(":scope > template")) {
        while (itemsOf(field).length < field.dataset.least) add(field);
      }
    }
    spanbookPick(place);
    spanbookKnown.within(place);
    spanbookPoints(place);
  }

  // One entry more; a list that needs two is given both once it is begun.
  function begin(field) {
    const first = add(field);
    while (itemsOf(field).length < field.dataset.begun) add(field);
    return first;
  }

  function empty() {
    form.reset();
    form.querySelectorAll("[data-items]").forEach((items) => items.replaceChildren());
    dress(form);
  }

  // --- reading: as the record has it, or as it was typed, for a draft

  const isNumber = (text) => /^[0-9]{1,12}$/.test(text);
  const whole = (text) => Number(text.trim());

  function bound(text) {
    const pair = /^(.+) to (.+)$/.exec(text);
    if (pair) return [bound(pair[1]), bound(pair[2])];
    return isNumber(text) ? whole(text) : text;
  }

  const years = (field) => itemsOf(field).map((item) => ["[data-year]", "[data-first]"].map((at) => item.querySelector(at).value.trim()));

  const TYPED = {
    yes: (field) => control(field).checked || undefined,
    notes: (field) => (control(field).value.trim() ? control(field).value : ""),
    texts: (field) => itemsOf(field).map((item) => control(item).value.trim()).filter(Boolean),
    pairs: (field) => TYPED.texts(field),
    groups: (field) => itemsOf(field).map((item) => reading(item, TYPED)),
    table: years,
  };

  const RECORD = {
    ...TYPED,
    integer: (field) => { const text = control(field).value.trim(); return text && whole(text); },
    bound: (field) => bound(control(field).value.trim()),
    pairs: (field) => TYPED.texts(field).map(bound).filter(Array.isArray),
    groups: (field) => itemsOf(field).map((item) => reading(item, RECORD)),
    table: (field) => Object.fromEntries(years(field).map(([year, first]) => [year, bound(first)])),
  };

  function reading(place, how) {
    const values = {};
    for (const field of fieldsOf(place)) {
      const { key, sort } = field.dataset;
      const value = how[sort] ? how[sort](field) : control(field).value.trim();
      const nothing = value === undefined || value === "" || (typeof value === "object" && Object.keys(value).length === 0);
      // No new numbers at all is a thing to say: no longer supplied.
      if (!nothing || (key === "new" && sort === "groups")) values[key] = value;
    }
    return values;
  }

  // --- filling: what has no place is left out and told

  const isOne = (value) => ["string", "number", "boolean"].includes(typeof value);
  const isPair = (value) => Array.isArray(value) && value.length === 2 && value.every(isOne);
  const isDated = (row) => Array.isArray(row) && row.length === 2 && isOne(row[0]) && (isOne(row[1]) || isPair(row[1]));
  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  const isList = (of) => (value) => Array.isArray(value) && value.length <= MOST && value.every(of);
  const bounded = (value) => (Array.isArray(value) ? value.join(" to ") : value);
  const item = (field, i) => itemsOf(field)[i] ?? add(field);
  const put = (field, value) => { control(field).value = value; };
  const each = (one) => (field, value) => value.flatMap((below, i) => one(item(field, i), below) ?? []);
  const rows = (value) => (isMap(value) ? Object.entries(value) : value);

  const FILL = {
    yes: [isOne, (field, value) => { control(field).checked = String(value) === "true"; }],
    bound: [(value) => isOne(value) || isPair(value), (field, value) => put(field, bounded(value))],
    texts: [isList(isOne), each(put)],
    pairs: [isList((value) => isOne(value) || isPair(value)), each((at, value) => put(at, bounded(value)))],
    groups: [isList(isMap), each((at, value) => { const left = fill(at, value); fold(at); return left; })],
    table: [(value) => isList(isDated)(rows(value)), (field, value) => rows(value).forEach(([year, first], i) => {
      const at = item(field, i);
      at.querySelector("[data-year]").value = year;
      at.querySelector("[data-first]").value = bounded(first);
    })],
  };

  // Fills a place; gives the keys that have no field here, or a value that none could hold.
  function fill(place, values) {
    const fields = new Map(fieldsOf(place).map((field) => [field.dataset.key, field]));
    return Object.entries(values).flatMap(([key, value]) => {
      const field = fields.get(key);
      const [fits, how] = FILL[field?.dataset.sort] ?? [isOne, put];
      if (!field || !fits(value)) return [key];
      const left = how(field, value) ?? [];
      // A word that is none of the choices leaves the choice empty.
      return field.dataset.sort === "choice" && control(field).value !== String(value) ? [key] : left;
    });
  }

  return {
    begin, dress, empty, control, show, file,
    fields: () => fieldsOf(form),
    titles: (keys) => fieldsOf(form).filter((field) => keys.includes(field.dataset.key)).map(titleOf),
    typed: () => reading(form, TYPED),
    record: () => reading(form, RECORD),
    fill: (values) => fill(form, values),
  };
};
