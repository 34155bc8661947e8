// The form of a record: repeats groups, keeps a draft in this browser, and writes the record.
"use strict";

(() => {
  const form = document.querySelector("form[data-form]");
  if (!form) return;
  const { form: kind, folder, suggest, content, forge, repository, branch, schema } = form.dataset;
  const told = document.querySelector("[data-told]");
  const made = document.querySelector("[data-made]");
  const asked = new URLSearchParams(location.search);
  const draft = `spanbook-draft-${kind}-${asked.get("record") ?? ""}`;
  let old = null; // the path of the record that is being corrected
  let helps = 0;

  const mine = (place, wanted) => [...place.querySelectorAll(wanted)].filter((one) => one.parentElement.closest("[data-item], [data-form]") === place);
  const fieldsOf = (place) => mine(place, "[data-key]").sort((a, b) => a.dataset.order - b.dataset.order);
  const itemsOf = (field) => [...field.querySelector(":scope > [data-items]").children];
  const control = (field) => field.querySelector("input, select, textarea");
  const whole = (text) => Number(text.trim());
  const isNumber = (text) => /^[0-9]{1,12}$/.test(text);

  // --- groups that repeat

  function add(field) {
    const item = field.querySelector(":scope > template").content.firstElementChild.cloneNode(true);
    field.querySelector(":scope > [data-items]").append(item);
    dress(item);
    return item;
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
  }

  // --- reading

  function bound(text) {
    const pair = /^([0-9]+) to ([0-9]+)$/.exec(text);
    return pair ? [whole(pair[1]), whole(pair[2])] : isNumber(text) ? whole(text) : text;
  }

  const READ = {
    yes: (field) => control(field).checked || undefined,
    integer: (field) => { const text = control(field).value.trim(); return text && whole(text); },
    bound: (field) => bound(control(field).value.trim()),
    notes: (field) => (control(field).value.trim() ? control(field).value : ""),
    texts: (field) => itemsOf(field).map((item) => control(item).value.trim()).filter(Boolean),
    pairs: (field) => itemsOf(field).map((item) => bound(control(item).value.trim())).filter(Array.isArray),
    groups: (field) => itemsOf(field).map(read),
    table: (field) => Object.fromEntries(itemsOf(field).map((item) => [item.querySelector("[data-year]").value.trim(), whole(item.querySelector("[data-first]").value)])),
  };

  function read(place) {
    const values = {};
    for (const field of fieldsOf(place)) {
      const { key, sort } = field.dataset;
      const value = READ[sort] ? READ[sort](field) : control(field).value.trim();
      const empty = value === undefined || value === "" || (typeof value === "object" && Object.keys(value).length === 0);
      // No new numbers at all is a thing to say: no longer supplied.
      if (!empty || (key === "new" && sort === "groups")) values[key] = value;
    }
    return values;
  }

  // --- filling

  const FILL = {
    yes: (field, value) => { control(field).checked = String(value) === "true"; },
    bound: (field, value) => { control(field).value = Array.isArray(value) ? value.join(" to ") : value; },
    texts: (field, value) => value.forEach((one, i) => { control(itemsOf(field)[i] ?? add(field)).value = one; }),
    pairs: (field, value) => value.forEach((one, i) => { control(itemsOf(field)[i] ?? add(field)).value = one.join(" to "); }),
    groups: (field, value) => value.forEach((one, i) => fill(itemsOf(field)[i] ?? add(field), one)),
    table: (field, value) => Object.entries(value).forEach(([year, first], i) => {
      const item = itemsOf(field)[i] ?? add(field);
      item.querySelector("[data-year]").value = year;
      item.querySelector("[data-first]").value = first;
    }),
  };

  function fill(place, values) {
    for (const field of fieldsOf(place)) {
      const value = values[field.dataset.key];
      if (value === undefined) continue;
      const how = FILL[field.dataset.sort] ?? ((at, text) => { control(at).value = text; });
      how(field, value);
    }
  }

  function emptied() {
    form.reset();
    form.querySelectorAll("[data-items]").forEach((items) => items.replaceChildren());
    dress(form);
    made.hidden = true;
  }

  // --- the id, suggested from what is filled in

  const hyphened = (text) => (text.normalize("NFKD").toLowerCase().match(/[a-z0-9]+/g) ?? []).join("-");

  function suggested(values) {
    const words = suggest.split(" ").map((key) => (Array.isArray(values[key]) ? values[key][0]?.number : values[key]) ?? "");
    // A digit that cannot be read has no place in a file's name.
    return hyphened(words.join(" ").replaceAll("?", "x")).slice(0, 80).replace(/-$/, "");
  }

  const idField = () => control(fieldsOf(form).find((field) => field.dataset.key === "id"));

  function prompted() {
    const at = idField();
    if (!at.value) at.placeholder = suggested(read(form));
  }

  // --- writing

  function written() {
    const at = idField();
    if (!at.value.trim()) at.value = suggested(read(form));
    return { kind, ...read(form) };
  }

  function show(values) {
    const name = `${values.id}.yml`;
    const text = spanbookYaml(values, schema.startsWith("http") ? schema : "");
    made.hidden = false;
    made.querySelector("code").textContent = text;
    const download = made.querySelector("[data-download]");
    URL.revokeObjectURL(download.href);
    download.href = URL.createObjectURL(new Blob([text], { type: "text/yaml" }));
    download.download = name;
    const { address, how, copy } = spanbookPropose({ forge, repository, branch }, `${content}${folder}/`, name, text, old && content + old.replace(/^[^/]*\//, ""));
    const propose = made.querySelector("[data-propose]");
    propose.hidden = !address;
    if (address) propose.href = address;
    propose.onclick = copy ? () => { copied(text); } : null;
    made.querySelector("[data-copy]").onclick = () => copied(text);
    made.querySelector("[data-how]").textContent = how;
    const pictures = (values.found ?? []).flatMap((find) => find.photographs ?? []).map((picture) => picture.file);
    made.querySelector("[data-pictures]").hidden = pictures.length === 0;
    made.querySelector("[data-pictures] strong").textContent = pictures.join(", ");
    made.querySelector("h2").focus();
  }

  async function copied(text) {
    try {
      await navigator.clipboard.writeText(text);
      told.textContent = "Copied.";
    } catch {
      getSelection().selectAllChildren(made.querySelector("pre"));
      told.textContent = "Selected: copy it with your browser.";
    }
  }

  function mend(first) {
    first.focus();
    told.textContent = `Something is missing or not as it should be: ${first.validationMessage}`;
  }

  // --- drafts

  function kept(name, text) {
    try {
      if (text === undefined) return localStorage.getItem(name);
      if (text === null) localStorage.removeItem(name); else localStorage.setItem(name, text);
    } catch { /* a browser may forbid it; the form works without */ }
    return null;
  }

  // A control says what it wants in its own words.
  function check(at) {
    at.setCustomValidity("");
    if (!at.validity.valid && at.dataset.say) at.setCustomValidity(at.dataset.say);
  }

  form.addEventListener("click", ({ target }) => {
    if (target.matches("[data-add]")) {
      add(target.closest("[data-sort]")).querySelector("input, select, textarea, button")?.focus();
    } else if (target.matches("[data-remove]")) {
      const field = target.closest("[data-items]").closest("[data-sort]");
      target.closest("[data-item]").remove();
      field.querySelector(":scope > [data-add]").focus();
    } else if (target.matches("[data-anew]")) {
      kept(draft, null);
      old = null;
      emptied();
      told.textContent = "Nothing is filled in.";
    } else return;
    form.dispatchEvent(new Event("input"));
  });
  form.addEventListener("input", () => {
    made.hidden = true;
    prompted();
    const values = read(form);
    if (Object.keys(values).length) kept(draft, JSON.stringify({ old, values }));
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const values = written();
    form.querySelectorAll("input, select, textarea").forEach(check);
    const first = form.querySelector(":is(input, select, textarea):invalid");
    if (first) mend(first); else { told.textContent = ""; show(values); }
  });

  // --- what it begins with: a draft, a record to correct, or what the address says

  const block = (id) => [...id].reduce((at, c) => (at * 31 + c.codePointAt(0)) % 64, 0);

  async function begin() {
    dress(form);
    const record = asked.get("record");
    const before = JSON.parse(kept(draft) ?? "null");
    if (before) {
      old = before.old;
      fill(form, before.values);
      told.textContent = "What you filled in before, kept in this browser.";
    } else if (record) {
      const found = ((await spanbookLoad(`records-${kind}-${block(record)}`, "records/")) ?? {})[record];
      if (found) {
        old = found.path;
        fill(form, found.record);
        told.textContent = "Filled with what is recorded. Change what is wrong; remarks after # in its file are not kept.";
      } else told.textContent = `There is no record ${record} here; fill in a new one.`;
    } else {
      fill(form, Object.fromEntries(asked));
      if (asked.get("position") && kind === "teardown") fill(form, { found: [{ position: asked.get("position") }] });
    }
    prompted();
  }
  begin();
})();
