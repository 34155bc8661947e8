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

  // A button that turns the light, for who has a script; the one that would change nothing is hidden.
  function add(words, light) {
    var button = document.createElement("button");
    button.type = "button";
    button.dataset.light = light;
    button.textContent = words;
    button.addEventListener("click", function () {
      show(kept(light));
      document.querySelector("button[data-light]:not([hidden])").focus();
    });
    document.querySelector(".sb-top > div").append(button);
  }

  show(kept());
  document.addEventListener("DOMContentLoaded", function () {
    add(_("Dark"), "night");
    add(_("Light"), "day");
    show(root.dataset.light);
  });
})();
