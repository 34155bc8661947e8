// Asks what is served now, is answered when that is something else, and then loads the page anew. Where the policy of
// a page forbids such a request, a script is asked for once a second, as every page lets the site's own scripts run.
(() => {
  "use strict";
  const { state } = document.currentScript.dataset;
  let asking = null;
  window.spanbookServes = (now) => {
    if (now !== state) location.reload();
  };
  const script = () => {
    const one = document.createElement("script");
    one.src = `/.spanbook-serve/state.js?${Date.now()}`;
    one.onload = one.onerror = () => one.remove();
    document.head.append(one);
  };
  const ask = async () => {
    if (asking || document.visibilityState !== "visible") return;
    asking = new AbortController();
    try {
      const answer = await fetch(`/.spanbook-serve/state?after=${state}`, { signal: asking.signal, cache: "no-store" });
      window.spanbookServes(await answer.text());
    } catch {
      if (!asking.signal.aborted) {
        script();
        await new Promise((done) => setTimeout(done, 1000));
      }
    }
    asking = null;
    ask();
  };
  // A page that nobody sees keeps no line to the server busy: a browser has six.
  document.addEventListener("visibilitychange", () => (document.visibilityState === "visible" ? ask() : asking?.abort()));
  window.addEventListener("pagehide", () => asking?.abort());
  ask();
})();
