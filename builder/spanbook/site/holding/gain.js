// What somebody holds by what is seen: weights added up, and where to look next. A twin of answers/signs/.
"use strict";

const SpanbookHolding = (() => {
  const chance = (weight) => Math.exp(weight / 1000);
  const weight = (share) => Math.round(1000 * Math.log(share));
  const sum = (each) => each.reduce((a, b) => a + b, 0);
  const rounded = (value) => Math.round(value * 1e10) / 1e10;

  function shares(weights) {
    const most = Math.max(...weights);
    const each = weights.map((one) => chance(one - most));
    const total = sum(each);
    return each.map((one) => one / total);
  }

  const bits = (held) => -sum(held.filter((one) => one > 0).map((one) => one * Math.log2(one)));

  // How many bits an answer is expected to tell (Quinlan 1986).
  function gain(held, rows) {
    let told = 0;
    for (const row of rows) {
      const both = held.map((one, i) => one * chance(row[i]));
      const total = sum(both);
      if (total > 0) told += total * bits(both.map((one) => one / total));
    }
    return bits(held) - told;
  }

  // `answers` has the place of an answer by the place of its sign (one past the last: something else); `others` are
  // the rows of a machine, of sizes and of marks.
  function told(key, answers, ...others) {
    const rows = [...[...answers].map(([sign, answer]) => key.signs[sign][6][answer]), ...others.filter(Boolean)];
    const held = shares([...key.things.map((_, i) => i), key.things.length].map((i) => sum(rows.map((row) => row[i]))));
    const likely = held.map((_, i) => i).sort((a, b) => rounded(held[b]) - rounded(held[a]) || a - b);
    const sure = Math.max(0, ...held.slice(0, -1)) >= key["most-sure"];
    const looks = sure ? [] : key.signs
      .map(([, , , , trouble, , weigh], sign) => ({ sign, trouble, gain: answers.has(sign) ? 0 : gain(held, weigh) }))
      .filter((one) => one.gain >= key["least-gain"])
      .sort((a, b) => rounded(b.gain / b.trouble) - rounded(a.gain / a.trouble));
    return { held, likely, looks, alike: alike(key, held, likely) };
  }

  // What is near the likeliest, and no sign parts from it.
  function alike(key, held, [first, ...others]) {
    if (first === key.things.length) return [];
    return others.filter((one) => one < key.things.length && held[one] >= key.near * held[first] && !parted(key, first, one));
  }

  // Whether a sign is recorded of both, and its answers are never the same.
  function parted(key, one, other) {
    const shown = new Map(key.things[other][2]);
    return key.things[one][2].some(([sign, every]) => shown.has(sign) && !every.some((answer) => shown.get(sign).includes(answer)));
  }

  // What a length tells, read as lying between two: of things with one of that name that agrees, or does not, and others.
  function ofSize(key, what, { low, high }) {
    const asked = SpanbookMatching.words(what);
    const agree = key.things.map(([, , , , sizes]) => {
      const named = sizes.filter(([name]) => asked.every((word) => SpanbookMatching.words(name).includes(word)));
      return named.length ? named.some(([, least, most]) => least <= high && low <= most) : null;
    });
    const known = agree.filter((one) => one !== null);
    const usual = (known.filter(Boolean).length + 1) / (known.length + 2);
    const each = (one) => (one === null ? usual : one ? 1 - key.wrong : key.wrong * usual);
    return [...agree, null].map((one) => weight(each(one)));
  }

  // What a number or mark tells, where so many of all that is recorded anywhere read as it does.
  function ofMark(key, text, alike) {
    const reads = (mark) => { const [a, b] = [[...text], [...mark]]; return a.length === b.length && a.every((c, i) => c === "?" || c === b[i]); };
    const usual = (alike + 1) / (key.readable + 2);
    const odds = key.things.map(([, , , , , texts]) => (texts.some(reads) ? Math.max(1 - key.wrong, usual) : usual));
    return [...odds, usual].map(weight);
  }

  // What was answered as recorded of a thing, and what otherwise.
  function grounds(key, answers, thing) {
    const told = (thing < key.things.length ? key.things[thing][2] : []).filter(([sign]) => answers.has(sign));
    const agrees = told.filter(([sign, every]) => every.includes(answers.get(sign)));
    return { agrees, against: told.filter((one) => !agrees.includes(one)) };
  }

  return { grounds, ofMark, ofSize, told };
})();
