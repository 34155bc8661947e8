// Points placed on the picture itself: by a tap, a drag or the arrow keys. The picture never leaves the device.
"use strict";

const spanbookPoints = (() => {
  const ALL = 1000; // of the upright picture's width and height
  const STEP = 5;
  const FAR = 25; // with Shift
  const WIDTHS = [960, 480, 160]; // of the site's own versions of a photograph
  const MOVES = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  const within = (share) => Math.min(ALL, Math.max(0, Math.round(share)));

  function attach(field, root) {
    const aid = document.getElementById("sb-placing").content.firstElementChild.cloneNode(true);
    const [chosen, plate] = ["input", "[data-plate]"].map((wanted) => aid.querySelector(wanted));
    const image = document.createElement("img");
    image.alt = plate.dataset.plate;
    plate.append(image);
    const items = field.querySelector(":scope > [data-items]");
    const file = field.parentElement.closest("[data-item]").querySelector("[data-key=file] input");
    const at = (item, key) => item.querySelector(`[data-key=${key}] input`);
    const markers = () => [...plate.querySelectorAll("button")];
    field.querySelector(":scope > [data-items]").before(aid);

    // Where a point is; null while that is no place.
    function place(item) {
      const both = ["x", "y"].map((key) => at(item, key).value.trim());
      return both.every((text) => /^[0-9]{1,4}$/.test(text) && Number(text) <= ALL) ? both.map(Number) : null;
    }

    function put(item, x, y) {
      at(item, "x").value = within(x);
      at(item, "y").value = within(y);
      at(item, "y").dispatchEvent(new Event("input", { bubbles: true }));
    }

    function draw() {
      const all = [...items.children];
      while (markers().length > all.length) markers().pop().remove();
      all.forEach((item, i) => {
        const marker = markers()[i] ?? made();
        const where = place(item);
        marker.hidden = !where;
        if (!where) return;
        const called = ["number", "shows"].map((key) => at(item, key)?.value.trim()).filter(Boolean);
        marker.textContent = i + 1;
        marker.setAttribute("aria-label", [`${i + 1}`, ...called, SpanbookPieces.filled(_("{} across, {} down"), ...where)].join(", "));
        marker.style.left = `${where[0] / 10}%`;
        marker.style.top = `${where[1] / 10}%`;
      });
    }

    function made() {
      const marker = document.createElement("button");
      marker.type = "button";
      plate.append(marker);
      return marker;
    }

    // Where a finger is, in thousandths of the picture.
    function under({ clientX, clientY }) {
      const box = image.getBoundingClientRect();
      return [(clientX - box.left) / box.width, (clientY - box.top) / box.height].map((share) => share * ALL);
    }

    const itemOf = (marker) => items.children[markers().indexOf(marker)];

    function show(address, others = []) {
      image.onload = () => { plate.hidden = false; draw(); };
      image.onerror = () => { plate.hidden = true; if (others.length) show(others[0], others.slice(1)); };
      image.src = address;
    }

    // A picture that the site has already need not be chosen.
    function known() {
      const name = file.value.trim();
      if (chosen.files.length || !/^[a-z0-9/-]+\.[a-z]+$/.test(name)) return;
      const small = (width) => `${root}photographs/${name.replace(".", "-")}-${width}.webp`;
      const [first, ...others] = name.endsWith(".svg") ? [`${root}drawings/${name}`] : WIDTHS.map(small);
      if (image.getAttribute("src") !== first) show(first, others);
    }

    chosen.addEventListener("change", () => {
      const reader = new FileReader();
      reader.onload = () => show(reader.result);
      if (chosen.files.length) reader.readAsDataURL(chosen.files[0]);
    });
    file.addEventListener("change", known);
    image.addEventListener("click", (event) => {
      const [where, top] = [under(event), window.scrollY]; // the new fields take the focus, and the page moves
      field.querySelector(":scope > [data-add]").click();
      put(items.lastElementChild, ...where);
      draw();
      markers().at(-1).focus({ preventScroll: true });
      window.scrollTo({ top, behavior: "instant" });
    });
    plate.addEventListener("pointerdown", (event) => {
      const marker = event.target.closest("button");
      if (!marker) return;
      marker.setPointerCapture(event.pointerId);
      marker.onpointermove = (moved) => { put(itemOf(marker), ...under(moved)); draw(); };
      marker.onpointerup = marker.onpointercancel = () => { marker.onpointermove = null; };
    });
    plate.addEventListener("dragstart", (event) => event.preventDefault()); // or the browser drags the picture
    plate.addEventListener("keydown", (event) => {
      const move = MOVES[event.key];
      const marker = event.target.closest("button");
      if (!move || !marker) return;
      event.preventDefault();
      const [x, y] = place(itemOf(marker));
      const step = event.shiftKey ? FAR : STEP;
      put(itemOf(marker), x + move[0] * step, y + move[1] * step);
      draw();
    });
    field.addEventListener("input", draw);
    new MutationObserver(() => {
      // A point that was added without a finger begins in the middle.
      if (!plate.hidden) [...items.children].forEach((item) => { if (!at(item, "x").value && !at(item, "y").value) put(item, ALL / 2, ALL / 2); });
      known();
      draw();
    }).observe(items, { childList: true });
  }

  return (place) => {
    const { root } = place.closest("[data-form]").dataset;
    place.querySelectorAll("[data-key=points]:not([data-placing])").forEach((field) => {
      field.dataset.placing = "";
      attach(field, root);
    });
  };
})();
