// Sizes typed into the box: the twin of answers/sizes_typed.py, held to it by the table of queries.
"use strict";

const SpanbookSizes = (() => {
  const [THREAD, BEARING, O_RING] = [0, 1, 2];
  const MICRONS = 1000;
  const INCH = 25400;
  const COUNTED = 0.02;
  const BENCH = 50;
  const NUMBER = "(?:[0-9]{1,4}[ -])?[0-9]{1,4}/[0-9]{1,4}|[0-9]{0,4}\\.?[0-9]{1,6}";
  const UNIT = '(?: ?(in|inch|"|mm))?';
  const INCH_THREAD = new RegExp(`^(${NUMBER})${UNIT}(?: ?[x-] ?| )([0-9]{1,2}(?:\\.5)?)( ?(?:tpi|per inch))?$`);
  const METRIC = /^m ?([0-9]{1,4}(?:\.[0-9]{1,6})?)(?: ?x ?([0-9]{1,4}(?:\.[0-9]{1,6})?))?$/;
  const NAMED = /^(?:m ?[0-9].*|as ?568.*|.*(?:un[cf]|bs[wfp]|npt|ba)|6[0-9]{2,3})$/;
  const SIDE_BY_SIDE = new RegExp(`^(${NUMBER}) ?x ?(${NUMBER})(?: ?x ?(${NUMBER}))?${UNIT}$`);

  const plainly = (text) => SpanbookMatching.pointed(text).toLowerCase().replace(/[\u2033\u201d]|''/g, '"').replace(/[\u00d7*]/g, "x").replace(/\u2013/g, "-").trim().replace(/\s+/g, " ").replace(/whit(?:worth)?\.?$/, "bsw");
  const folded = (text) => plainly(text).replace(/[ -]/g, "");
  const whole = (value) => Math.floor(value + 0.5);

  function value(text) {
    const parts = text.replaceAll("-", " ").split(" ");
    const [top, bottom] = parts.pop().split("/");
    const below = bottom ? Number(bottom) : 1;
    return (parts.length ? Number(parts[0]) : 0) + (below ? Number(top) / below : 0);
  }

  function range(text, unit) {
    const decimals = text.includes(".") && !text.includes("/") ? text.split(".")[1].length : 0;
    const half = decimals ? 0.5 * unit / 10 ** decimals : 0;
    const at = value(text) * unit;
    return [whole(at - half - BENCH), whole(at + half + BENCH)];
  }

  function pitchOf(text) {
    const pitch = value(text) * MICRONS;
    return [whole(pitch * (1 - COUNTED)), whole(pitch * (1 + COUNTED))];
  }

  function inchThread(text) {
    const [, size, unit, count, said] = text.match(INCH_THREAD) ?? [];
    if (!size || unit === "mm" || Number(count) < 2 || !(/[/.]/.test(size) || unit || said)) return [];
    const pitch = INCH / Number(count);
    const share = pitch * COUNTED;
    return [[THREAD, [range(size, INCH), [whole(pitch - share), whole(pitch + share)]], folded(size)]];
  }

  function metricThread(text) {
    const [, size, pitch] = text.match(METRIC) ?? [];
    return size ? [[THREAD, [range(size, MICRONS), pitch ? pitchOf(pitch) : null], ""]] : [];
  }

  function sideBySide(text) {
    const match = text.match(SIDE_BY_SIDE);
    if (!match) return [];
    const sizes = match.slice(1, 4).filter(Boolean);
    const unit = match[4];
    const inches = (unit && unit !== "mm") || (!unit && sizes.some((one) => one.includes("/")));
    const ranges = sizes.map((one) => range(one, inches ? INCH : MICRONS));
    const found = [[sizes.length === 3 ? BEARING : O_RING, ranges, ""]];
    return sizes.length === 2 && !inches ? [...found, [THREAD, [ranges[0], pitchOf(sizes[1])], ""]] : found;
  }

  function mayBe([sort, , , size, , zones], [asked, ranges, called]) {
    if (sort !== asked) return false;
    const fit = zones.map(([low, high], i) => ranges[i] === null || (ranges[i][0] <= high && low <= ranges[i][1]));
    return fit.every(Boolean) || (called !== "" && size === called && fit.slice(1).every(Boolean));
  }

  // The rows of a text that may be a size: standard sizes, the parts recorded to have them, what to mind.
  async function rows(text, most) {
    const plain = plainly(text);
    const asked = [inchThread, metricThread, sideBySide].flatMap((read) => read(plain));
    const table = asked.length || NAMED.test(plain) ? await spanbookLoad("size") : null;
    if (!table) return [];
    const [cautions, mind, sizes] = table;
    const named = NAMED.test(plain) ? sizes.filter(([, , name]) => name === folded(text)) : [];
    const found = (named.length ? named : sizes.filter((one) => asked.some((each) => mayBe(one, each)))).slice(0, most);
    const minded = [...new Set(found.map(([sort]) => cautions[sort]))];
    return [
      ...found.map(([, name, , , said]) => [name, said, "", false]),
      ...found.flatMap((one) => one[6].map((part) => [...part, false])),
      ...minded.map((caution) => [mind, caution, "", false]),
    ];
  }

  return { rows };
})();
