// Asks once a second what is served now, and loads the page anew when that is something else. By a script
// element, because the pages' policy lets the site's own scripts run and may forbid every other request.
(() => {
  "use strict";
  const { state } = document.currentScript.dataset;
  window.spanbookServes = (now) => {
    if (now !== state) location.reload();
  };
  const ask = () => {
    if (document.visibilityState !== "visible") return;
    const script = document.createElement("script");
    script.src = `/.spanbook-serve/state.js?${Date.now()}`;
    script.onload = script.onerror = () => script.remove();
    document.head.append(script);
  };
  setInterval(ask, 1000);
  document.addEventListener("visibilitychange", ask);
})();
