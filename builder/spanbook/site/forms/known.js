// Whatever a field names is looked up while it is typed: what it is here, or that nobody knows it, and what may be meant.
"use strict";

const spanbookKnown = (() => {
  const PAUSE = 250;
  const MOST = 3;
  const BLOCKS = 64;
  const block = (id) => [...id].reduce((at, c) => (at * 31 + c.codePointAt(0)) % BLOCKS, 0);

  // A record of a kind by its id, as it is on the site now; null where there is none, undefined where that cannot be told.
  async function recorded(kind, id) {
    const kinds = await spanbookLoad("records-kinds", "records/");
    if (!kinds) return undefined;
    const at = block(id);
    if (!kinds[kind]?.[1].includes(at)) return null;
    const table = await spanbookLoad(`records-${kind}-${at}`, "records/");
    if (!table) return undefined;
    return Object.hasOwn(table, id) ? table[id] : null;
  }

  // --- what a text is: { said, wrong, meant: [[value, words]] }; nothing where it cannot be told

  async function serial(text) {
    const found = await SpanbookPlate.read(text, "");
    if (!found) return null;
    const meant = (found.meant ?? []).map((one) => [one, one]);
    if (found.state === "one") return { said: `${found.shown}, ${found.series[3]}.`, meant };
    if (found.state === "may-be") return { said: _n("One of {} machines.", "One of {} machines.", found.count), meant };
    if (found.state === "several") return { said: _("It reads in several series: say which."), meant };
    if (found.state === "two") return { said: _("These are several numbers: give one of them."), wrong: true, meant };
    return { said: found.state === "never" ? _("It was never issued.") : _("It reads as no serial number known here."), wrong: true, meant };
  }

  async function number(text) {
    const rows = await SpanbookRead.rows(text);
    if (!rows) return null;
    const parts = rows.filter(([, , address]) => address.startsWith("parts/"));
    const [sure] = parts.filter(([, , , itself]) => itself);
    if (sure) return { said: `${sure[0]}${_(": ")}${sure[1]}.`, meant: [] };
    return { said: _("No such number is known here yet."), wrong: true, meant: parts.slice(0, MOST).map(([title, words]) => [title, `${title}, ${words}`]) };
  }

  // A record in one of some folders.
  async function record(text, folders) {
    const kinds = await spanbookLoad("records-kinds", "records/");
    if (!kinds) return null;
    for (const [kind, [folder]] of Object.entries(kinds)) {
      if (!folders.includes(`${folder}/`)) continue;
      const found = await recorded(kind, text);
      if (found === undefined) return null;
      if (found) return { said: found.record.title ? `${found.record.title}.` : "", meant: [] };
    }
    const near = await SpanbookRead.rows(text.replaceAll("-", " ")) ?? [];
    const mine = near.filter(([, , address]) => folders.some((folder) => address.startsWith(folder) && address.split("/").length === 3));
    return { said: _("Nothing of this name is recorded here."), wrong: true, meant: mine.slice(0, MOST).map(([title, , address]) => [address.split("/")[1], title]) };
  }

  // One of a list that stands in the page.
  function listed(text, options) {
    const is = options.find(({ value }) => value === text);
    if (is) return { said: is.textContent ? `${is.textContent}.` : "", meant: [] };
    const words = SpanbookMatching.words(text);
    const near = options.filter(({ value, textContent }) => SpanbookMatching.oneEdit(value, text) || words.every((word) => SpanbookMatching.plain(`${value} ${textContent}`).includes(word)));
    return { said: _("Nothing of this name is recorded here."), wrong: true, meant: near.slice(0, MOST).map(({ value, textContent }) => [value, textContent || value]) };
  }

  function told(input, text) {
    const { pick = "" } = input.dataset;
    if (input.closest("[data-key]")?.dataset.key === "serial") return serial(text);
    if (pick === "parts/") return number(text);
    if (pick.endsWith("/")) return record(text, pick.split(" "));
    return listed(text, [...document.querySelectorAll(`#pick-${pick} option`)]);
  }

  // --- in the form

  function attach(input) {
    const out = Object.assign(document.createElement("span"), { className: "sb-known" });
    out.setAttribute("role", "status");
    const line = input.closest(".sb-line");
    if (line) line.append(out);
    else input.closest("label").after(out);
    let timer = 0;

    function offer([value, words]) {
      const made = Object.assign(document.createElement("button"), { type: "button", textContent: words });
      made.addEventListener("click", () => {
        input.value = value;
        input.dispatchEvent(new Event("input", { bubbles: true }));
        input.focus();
      });
      return made;
    }

    async function tell() {
      const text = input.value.trim();
      const found = text ? await told(input, text) : null;
      if (input.value.trim() !== text) return; // typed on meanwhile
      input.toggleAttribute("data-unknown", Boolean(found?.wrong));
      out.replaceChildren(found?.said ?? "");
      out.classList.toggle("sb-wrong", Boolean(found?.wrong));
      if (found?.meant.length) out.append(found.wrong ? ` ${_("Did you mean")} ` : " ", ...found.meant.map(offer));
      input.dataset.lookedUp = text;
    }

    input.dataset.looked = "";
    input.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(tell, PAUSE); });
    if (input.value) tell();
  }

  const within = (place) => place.querySelectorAll(":is([data-pick], [data-key=serial] input):not([data-looked])").forEach(attach);
  return { recorded, within };
})();
