// The reports that this device has: to go on with, to open again, to throw away.
"use strict";

const SpanbookOthers = (() => {
  const { filled, make } = SpanbookPieces;

  // page: { part, words, reports, report, take, key, leave }
  function show(page) {
    const { part, reports, words } = page;

    function button(said, then) {
      const made = make("button", said, { type: "button" });
      made.addEventListener("click", then);
      return made;
    }

    function thrown(id, held) {
      for (const found of Object.values(held?.places ?? {})) for (const one of found.pictures) SpanbookShelf.drop(page.key(one.id, id));
      reports.drop(id);
      if (id === page.report().id) page.leave(); else show(page);
    }

    function line(id, held, text) {
      const item = make("li");
      const here = id === page.report().id;
      const throwAway = button(words.throw, () => {
        if (throwAway.textContent === words.sure) thrown(id, held);
        else throwAway.textContent = words.sure;
      });
      if (!held) item.append(make("span", words.broken), make("pre", text));
      else item.append(`${held.serial || "?"}, ${held.sent ? filled(words.sent, held.sent.at.slice(0, 10)) : words.begun} `);
      if (here) item.append(make("em", words.here), " ");
      else if (held) item.append(button(held.sent ? words.again : words["go-on"], () => page.take(held)), " ");
      item.append(throwAway);
      return item;
    }

    const every = reports.all();
    const box = part("others");
    box.hidden = every.every(([id]) => id === page.report().id && !page.report().sent);
    box.querySelector("ul").replaceChildren(...every.map((one) => line(...one)));
  }

  return { show };
})();
