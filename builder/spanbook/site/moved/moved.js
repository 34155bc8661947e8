// A page that has moved leads on, with whatever stood behind the address.
"use strict";

(() => {
  const link = document.querySelector("[data-moved]");
  if (!link) return;
  const here = new URL(link.href);
  location.replace(here.href + (location.protocol === "file:" ? "index.html" : "") + location.search + location.hash);
})();
