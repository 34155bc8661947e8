// The pages that words find, by their numbers: the twin of pages.py, held to it by the tests.
"use strict";

const SpanbookPages = (() => {
  // The names of the blocks, and where each begins and the last one ends, once the directory is here.
  let known = null;
  const ready = async () => (known ??= begun(await spanbookLoad("page") ?? []));

  function begun(directory) {
    const names = directory.filter((_, i) => i % 2 === 0);
    const firsts = [0];
    names.forEach((_, i) => firsts.push(firsts[i] + directory[2 * i + 1]));
    return { names, firsts, begins: new Map(names.map((name, i) => [name, firsts[i]])) };
  }

  // What `told` of pages.py has made of numbers: steps, and names of blocks, where the steps begin anew.
  function numbers(told) {
    let at = 0;
    return told.flatMap((one) => {
      at = typeof one === "string" ? known.begins.get(one) : at + one;
      return typeof one === "string" ? [] : [at];
    });
  }

  const blockOf = (page) => known.firsts.findIndex((first) => first > page) - 1;
  const load = (page) => spanbookLoad(`page-${known.names[blockOf(page)]}`);
  const of = async (page) => rows(await load(page))[page - known.firsts[blockOf(page)]];

  // The pages of a block: [title, sort, address, the address of a small picture if there is one]; a sort holds until the next.
  function rows([titles, addresses, pictures = {}]) {
    const names = spanbookDecoded(titles);
    let sort = "";
    return spanbookDecoded(addresses).map(([address, other], i) => [names[i][0], (sort = other ?? sort), address, ...(pictures[i] ? [pictures[i]] : [])]);
  }

  return { load, numbers, of, ready };
})();
