// The day of a look: from the calendar, or in words where somebody knows only about when.
"use strict";

const SpanbookWhen = (() => {
  const { filled } = SpanbookPieces;
  const today = SpanbookDates.today();

  // `changed` is given the date as a record has it, or "" where it reads as none.
  function attach(part, words, changed) {
    const [day, rough, about] = ["date", "rough", "about"].map(part);
    const plainly = about.textContent;
    const inWords = () => !part("rough-label").hidden;
    const field = () => (inWords() ? rough : day);

    function turn(is) {
      part("rough-label").hidden = !is;
      part("day-label").hidden = is;
      about.textContent = is ? about.dataset.about : plainly;
    }

    function read() {
      const text = field().value;
      const date = inWords() ? SpanbookDates.read(text) : text;
      const said = date ? filled(words["read-as"], date.replace("~", words.about)) : words["date-unread"];
      part("when").textContent = inWords() && text.trim() ? said : "";
      changed(date);
    }

    function show(date) {
      const plain = !date || /^[0-9]{4}-[0-9]{2}-[0-9]{2}$/.test(date);
      turn(!plain);
      field().value = date;
    }

    day.max = today;
    day.addEventListener("input", read);
    rough.addEventListener("input", read);
    about.addEventListener("click", () => { turn(!inWords()); read(); field().focus(); });
    return { field, show };
  }

  return { attach, today };
})();
