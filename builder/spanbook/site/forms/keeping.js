// Drafts as a person meets them: what is told of them, what was put aside, and what others changed meanwhile.
"use strict";

const spanbookKeeping = (names, fields) => {
  const drafts = spanbookDraft(...names);
  const store = document.querySelector("[data-store]");
  const aside = document.querySelector("[data-aside]");
  const since = document.querySelector("[data-since]");
  const WHY = new Map([
    ["proposed", _("Handed in")],
    ["dropped", _("Left, to begin anew")],
    ["broken", _("No draft that this form can read")],
    ["partly", _("A draft that has more than this form")],
  ]);
  // The digest and the record that the draft in hand holds; what is recorded now counts only when it was looked at.
  let base = null;
  // Why a draft that nobody may write over could not be put aside yet.
  let waiting = null;

  function warn(words) {
    store.textContent = words;
    store.hidden = !words;
  }

  // --- what was put aside

  function button(words, task) {
    const made = Object.assign(document.createElement("button"), { type: "button", textContent: words });
    made.addEventListener("click", task);
    return made;
  }

  function renderAside() {
    const kept = drafts.kept();
    aside.hidden = kept.length === 0;
    aside.querySelector("[data-count]").textContent = kept.length;
    aside.querySelector("ul").replaceChildren(...kept.map(([name, text]) => {
      const [why, when] = name.split(" ");
      const draft = drafts.parsed(text);
      const item = document.createElement("li");
      const shown = Object.assign(document.createElement("pre"), { className: "sb-yaml", tabIndex: 0 });
      shown.textContent = draft ? JSON.stringify(draft.values, null, 1) : text;
      const acts = Object.assign(document.createElement("p"), { className: "sb-actions" });
      if (draft) acts.append(button(_("Bring it back"), () => { const refused = drafts.back(name); if (refused) warn(refused); else location.reload(); }));
      acts.append(button(_("Throw it away"), () => { drafts.drop(name); renderAside(); }));
      item.append(`${WHY.get(why) ?? why}${when ? `, ${when.slice(0, 16).replace("T", " ")} UTC` : ""}`, shown, acts);
      return item;
    }));
  }

  // --- what others changed

  // The same whatever the order of keys, and whether a number was typed or read.
  function canonical(value) {
    if (Array.isArray(value)) return value.map(canonical);
    if (typeof value !== "object" || value === null) return String(value);
    return Object.entries(value).map(([key, below]) => [key, canonical(below)]).sort(([a], [b]) => (a < b ? -1 : 1));
  }
  const alike = (a, b) => JSON.stringify(canonical(a)) === JSON.stringify(canonical(b));

  function changed(before, now) {
    const of = (map, key) => (Object.hasOwn(map, key) ? map[key] : "");
    return [...new Set([...Object.keys(before), ...Object.keys(now)])].filter((key) => !alike(of(before, key), of(now, key)));
  }

  function renderSince(found, answers) {
    const titles = base.record ? fields.titles(changed(base.record, found.record)) : [];
    since.querySelector("strong").textContent = titles.join(", ") || _("the record as a whole");
    since.querySelector("code").textContent = spanbookYaml(found.record, "");
    since.hidden = false;
    since.querySelector("[data-mine]").onclick = () => {
      base = found;
      keep(found, fields.typed());
      since.hidden = true;
      answers.mine();
    };
    since.querySelector("[data-theirs]").onclick = () => {
      moved("dropped");
      answers.theirs();
    };
  }

  // --- the draft

  function keep(start, values) {
    if (waiting) putAside(waiting);
    if (waiting) return;
    const from = base ?? start;
    warn(drafts.keep({ from: from?.digest ?? null, base: from?.record ?? null, old: start?.path ?? null, values }));
  }

  function putAside(why) {
    const refused = drafts.aside(why);
    waiting = refused ? why : null;
    warn(refused);
    renderAside();
  }

  function moved(why) {
    putAside(why);
    base = null;
    since.hidden = true;
  }

  // Fills the form with the draft, if there is one, and says what is to be said of it. `found` is the record as it is
  // now (null: there is none; undefined: nobody can say); `answers` is what follows when others have changed it.
  function resume(found, answers) {
    const { value: text, refused } = drafts.load();
    warn(refused);
    renderAside();
    if (text === null) return { draft: null, words: "" };
    const draft = drafts.parsed(text);
    if (!draft) {
      moved("broken");
      return { draft: null, words: _("A draft kept in this browser could not be read. It is put aside below, as it is.") };
    }
    const left = fields.fill(draft.values);
    const words = [_("What you filled in before, kept in this browser.")];
    base = { digest: draft.from, record: draft.base };
    if (left.length) {
      putAside("partly");
      words.push(SpanbookPieces.filled(_("This form has no place for some of it ({}); the whole draft is put aside below, too."), [...new Set(left)].join(", ")));
      keep(draft.old === null ? null : { path: draft.old }, fields.typed());
    }
    if (found === undefined) words.push(_("The record could not be loaded, so nobody can say whether others have changed it since."));
    if (found === null && draft.old !== null) words.push(_("The record that you began with is no longer here under this name: it was renamed or taken away. Look for it before you hand this in; it would be filed as a new one."));
    // A draft with a beginning and no path was begun anew on the page of a record, and is another one.
    const another = draft.old === null && draft.from !== null;
    if (found && found.digest !== draft.from && !another) {
      const { kind: _, ...now } = found.record;
      if (alike(fields.record(), now)) {
        moved("proposed");
        fields.empty();
        return { draft: null, words: _("What you filled in before is recorded by now.") };
      }
      renderSince(found, answers);
      words.push(unsettled());
    }
    return { draft, words: words.join(" ") };
  }

  const unsettled = () => (since.hidden ? "" : _("Others have changed this record since you began: see what stands above the form."));

  addEventListener("storage", (event) => {
    if (event.key === drafts.place && event.newValue !== null) {
      warn(_("This form is filled in elsewhere as well, in another tab: what is typed last is what is kept."));
    }
  });

  return { keep, resume, unsettled, proposed: () => moved("proposed"), dropped: () => moved("dropped") };
};
