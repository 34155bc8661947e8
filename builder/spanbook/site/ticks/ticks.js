// Steps that were done stay ticked on this device, until somebody unticks them all.
"use strict";

(() => {
  const list = document.querySelector("[data-ticks]");
  if (!list) return;
  // Of each machine they are kept apart.
  const machine = (new URLSearchParams(location.search).get("serial") ?? "").trim().toUpperCase();
  const key = `spanbook-ticks:${location.pathname}${machine && `?${machine}`}`;
  // A browser may refuse to keep anything: then ticks last as long as the page is open.
  const kept = () => {
    try {
      return new Set(JSON.parse(localStorage.getItem(key) ?? "[]"));
    } catch {
      return new Set();
    }
  };
  const keep = (ids) => {
    try {
      if (ids.size) localStorage.setItem(key, JSON.stringify([...ids]));
      else localStorage.removeItem(key);
    } catch { /* nothing can be kept */ }
  };
  const done = kept();
  const boxes = [...list.children].map((step) => {
    const box = document.createElement("input");
    box.type = "checkbox";
    box.className = "sb-tick";
    box.checked = done.has(step.id);
    box.setAttribute("aria-labelledby", step.querySelector("strong").id);
    box.addEventListener("change", () => {
      done[box.checked ? "add" : "delete"](step.id);
      keep(done);
    });
    step.prepend(box);
    return box;
  });
  const clear = document.createElement("button");
  clear.type = "button";
  clear.className = "sb-untick";
  clear.textContent = list.dataset.ticks;
  clear.addEventListener("click", () => {
    done.clear();
    keep(done);
    for (const box of boxes) box.checked = false;
    boxes[0]?.focus();
  });
  list.after(clear);
})();
