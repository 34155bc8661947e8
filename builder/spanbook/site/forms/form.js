// The form of a record: begins with a draft or a record, keeps what is filled in, and writes the record.
"use strict";

(() => {
  const form = document.querySelector("form[data-form]");
  if (!form) return;
  const { form: kind, folder, suggest, content, forge, repository, branch, schema } = form.dataset;
  const { control, ...fields } = spanbookFields(form);
  const { filled } = SpanbookPieces;
  const told = document.querySelector("[data-told]");
  const made = document.querySelector("[data-made]");
  const asked = new URLSearchParams(location.search);
  const record = asked.get("record") || null;
  const LONGEST = 200; // of what an address may fill in
  const keeping = spanbookKeeping([new URL(form.dataset.root, location.href).href, form.dataset.site, kind, record ?? ""], fields);

  const kept = spanbookWritten(new URL(form.dataset.root, location.href).href, form.dataset.site);

  // What this was begun with: { path, digest, record }; without a path it is another record, begun anew.
  let start = null;

  // --- the id, suggested from what is filled in

  const hyphened = (text) => (text.normalize("NFKD").toLowerCase().match(/[a-z0-9]+/g) ?? []).join("-");

  function suggested(values) {
    const words = suggest.split(" ").map((key) => (Array.isArray(values[key]) ? (values[key][0]?.number ?? values[key][0]?.serial) : values[key]) ?? "");
    // A digit that cannot be read has no place in a file's name.
    return hyphened(words.join(" ").replaceAll("?", "x")).slice(0, 80).replace(/-$/, "");
  }

  // What is one file alone has no id, and is called as its kind.
  function idField() {
    const at = fields.fields().find((field) => field.dataset.key === "id");
    return at && control(at);
  }

  function prompted() {
    const at = idField();
    if (at && !at.value) at.placeholder = suggested(fields.record());
  }

  // --- writing

  function written() {
    const at = idField();
    if (at && !at.value.trim()) at.value = suggested(fields.record());
    fields.file(hyphened);
    return { kind, ...fields.record() };
  }

  function show(values) {
    const name = `${values.id ?? kind}.yml`;
    const text = spanbookYaml(values, schema.startsWith("http") ? schema : "");
    made.hidden = false;
    made.querySelector("code").textContent = text;
    const download = made.querySelector("[data-download]");
    URL.revokeObjectURL(download.href);
    download.href = URL.createObjectURL(new Blob([text], { type: "text/yaml" }));
    download.download = name;
    const { address, how, copy } = spanbookPropose({ forge, repository, branch }, `${content}${folder && `${folder}/`}`, name, text, start?.path && content + start.path.replace(/^[^/]*\//, ""));
    const propose = made.querySelector("[data-propose]");
    propose.hidden = !address;
    if (address) propose.href = address;
    // Where nothing can be proposed, the file that is downloaded is what is handed in.
    download.onclick = address ? null : keeping.proposed;
    propose.onauxclick = ({ button }) => { if (button === 1) keeping.proposed(); };
    propose.onclick = () => {
      keeping.proposed();
      if (copy) copied(text);
    };
    made.querySelector("[data-copy]").onclick = () => copied(text);
    made.querySelector("[data-with]").onclick = () => {
      // A record that stands alone in its kind has no folder.
      const path = start?.path ?? ["content", folder, name].filter(Boolean).join("/");
      if (!kept.put({ path, title: String(values.title ?? values.name ?? name), text, corrects: start?.path ? start.digest ?? "" : "" })) { told.textContent = _("This browser has no room left to keep it. Download it."); return; }
      keeping.proposed();
      location.assign(`${form.dataset.report}${location.protocol === "file:" ? "index.html" : ""}`);
    };
    made.querySelector("[data-how]").textContent = how;
    const shown = [...(values.figures ?? []), ...(values.found ?? []).flatMap((find) => find.photographs ?? [])];
    const pictures = shown.map(({ file }) => `${content}${file.endsWith(".svg") ? "drawings" : "photographs"}/${file}`);
    made.querySelector("[data-pictures]").hidden = pictures.length === 0;
    made.querySelector("[data-pictures] strong").textContent = pictures.join(", ");
    made.querySelector("h2").focus();
  }

  async function copied(text) {
    try {
      await navigator.clipboard.writeText(text);
      told.textContent = _("Copied.");
    } catch {
      getSelection().selectAllChildren(made.querySelector("pre"));
      told.textContent = _("Selected: copy it with your browser.");
    }
  }

  function mend(first) {
    fields.show(first);
    first.focus();
    told.textContent = filled(_("Something is missing or not as it should be: {}"), first.validationMessage);
  }

  // What it names may come in the same packet: it is told, and nobody is kept from handing it in.
  function unknown() {
    const named = [...form.querySelectorAll("[data-unknown]")].map((at) => at.value.trim());
    return named.length ? filled(_("Not known here: {}. Look once more at each, unless you hand it in as well."), named.join(", ")) : "";
  }

  // A control says what it wants in its own words.
  function check(at) {
    at.setCustomValidity("");
    if (!at.validity.valid && at.dataset.say) at.setCustomValidity(at.dataset.say);
  }

  function emptied() {
    fields.empty();
    made.hidden = true;
  }

  form.addEventListener("click", ({ target }) => {
    if (target.matches("[data-add]")) {
      fields.begin(target.closest("[data-sort]")).querySelector("input, select, textarea, button")?.focus();
    } else if (target.matches("[data-remove]")) {
      const field = target.closest("[data-items]").closest("[data-sort]");
      target.closest("[data-item]").remove();
      field.querySelector(":scope > [data-add]").focus();
    } else if (target.matches("[data-anew]")) {
      keeping.dropped();
      start = start && { ...start, path: null };
      emptied();
      prompted();
      told.textContent = _("Nothing is filled in.");
      return;
    } else return;
    form.dispatchEvent(new Event("input"));
  });
  form.addEventListener("input", () => {
    made.hidden = true;
    prompted();
    const values = fields.typed();
    if (Object.keys(values).length) keeping.keep(start, values);
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const values = written();
    form.querySelectorAll("input, select, textarea").forEach(check);
    const first = form.querySelector(":is(input, select, textarea):invalid");
    if (first) mend(first); else { told.textContent = [keeping.unsettled(), unknown()].filter(Boolean).join(" "); show(values); }
  });

  // --- what it begins with: a draft, a record to correct, or what the address says

  function correct(found) {
    start = found;
    const { kind: _, ...values } = found.record;
    fields.fill(values);
    return _("Filled with what is recorded. Change what is wrong; remarks after # in its file are not kept.");
  }

  function anew(found) {
    if (record === null) {
      const [serial, position] = ["serial", "position"].map((key) => (asked.get(key) ?? "").slice(0, LONGEST));
      fields.fill({ serial, ...(kind === "teardown" ? position && { found: [{ position }] } : { position }) });
      return "";
    }
    if (found) return correct(found);
    if (found === undefined) return filled(_("The record {} could not be loaded. Reload this page to correct it; what you fill in now would be a new record."), record);
    return filled(_("There is no record {} here; fill in a new one."), record);
  }

  async function begin() {
    fields.dress(form);
    const found = record === null ? null : await spanbookKnown.recorded(kind, record);
    const { draft, words } = keeping.resume(found, {
      mine: () => { start = found; },
      theirs: () => { emptied(); told.textContent = correct(found); prompted(); },
    });
    const before = draft && { path: draft.old, digest: draft.from, record: draft.base };
    if (draft) start = draft.old === null || found === undefined ? before : found;
    told.textContent = [words, draft ? "" : anew(found)].filter(Boolean).join(" ");
    prompted();
    form.dataset.begun = "";
  }
  begin();
})();
