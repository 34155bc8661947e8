// Pickers: a short list stands in the page; a long one is whatever the finder has of a folder.
"use strict";

const spanbookPick = (() => {
  const PAUSE = 150;
  const MOST = 40;
  let made = 0;

  function options(list, found) {
    list.replaceChildren(...found.map(([value, label]) => {
      const option = document.createElement("option");
      option.value = value;
      option.textContent = label;
      return option;
    }));
  }

  // What the finder has of some folders for a text: [value, label].
  async function found(folders, text) {
    const rows = (await SpanbookRead.rows(text)) ?? [];
    const mine = rows.filter(([, , address]) => folders.some((folder) => address.startsWith(folder)));
    if (folders.includes("parts/")) return mine.map(([title, detail]) => [title, detail]).slice(0, MOST);
    return mine.map(([title, , address]) => [address.split("/")[1], title]).slice(0, MOST);
  }

  function attach(input) {
    const from = input.dataset.pick;
    if (!from.endsWith("/")) { input.setAttribute("list", `pick-${from}`); return; }
    const list = document.createElement("datalist");
    list.id = `pick-found-${made += 1}`;
    input.after(list);
    input.setAttribute("list", list.id);
    let timer = 0;
    input.addEventListener("input", () => {
      clearTimeout(timer);
      timer = setTimeout(async () => {
        const text = input.value.replaceAll("-", " ").trim();
        if (text.length > 1) options(list, await found(from.split(" "), from === "parts/" ? input.value : text));
      }, PAUSE);
    });
  }

  return (place) => place.querySelectorAll("[data-pick]:not([list])").forEach(attach);
})();
