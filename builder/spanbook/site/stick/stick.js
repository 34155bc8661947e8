// From a folder on a stick nobody turns a folder's address into its index: links are completed here.
"use strict";

(() => {
  if (location.protocol !== "file:") return;
  const complete = (link) => {
    const to = new URL(link.href);
    if (to.protocol === "file:" && to.pathname.endsWith("/")) {
      to.pathname += "index.html";
      link.href = to.href;
    }
  };
  // Before the click, so that opening in another tab and a script's own use of the address go right too.
  for (const event of ["pointerdown", "focusin"]) {
    document.addEventListener(event, ({ target }) => {
      const link = target.closest?.("a[href]");
      if (link) complete(link);
    });
  }
  document.addEventListener("submit", ({ target }) => {
    if (target.action.endsWith("/")) target.action += "index.html";
  }, true);
})();
