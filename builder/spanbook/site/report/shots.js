// The pictures of one place: taken or chosen, made smaller at once, kept on this device, each with its words.
"use strict";

const SpanbookShots = (() => {
  const SHOWN = 160; // pixels of a small one
  const { filled, make } = SpanbookPieces;

  function chooser(words, of, then) {
    const label = make("label", words, { className: "sb-tap" });
    const input = make("input", "", { type: "file", accept: "image/*" });
    for (const [name, value] of Object.entries(of)) input.setAttribute(name, value);
    input.addEventListener("change", async () => { await then([...input.files]); input.value = ""; });
    label.append(input);
    return label;
  }

  // `of` has the pictures of a place as its report keeps them; page: { words, key, changed, unshelved }, `shows` makes
  // the first words of a new one.
  function box(of, shows, page) {
    const { words } = page;
    const list = make("div", "", { className: "sb-shots" });
    const status = make("span", "", { className: "sb-quiet" });
    status.setAttribute("role", "status");

    async function show(one) {
      const item = make("div", "", { className: "sb-shot" });
      const label = make("label", `${words.shows} `);
      const said = make("input", "", { value: one.shows, maxLength: 200 });
      said.addEventListener("input", () => { one.shows = said.value; page.changed(); });
      label.append(said);
      const drop = make("button", words.drop, { type: "button" });
      drop.addEventListener("click", () => {
        of.splice(of.indexOf(one), 1);
        item.remove();
        SpanbookShelf.drop(page.key(one.id));
        page.changed();
      });
      item.append(label, drop);
      list.append(item);
      const bytes = await SpanbookShelf.get(page.key(one.id));
      if (bytes) item.prepend(await SpanbookPicture.small(bytes, SHOWN));
      else item.prepend(make("strong", words.lost));
    }

    async function take(files) {
      for (const file of files) {
        status.textContent = words.busy;
        try {
          const bytes = await SpanbookPicture.anew(file);
          const one = { id: crypto.getRandomValues(new Uint32Array(2)).join("-"), shows: shows() };
          if (!(await SpanbookShelf.put(page.key(one.id), bytes))) page.unshelved();
          of.push(one);
          await show(one);
          page.changed();
          status.textContent = "";
        } catch (error) {
          status.textContent = filled(words[error.message] ?? words.unreadable, file.name);
        }
      }
    }

    const taps = make("div", "", { className: "sb-taps" });
    taps.append(chooser(words.camera, { capture: "environment" }, take), chooser(words.device, { multiple: "" }, take), status);
    const whole = make("div");
    whole.append(taps, list);
    of.forEach(show);
    return whole;
  }

  return { box };
})();
