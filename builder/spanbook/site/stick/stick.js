// From a folder on a stick nobody turns a folder's address into its index: links are completed here. A copy of one
// machine has not every page: what it has not is led to on the web.
"use strict";

const SpanbookStick = (() => {
  const root = new URL("../../", spanbookHere).href;
  const canonical = document.querySelector("link[rel=canonical]")?.href;
  let held = null; // the files of a copy that has not all; nothing where all are there

  // Where the site stands on the web, by what this page is called there.
  function web() {
    const here = location.href.split(/[?#]/)[0].slice(root.length).replace(/(^|\/)index\.html$/, "$1");
    return canonical?.endsWith(here) ? canonical.slice(0, canonical.length - here.length) : null;
  }

  // Where a link of this page leads from here.
  function led(href) {
    if (location.protocol !== "file:") return href;
    const to = new URL(href, location.href);
    if (to.protocol !== "file:") return href;
    const address = to.href.split(/[?#]/)[0].slice(root.length);
    if (to.pathname.endsWith("/")) to.pathname += "index.html";
    const missing = held && to.href.startsWith(root) && !held.has(decodeURI(to.href.split(/[?#]/)[0].slice(root.length)));
    return missing && web() !== null ? web() + address.replace(/(^|\/)index\.html$/, "$1") + to.search + to.hash : to.href;
  }

  if (location.protocol === "file:") {
    spanbookLoad("held", "../along/").then((list) => { held = list?.length ? new Set(list) : null; });
    // Before the click, so that opening in another tab and a script's own use of the address go right too.
    for (const event of ["pointerdown", "focusin", "click"]) {
      document.addEventListener(event, ({ target }) => {
        const link = target.closest?.("a[href]");
        if (link && link.href !== led(link.href)) link.href = led(link.href);
      }, true);
    }
    document.addEventListener("submit", ({ target }) => {
      if (target.action.endsWith("/")) target.action += "index.html";
    }, true);
  }

  return { led };
})();
