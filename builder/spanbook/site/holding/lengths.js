// A length as somebody writes it, exactly: the twin of ground/readings.py, in whole millionths of a micrometre.
"use strict";

const SpanbookLengths = (() => {
  const FRACTIONS = "\u00bc-\u00be\u2150-\u215e";
  const END = new RegExp(`^(.*?[0-9${FRACTIONS}])\\s*([^0-9${FRACTIONS}]*)$`);
  const BETWEEN = new RegExp(`\\s*(?:(?<![\\p{L}\\p{N}_])(?:to|${_("to")})(?![\\p{L}\\p{N}_])|\\.\\.|–)\\s*`, "u");
  const MIXED = /^(?:(\d+)[ .-])?(\d+)\/(\d+)$/;
  const FINEST = 32n;
  // What people call each unit, and how many hundred-thousandths of a millimetre make one.
  const UNITS = [
    [2540000n, ["in", "inch", "inches", '"', "\u2033", "\u201d", "''"]],
    [2540n, ["thou", "thous", "mil", "mils"]],
    [100000n, ["mm", "millimetre", "millimetres", "millimeter", "millimeters"]],
    [1000000n, ["cm"]],
    [100n, ["\u03bcm", "um", "micron", "microns", "mics", "mic"]],
  ];
  const SIZE = new Map(UNITS.flatMap(([size, names]) => names.map((name) => [name, size])));

  const opened = (text) => text.replace(new RegExp(`[${FRACTIONS}]`, "g"), (c) => ` ${c.normalize("NFKC").replace("\u2044", "/")} `).trim().replace(/\s+/g, " ");

  // A value as a fraction, and the smallest difference that it tells; null for what is none.
  function value(text) {
    if (/^\d+(?:\.\d+)?$/.test(text)) {
      const [whole, decimals = ""] = text.split(".");
      const below = 10n ** BigInt(decimals.length);
      return { top: BigInt(whole + decimals), below, step: below };
    }
    const plain = opened(text);
    const [, whole = "0", top, below] = plain.match(MIXED) ?? [];
    if (!below || BigInt(below) === 0n) return null;
    // Who writes 1 1/2 in does not mean to the nearest half.
    const fine = text.includes("/") && BigInt(below) > FINEST ? BigInt(below) : FINEST;
    return { top: BigInt(whole) * BigInt(below) + BigInt(top), below: BigInt(below), step: fine };
  }

  function end(text) {
    const [, value_ = "", said = ""] = text.match(END) ?? [];
    const name = said.trim().replace(/\.+$/, "").toLowerCase();
    if (!value_ || (name && !SIZE.has(name))) return null;
    const found = value(value_.trim().replace(/^\./, "0."));
    return found && { ...found, unit: name ? SIZE.get(name) : null };
  }

  const below = (a, b) => a.top * a.unit * b.below < b.top * b.unit * a.below;

  // Half a step below the lower end and above the upper, rounded to a whole.
  function zone(ends, unit) {
    if (ends.length > 2) return null;
    const last = [...ends].reverse().find((one) => one.unit)?.unit ?? unit;
    const each = ends.map((one) => ({ ...one, unit: one.unit ?? last }));
    const [low, high] = [each[0], each.at(-1)];
    if (low.top <= 0n || below(high, low)) return null;
    const step = each.reduce((most, one) => (one.unit * most.step > most.unit * one.step ? one : most));
    const at = (one, sign) => {
      // value ± step/2 in units of 1e-9 mm: (2·value·step ± 1·below) / (2·below·step), floored after half is added.
      const top = 10000n * (2n * one.top * one.unit * step.step + sign * step.unit * one.below);
      const under = 2n * one.below * step.step;
      const twice = 2n * top + under;
      const [whole, over] = [twice / (2n * under), twice % (2n * under)];
      return Number(over < 0n ? whole - 1n : whole);
    };
    return { low: at(low, -1n), high: at(high, 1n) };
  }

  // Every length of a text, in order; a unit at the end holds for those before it. Nothing for what is none.
  function written(text) {
    const plain = SpanbookMatching.pointed(text).normalize("NFC").replaceAll("\u00b5", "\u03bc").replaceAll("\u2044", "/").trim();
    const sizes = plain.split(/\s*(?:×|x|\bby\b|\*)\s*/i).map((size) => size.split(BETWEEN).map(end));
    if (sizes.flat().some((one) => one === null)) return [];
    const unit = sizes.flat().reverse().find((one) => one.unit)?.unit;
    const zones = unit ? sizes.map((ends) => zone(ends, unit)) : [null];
    return zones.includes(null) ? [] : zones;
  }

  return { written };
})();
