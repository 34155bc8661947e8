// Buttons that copy a text in one of several spellings; what the browser keeps from the clipboard is selected.
"use strict";

const SpanbookCopies = (() => {
  // `spellings` gives the texts by the buttons' values, made when a button is pressed.
  function attach(box, spellings) {
    const text = box.querySelector("textarea");
    const status = box.querySelector("[role=status]");
    box.hidden = false;
    box.querySelectorAll("button[value]").forEach((button) => {
      button.onclick = async () => {
        text.value = spellings()[button.value];
        text.hidden = false;
        text.select();
        try {
          await navigator.clipboard.writeText(text.value);
          status.textContent = box.dataset.copied;
        } catch {
          status.textContent = box.dataset.select;
        }
      };
    });
  }

  // A text as Markdown takes it for no mark of its own.
  const escaped = (text) => text.replace(/[\\\x60*_[\]<>|]/g, "\\$&");

  return { attach, escaped };
})();
