// What the pages' own scripts make their answers of: elements, links and sentences, and runs of numbers.
"use strict";

const SpanbookPieces = (() => {
  const make = (tag, words = "", of = {}) => Object.assign(document.createElement(tag), { textContent: words, ...of });
  const inside = ([first, last], number) => first <= number && (last === null || number <= last);
  const filled = (sentence, ...values) => values.reduce((text, value) => text.replace("{}", () => value), sentence);

  // The form of a sentence that a count asks for, by the language's own categories, with the count in it.
  const categories = new Intl.PluralRules("LANGUAGE-OF-THE-PAGES");
  const counted = (forms, count) => filled(forms[categories.select(count)] ?? forms.other, count);

  // Links and sentences of a page that stands so many folders below `root`. From a folder on a stick nobody turns
  // a folder's address into its index.
  function linking(root) {
    function link(words, address, query = "") {
      const [path, anchor] = address.split("#");
      const file = location.protocol === "file:" ? "index.html" : "";
      return make("a", words, { href: root + path + file + query + (anchor ? `#${anchor}` : "") });
    }

    // Text, and pairs of text and address where it leads on.
    function sentence(tag, said, before = "") {
      const line = make(tag, before);
      line.append(...said.map((one) => (typeof one === "string" ? one : link(one[0], one[1]))));
      return line;
    }

    return { link, sentence };
  }

  return { counted, filled, inside, linking, make };
})();
