// What to order on one machine, where it goes by the machine: looked up in the table of the part.
"use strict";

(() => {
  const place = document.querySelector("[data-which]");
  if (!place) return;
  const { filled, inside, make } = SpanbookPieces;
  const form = place.querySelector("form");
  const out = place.querySelector("[data-for]");

  async function show(asked) {
    if (!asked) return;
    form.serial.value = asked;
    const [[, all], table] = await Promise.all([spanbookLoad("series"), spanbookLoad(place.dataset.which, "../which/")]);
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    if (found.length === 1) {
      const [[series, number]] = found;
      const [, , at] = table.series[series[0]].find((run) => inside(run, number));
      const [first, ...rest] = table.said[at];
      const answer = make("p", `${filled(table.words.for, SpanbookSerials.show(series, number))} `, { className: "sb-answer" });
      answer.append(make("strong", first));
      out.replaceChildren(answer, ...rest.map((line) => make("p", line)));
    } else out.replaceChildren(make("p", filled(table.words.unread, asked)));
    place.dataset.done = asked;
  }

  form.addEventListener("submit", (event) => {
    event.preventDefault();
    show(form.serial.value.trim());
  });
  form.hidden = false;
  show((new URLSearchParams(location.search).get("serial") ?? SpanbookMine.shown()).trim());
})();
