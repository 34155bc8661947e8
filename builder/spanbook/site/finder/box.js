// The finder's box: the combobox pattern of WAI-ARIA, over a form that works without a script.
"use strict";

(() => {
  const PAUSE = 120; // milliseconds after the last key before asking
  const DIRECTORIES = ["series", "number", "word", "page"]; // what every query begins with

  function attach(form, number) {
    const input = form.querySelector("input");
    const root = form.dataset.root;
    const list = document.createElement("ul");
    const told = document.createElement("p");
    let found = null; // what was found last
    let active = -1;
    let asked = 0;
    let timer = 0;

    list.id = `sb-finder-list-${number}`;
    list.className = "sb-finder-list";
    list.setAttribute("role", "listbox");
    list.setAttribute("aria-label", input.getAttribute("aria-label"));
    list.hidden = true;
    told.className = "sb-unseen";
    told.setAttribute("role", "status");
    form.append(list, told);
    for (const [name, value] of [["role", "combobox"], ["aria-autocomplete", "list"], ["aria-expanded", "false"], ["aria-controls", list.id]]) {
      input.setAttribute(name, value);
    }

    const linked = () => [...list.querySelectorAll("[role=option]")];

    function close() {
      list.hidden = true;
      input.setAttribute("aria-expanded", "false");
      input.removeAttribute("aria-activedescendant");
      active = -1;
    }

    // An emptied box remembers nothing.
    function forget() {
      close();
      list.replaceChildren();
      told.textContent = "";
      found = null;
      delete form.dataset.answered;
    }

    function mark(next) {
      const options = linked();
      options.forEach((option, i) => option.setAttribute("aria-selected", String(i === next)));
      active = next;
      if (next < 0) { input.removeAttribute("aria-activedescendant"); return; }
      input.setAttribute("aria-activedescendant", options[next].id);
      options[next].scrollIntoView({ block: "nearest" });
    }

    // The line itself is the option: a link inside one would be nobody's to reach.
    function option(row, i) {
      const item = document.createElement("li");
      const [line] = SpanbookFind.line(root, row);
      item.setAttribute("role", "none");
      line.id = `${list.id}-${i}`;
      line.tabIndex = -1;
      line.setAttribute("role", "option");
      line.setAttribute(...(line.href ? ["aria-selected", "false"] : ["aria-disabled", "true"]));
      item.append(line);
      return item;
    }

    function go(href) {
      SpanbookFind.remember(href);
      location.assign(SpanbookStick.led(href));
    }

    async function ask() {
      clearTimeout(timer);
      const query = input.value;
      const mine = asked += 1;
      if (!query.trim()) { forget(); return; }
      const answer = await SpanbookFind.answer(query);
      if (mine !== asked) return; // a later question has been asked meanwhile
      found = answer;
      list.replaceChildren(...(found ? SpanbookFind.listed(found, query) : [[SpanbookFind.FAILED, "", ""]]).map(option));
      list.hidden = false;
      input.setAttribute("aria-expanded", "true");
      mark(-1);
      told.textContent = found ? SpanbookFind.inBox(found) : SpanbookFind.FAILED;
      form.dataset.answered = query;
    }

    input.addEventListener("input", () => {
      clearTimeout(timer);
      if (input.value.trim()) timer = setTimeout(ask, PAUSE);
      else ask();
    });
    input.addEventListener("focus", () => { DIRECTORIES.forEach((name) => spanbookLoad(name)); if (input.value && list.hidden) ask(); });
    input.addEventListener("keydown", (event) => {
      const last = linked().length - 1;
      const steps = { ArrowDown: active >= last ? 0 : active + 1, ArrowUp: active <= 0 ? last : active - 1 };
      if (event.key in steps && !list.hidden && last >= 0) { event.preventDefault(); mark(steps[event.key]); }
      else if (event.key === "ArrowDown" && list.hidden) { event.preventDefault(); ask(); }
      else if (event.key === "Escape") { if (list.hidden) { input.value = ""; forget(); } else close(); }
    });
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      const query = input.value;
      if (!query.trim()) return;
      const chosen = active >= 0 && form.dataset.answered === query ? linked()[active] : null;
      if (chosen?.href) { go(chosen.href); return; }
      if (form.dataset.answered !== query) await ask();
      // Where it is not clear what was meant, the page of results has all of it.
      const only = form.dataset.answered === query && found ? SpanbookFind.meant(found.rows) : null;
      go(only ? SpanbookFind.target(root, only[2]) : SpanbookFind.page(root, query));
    });
    document.addEventListener("click", (event) => { if (!form.contains(event.target)) close(); });
    // What was typed before this script had come is answered now.
    if (input.value.trim() && document.activeElement === input) ask();
  }

  document.querySelectorAll("form[data-finder]").forEach(attach);
})();
