// What a page says of itself on paper: where it stands, of which date, and a QR code that leads there.
"use strict";

(() => {
  const { filled, make } = SpanbookPieces;
  const inside = document.querySelector(".sb-page");
  if (!inside) return;
  const foot = make("div", "", { className: "sb-paper" });
  const line = make("p");
  const CARRIED = ["serial", "q", "want", "have", "unknown"]; // what of an address makes a page another one
  const QUIET = 4; // modules of light around a code

  function address() {
    const canonical = document.querySelector("link[rel=canonical]")?.href;
    const whole = document.querySelector("[data-piece-of]")?.dataset.pieceOf;
    if (canonical && whole) return new URL(whole, canonical).href;
    const page = canonical ?? (location.protocol.startsWith("http") ? location.href.split(/[?#]/)[0] : "");
    const asked = new URLSearchParams(location.search);
    const carried = new URLSearchParams(CARRIED.flatMap((name) => asked.getAll(name).map((value) => [name, value])));
    return page && (carried.size ? `${page}?${carried}` : page);
  }

  // Dark modules beside one another are one stroke.
  function drawn(rows) {
    const size = rows.length + 2 * QUIET;
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    const runs = rows.flatMap((row, y) => [...row.join("").matchAll(/1+/g)].map((run) => `M${run.index + QUIET} ${y + QUIET}h${run[0].length}v1h-${run[0].length}z`));
    path.setAttribute("d", runs.join(""));
    svg.setAttribute("viewBox", `0 0 ${size} ${size}`);
    svg.setAttribute("aria-hidden", "true");
    svg.setAttribute("class", "sb-qr");
    svg.append(path);
    return svg;
  }

  function write() {
    const at = address();
    const date = new Date();
    const day = [date.getFullYear(), date.getMonth() + 1, date.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
    const release = document.querySelector("[data-release]")?.dataset.release;
    const printed = filled(_("printed {}"), day);
    line.textContent = [at, release, printed].filter(Boolean).join(" · ");
    document.querySelector(".sb-qr")?.remove();
    const rows = at ? SpanbookQr.made(at) : null;
    if (rows) (document.querySelector(".sb-card") ?? inside).prepend(drawn(rows));
  }

  // A card for the pocket is laid out otherwise, that one time, with all that is renewed.
  document.querySelector("[data-pocket]")?.addEventListener("click", async () => {
    const renewing = document.querySelector("[data-renew]");
    if (!renewing.hidden && !renewing.dataset.done) {
      const told = new Promise((resolve) => { renewing.addEventListener("told", resolve, { once: true }); });
      renewing.querySelector("summary").click();
      await told;
    }
    document.documentElement.dataset.paper = "pocket";
    print();
  });

  // Before the theme opens everything: what nobody unfolded is known by that.
  addEventListener("beforeprint", () => {
    for (const box of document.querySelectorAll(".sb-drawn:not([open])")) box.dataset.folded = "";
  }, { capture: true });
  addEventListener("afterprint", () => {
    for (const box of document.querySelectorAll(".sb-drawn[data-folded]")) delete box.dataset.folded;
  });
  foot.append(line);
  inside.append(foot);
  addEventListener("beforeprint", write);
  addEventListener("afterprint", () => { delete document.documentElement.dataset.paper; });
})();
