// A page that has moved leads on, with whatever stood behind the address; so does the line of a page that leads to the
// piece of it where what the address names stands now.
"use strict";

(() => {
  function lead() {
    const named = document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const link = document.querySelector("[data-moved]") ?? named?.closest("[data-piece]")?.querySelector("a");
    if (!link) return;
    const here = new URL(link.href);
    location.replace(here.href + (location.protocol === "file:" ? "index.html" : "") + location.search + location.hash);
  }
  lead();
  addEventListener("hashchange", lead);
})();
