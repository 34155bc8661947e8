// What somebody holds by what is seen: weights added up, and where to look next. A twin of answers/signs/.
"use strict";

const SpanbookHolding = (() => {
  const chance = (weight) => Math.exp(weight / 1000);
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

  // `answers` has the place of an answer by the place of its sign (one past the last: something else).
  function told(key, answers, machine) {
    const rows = [...answers].map(([sign, answer]) => key.signs[sign][6][answer]);
    if (machine) rows.push(machine);
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
    const together = (other) => key.unparted.some(([a, b]) => (a === first && b === other) || (b === first && a === other));
    return others.filter((one) => held[one] >= key.near * held[first] && together(one));
  }

  // What was answered as recorded of a thing, and what otherwise.
  function grounds(key, answers, thing) {
    const told = (thing < key.things.length ? key.things[thing][2] : []).filter(([sign]) => answers.has(sign));
    const agrees = told.filter(([sign, every]) => every.includes(answers.get(sign)));
    return { agrees, against: told.filter((one) => !agrees.includes(one)) };
  }

  return { told, grounds };
})();
