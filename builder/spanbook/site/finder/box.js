// The finder's box: the combobox pattern of WAI-ARIA, over a form that works without a script.
"use strict";

(() => {
  const PAUSE = 120; // milliseconds after the last key before asking

  function attach(form, number) {
    const input = form.querySelector("input");
    const root = form.dataset.root;
    const list = document.createElement("ul");
    const told = document.createElement("p");
    let rows = [];
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

    function mark(next) {
      const options = linked();
      options.forEach((option, i) => option.setAttribute("aria-selected", String(i === next)));
      active = next;
      if (next < 0) { input.removeAttribute("aria-activedescendant"); return; }
      input.setAttribute("aria-activedescendant", options[next].id);
      options[next].scrollIntoView({ block: "nearest" });
    }

    function target(address) {
      // From a folder nobody turns a folder's address into its index.
      const [path, query] = address.split(/(?=[?#])/);
      const file = location.protocol === "file:" && path.endsWith("/") ? "index.html" : "";
      return root + path + file + (query ?? "");
    }

    function option([title, detail, address], i) {
      const item = document.createElement("li");
      const line = document.createElement(address ? "a" : "span");
      const strong = document.createElement("strong");
      strong.textContent = title;
      line.append(strong);
      if (detail) line.append(" ", detail);
      item.append(line);
      if (address) {
        item.id = `${list.id}-${i}`;
        item.setAttribute("role", "option");
        item.setAttribute("aria-selected", "false");
        line.href = target(address);
        line.tabIndex = -1;
      } else {
        item.setAttribute("role", "option");
        item.setAttribute("aria-disabled", "true");
        item.id = `${list.id}-${i}`;
      }
      return item;
    }

    async function ask() {
      const query = input.value;
      const mine = asked += 1;
      if (!query.trim()) { close(); told.textContent = ""; return; }
      const found = await SpanbookRead.rows(query);
      if (mine !== asked) return; // a later question has been asked meanwhile
      rows = found;
      list.replaceChildren(...rows.map(option));
      list.hidden = false;
      input.setAttribute("aria-expanded", "true");
      mark(-1);
      const links = rows.filter(([, , address]) => address).length;
      told.textContent = links ? `${links}` : rows[0][0];
      form.dataset.answered = query;
    }

    input.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(ask, PAUSE); });
    input.addEventListener("focus", () => { spanbookLoad("series"); if (input.value && list.hidden) ask(); });
    input.addEventListener("keydown", (event) => {
      const last = linked().length - 1;
      const steps = { ArrowDown: active >= last ? 0 : active + 1, ArrowUp: active <= 0 ? last : active - 1 };
      if (event.key in steps && !list.hidden && last >= 0) { event.preventDefault(); mark(steps[event.key]); }
      else if (event.key === "ArrowDown" && list.hidden) { event.preventDefault(); ask(); }
      else if (event.key === "Escape") { if (list.hidden) input.value = ""; close(); }
    });
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      if (form.dataset.answered !== input.value) await ask();
      const link = active >= 0 ? linked()[active].querySelector("a") : list.querySelector("a");
      if (link) location.assign(link.href);
    });
    document.addEventListener("click", (event) => { if (!form.contains(event.target)) close(); });
    const query = new URLSearchParams(location.search).get("q");
    if (query && form.dataset.front !== undefined) { input.value = query; ask(); }
  }

  document.querySelectorAll("form[data-finder]").forEach(attach);
})();
