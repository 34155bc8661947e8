// Buttons that copy a text in one of several spellings; what the browser keeps from the clipboard is selected.
"use strict";

const SpanbookCopies = (() => {
  const { make } = SpanbookPieces;

  // A box with a line of words, such a button for each spelling, and what is said of the text, called so.
  function box(buttons, called) {
    const made = make("div", "", { className: "sb-copies" });
    const text = make("textarea", "", { readOnly: true, hidden: true });
    const status = make("span");
    text.setAttribute("aria-label", called);
    status.setAttribute("role", "status");
    const each = buttons.flatMap(([value, words]) => [make("button", words, { type: "button", value }), " "]);
    made.append(make("p"), ...each, status, " ", text);
    return made;
  }

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
          status.textContent = _("Copied.");
        } catch {
          status.textContent = _("Selected: copy it with your browser.");
        }
      };
    });
  }

  // A text as Markdown takes it for no mark of its own.
  const escaped = (text) => text.replace(/[\\\x60*_[\]<>|]/g, "\\$&");

  return { attach, box, escaped };
})();
