// What is told elsewhere of a page, or of one statement on it: its own words, its address, the state of the records.
"use strict";

(() => {
  const home = document.querySelector(".sb-foot");
  if (!home || !document.querySelector(".sb-head .sb-sort")) return; // a list has nothing of its own to tell
  const SPELLINGS = [["plain", _("plain text")], ["markdown", "Markdown"], ["bbcode", "BBCode"], ["cite", _("a reference")]];
  const box = SpanbookCopies.box(SPELLINGS, _("Text to tell others"));
  box.dataset.share = "";
  const flat = (text) => text.replace(/\s+/g, " ").trim();
  const read = (selector) => flat(document.querySelector(selector)?.textContent ?? "");

  // The words that can be seen; what opens on demand stays behind, and so do the link to the statement itself and
  // letters that mean something beside a strip only.
  function seen(part) {
    const here = [...part.querySelectorAll(".sb-here, .sb-key-letter")];
    here.forEach((link) => { link.hidden = true; });
    const words = flat(part.innerText);
    here.forEach((link) => { link.hidden = false; });
    return words;
  }

  function statement() {
    const id = decodeURIComponent(location.hash.slice(1));
    const at = id ? document.getElementById(id) : null;
    return at?.querySelector(":scope .sb-here") ? at : null;
  }

  function told(at) {
    if (!at) return read(".sb-answer");
    if (!at.cells) return seen(at);
    const cells = [...at.cells].filter((cell) => seen(cell));
    const words = cells.map((cell) => (cell.dataset.head ? cell.dataset.head + _(": ") + seen(cell) : seen(cell)));
    const of = at.closest("[data-of]")?.dataset.of;
    return [...(of ? [of] : []), ...words].join(_("; "));
  }

  const { escaped } = SpanbookCopies;

  function spellings() {
    const at = statement();
    const own = document.querySelector("link[rel=canonical]")?.href ?? location.href.split("#")[0];
    // A piece of a long page is told of by the page, which leads to it wherever it stands.
    const whole = new URL(home.dataset.pieceOf ?? "", own).href;
    const address = at ? `${whole.split("#")[0]}#${encodeURIComponent(at.id)}` : whole;
    const title = read("h1");
    const words = told(at);
    const state = [read("[data-as-of]"), home.dataset.release].filter(Boolean).join(" ");
    // As a list of references has it: of what, where, which state and day of it, and the address.
    const cite = [`${title}${at ? `, ${words}` : ""}`, document.querySelector("meta[property='og:site_name']").content, [home.dataset.release, "DAY-OF-THE-RECORDS"].filter(Boolean).join(", "), address];
    return {
      cite: `${cite.filter(Boolean).join(". ")}`,
      plain: `${title}\n${words}\n${address}\n${state}`,
      markdown: `**[${escaped(title)}](${address})**\n\n${escaped(words)}\n\n*${escaped(state)}*`,
      bbcode: `[b][url=${address}]${title}[/url][/b]\n${words}\n[i]${state}[/i]`,
    };
  }

  // The box stands under the statement that the address leads to, and else at the foot of the page.
  function place() {
    const at = statement();
    const around = at?.closest(".sb-wide, ul, dl") ?? at;
    if (around) around.after(box);
    else home.prepend(box);
    box.querySelector("p").textContent = at ? _("To tell others of this line, copy it as") : _("To tell others, copy what stands here as");
    box.querySelector("textarea").hidden = true;
    box.querySelector("[role=status]").textContent = "";
  }

  place();
  SpanbookCopies.attach(box, spellings);
  addEventListener("hashchange", place);
})();
