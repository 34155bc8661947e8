// Which pages words find, from the tables: the twin of answers/by_words.py, held to it by the tests.
"use strict";

const SpanbookWords = (() => {
  const SHORTEST_WORD = 2;
  const SHORTEST_MISSPELT = 4;
  const MOST_COMPLETIONS = 60;
  const { oneEdit, words } = SpanbookMatching;
  const { numbers } = SpanbookPages;

  const askedWords = (text) => words(text).filter((word) => [...word].length >= SHORTEST_WORD);
  const united = (sets) => new Set(sets.flatMap((set) => [...set]));
  const common = ([first, ...others]) => new Set([...first].filter((page) => others.every((set) => set.has(page))));
  // An entry of the table of words: the pages that have it in strong text, in prose, as their name.
  const strong = ([first]) => numbers(first);
  const every = ([first, second]) => [...numbers(first), ...numbers(second)];

  const begun = (word) => spanbookBeginning("word", word, MOST_COMPLETIONS);

  // The pages that hold all words, the best first: by what words begin with, or are near.
  async function graded(asked, near) {
    const [each] = await Promise.all([Promise.all(asked.map(async (word) => [...await begun(word), ...near.get(word) ?? []])), SpanbookPages.ready()]);
    const whole = each.map((found, i) => found.filter(([key]) => key === asked[i]).map(([, held]) => held));
    const held = each.map((found) => found.map(([, one]) => one));
    return [
      united(asked.length === 1 ? whole[0].map(([, , name]) => numbers(name ?? [])) : []),
      common(whole.map((one) => united(one.map(strong)))),
      common(held.map((one) => united(one.map(strong)))),
      common(whole.map((one) => united(one.map(every)))),
      common(held.map((one) => united(one.map(every)))),
    ];
  }

  async function found(asked, near = new Map()) {
    const ways = asked.length > 1 ? [asked, [asked.join("")]] : [asked];
    const [apart, joined] = await Promise.all(ways.map((way) => graded(way, near)));
    const grades = joined ? apart.map((one, i) => united([one, joined[i]])) : apart;
    const pages = united(grades.map((grade) => [...grade].sort((a, b) => a - b)));
    return { pages: [...pages], named: grades[0].size, taken: [] };
  }

  async function find(text) {
    const asked = askedWords(text);
    return asked.length ? found(asked) : { pages: [], named: 0, taken: [] };
  }

  // The words within one edit: of one edit either the first half of a word is left as it is, or the second, or the
  // two letters between them are changed about.
  async function within(word) {
    const letters = [...word];
    if (letters.length < SHORTEST_MISSPELT || /\p{Nd}/u.test(word)) return [];
    const half = Math.floor(letters.length / 2);
    const end = letters.slice(half).reverse().join("");
    const turned = [...letters.slice(0, half - 1), letters[half], letters[half - 1], ...letters.slice(half + 1)].join("");
    const [first, backwards] = await Promise.all([spanbookBeginning("word", letters.slice(0, half).join("")), spanbookBeginning("back", end)]);
    const seen = new Map(first.filter(([key]) => oneEdit(word, key)));
    const last = backwards.map(([key]) => [...key].reverse().join(""));
    const others = [...last, turned].filter((key) => !seen.has(key) && oneEdit(word, key));
    for (const those of await Promise.all(others.map((key) => spanbookBeginning("word", key, 1)))) {
      for (const [key, held] of those) if (others.includes(key)) seen.set(key, held);
    }
    return [...seen].sort(([a], [b]) => (a < b ? -1 : 1));
  }

  // The same, with words within one edit of those with which nothing begins.
  async function near(text) {
    const asked = askedWords(text);
    const close = await Promise.all(asked.map(async (word) => [word, (await begun(word)).length ? [] : await within(word)]));
    const others = new Map(close.filter(([, like]) => like.length));
    if (!others.size) return { pages: [], named: 0, taken: [] };
    const made = await found(asked, others);
    return { ...made, taken: made.pages.length ? [...others].map(([word, like]) => [word, like.map(([key]) => key)]) : [] };
  }

  return { find, near };
})();
