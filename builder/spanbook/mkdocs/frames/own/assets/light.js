// Dark or light: as the device has it, or as the reader chose on this site.
(function () {
  "use strict";

  var root = document.documentElement;
  var KEY = "spanbook-light";

  function kept(light) {
    try {
      if (light) localStorage.setItem(KEY, light);
      return localStorage.getItem(KEY);
    } catch (_) {
      return light; // a browser that keeps nothing: it holds for this page
    }
  }

  function show(light) {
    if (light) root.dataset.light = light;
    var night = light ? light === "night" : matchMedia("(prefers-color-scheme: dark)").matches;
    document.querySelectorAll("button[data-light]").forEach(function (button) {
      button.hidden = (button.dataset.light === "night") === night;
    });
  }

  show(kept());
  document.addEventListener("DOMContentLoaded", function () {
    show(root.dataset.light);
    document.querySelectorAll("button[data-light]").forEach(function (button) {
      button.addEventListener("click", function () {
        show(kept(button.dataset.light));
        document.querySelector("button[data-light]:not([hidden])").focus();
      });
    });
  });
})();
