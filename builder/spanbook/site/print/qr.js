// A text as a QR code after ISO/IEC 18004: in bytes, error correction M, versions 1 to 9; rows of 0 and 1, dark is 1.
"use strict";

const SpanbookQr = (() => {
  // By version: how many words of error correction a block has, and how many words of data each block holds.
  const BLOCKS = [[10, [16]], [16, [28]], [26, [44]], [18, [32, 32]], [24, [43, 43]], [16, [27, 27, 27, 27]], [18, [31, 31, 31, 31]], [22, [38, 38, 39, 39]], [22, [36, 36, 36, 37, 37]]];
  const ALIGNED = [[], [18], [22], [26], [30], [34], [22, 38], [24, 42], [26, 46]]; // beside the 6 that all have
  const MASKS = [
    (y, x) => (y + x) % 2,
    (y) => y % 2,
    (_, x) => x % 3,
    (y, x) => (y + x) % 3,
    (y, x) => (Math.floor(y / 2) + Math.floor(x / 3)) % 2,
    (y, x) => ((y * x) % 2) + ((y * x) % 3),
    (y, x) => (((y * x) % 2) + ((y * x) % 3)) % 2,
    (y, x) => (((y + x) % 2) + ((y * x) % 3)) % 2,
  ];
  const range = (n) => Array.from({ length: n }, (_, i) => i);
  const sum = (values) => values.reduce((all, one) => all + one, 0);
  const bits = (value, count) => range(count).map((i) => (value >> (count - 1 - i)) & 1);

  // The field of 256 elements by x^8 + x^4 + x^3 + x^2 + 1.
  const exp = [1];
  for (let i = 1; i < 255; i += 1) exp.push((exp[i - 1] << 1) ^ (exp[i - 1] & 128 ? 285 : 0));
  const log = new Map(exp.map((value, i) => [value, i]));
  const times = (a, b) => (a && b ? exp[(log.get(a) + log.get(b)) % 255] : 0);

  // The words of error correction of a block: what is left of it when it is divided by the generator.
  function correction(data, degree) {
    let generator = [1];
    for (let i = 0; i < degree; i += 1) generator = [...generator, 0].map((value, at) => value ^ times(generator[at - 1] ?? 0, exp[i]));
    const words = [...data, ...Array(degree).fill(0)];
    data.forEach((_, i) => {
      const lead = words[i];
      generator.forEach((value, at) => { words[i + at] ^= times(value, lead); });
    });
    return words.slice(data.length);
  }

  // All words in the order in which they are laid: the first of each block, the second of each, and so on.
  function wordsOf(bytes, [degree, sizes]) {
    const room = 8 * sum(sizes);
    const stream = [...bits(4, 4), ...bits(bytes.length, 8), ...[...bytes].flatMap((byte) => bits(byte, 8))];
    stream.push(...Array(Math.min(4, room - stream.length)).fill(0));
    stream.push(...Array((8 - (stream.length % 8)) % 8).fill(0));
    const data = range(stream.length / 8).map((i) => parseInt(stream.slice(8 * i, 8 * i + 8).join(""), 2));
    for (let pad = 236; data.length < room / 8; pad ^= 253) data.push(pad);
    const blocks = sizes.map((size, i) => data.slice(sum(sizes.slice(0, i)), sum(sizes.slice(0, i + 1))));
    const woven = (each) => range(Math.max(...each.map((one) => one.length))).flatMap((i) => each.filter((one) => i < one.length).map((one) => one[i]));
    return [...woven(blocks), ...woven(blocks.map((block) => correction(block, degree)))];
  }

  // What is left of a value of so many bits, shifted up, when it is divided by a polynomial in twos.
  function remainder(value, degree, by) {
    let left = value << degree;
    for (let bit = 31 - Math.clz32(left); left && bit >= degree; bit = 31 - Math.clz32(left)) left ^= by << (bit - degree);
    return left;
  }

  // The patterns that every code of a version has; null where data goes.
  function frame(version) {
    const size = 17 + 4 * version;
    const rows = range(size).map(() => Array(size).fill(null));
    const square = (y, x, half, dark) => {
      for (const dy of range(2 * half + 1).map((i) => i - half)) {
        for (const dx of range(2 * half + 1).map((i) => i - half)) {
          if (rows[y + dy]?.[x + dx] !== undefined) rows[y + dy][x + dx] = dark(Math.max(Math.abs(dy), Math.abs(dx)));
        }
      }
    };
    for (const [y, x] of [[3, 3], [3, size - 4], [size - 4, 3]]) square(y, x, 4, (ring) => Number(ring !== 2 && ring !== 4));
    const at = ALIGNED[version - 1].length ? [6, ...ALIGNED[version - 1]] : [];
    for (const y of at) for (const x of at) if (rows[y][x] === null) square(y, x, 2, (ring) => Number(ring !== 1));
    for (const i of range(size)) {
      rows[6][i] ??= Number(i % 2 === 0);
      rows[i][6] ??= Number(i % 2 === 0);
    }
    rows[size - 8][8] = 1;
    for (const i of range(9)) {
      rows[8][i] ??= 0;
      rows[i][8] ??= 0;
    }
    for (const i of range(8)) {
      rows[8][size - 1 - i] ??= 0;
      rows[size - 1 - i][8] ??= 0;
    }
    if (version > 6) bits((version << 12) | remainder(version, 12, 0x1f25), 18).reverse().forEach((bit, i) => {
      rows[Math.floor(i / 3)][size - 11 + (i % 3)] = bit;
      rows[size - 11 + (i % 3)][Math.floor(i / 3)] = bit;
    });
    return rows;
  }

  // Data goes up and down in columns of two from the right, past the column of the timing pattern.
  function places(rows) {
    const size = rows.length;
    const found = [];
    range((size - 1) / 2).forEach((turn) => {
      const right = size - 1 - 2 * turn - (size - 1 - 2 * turn <= 6 ? 1 : 0);
      for (const i of range(size)) {
        const y = turn % 2 === 0 ? size - 1 - i : i;
        for (const x of [right, right - 1]) if (rows[y][x] === null) found.push([y, x]);
      }
    });
    return found;
  }

  function masked(rows, at, stream, mask) {
    const made = rows.map((row) => [...row]);
    at.forEach(([y, x], i) => { made[y][x] = (stream[i] ?? 0) ^ Number(MASKS[mask](y, x) === 0); });
    const format = bits(((mask << 10) | remainder(mask, 10, 0x537)) ^ 0x5412, 15).reverse();
    const size = rows.length;
    format.forEach((bit, i) => {
      made[i < 6 ? i : i < 8 ? i + 1 : size - 15 + i][8] = bit;
      made[8][i < 8 ? size - 1 - i : i === 8 ? 7 : 14 - i] = bit;
    });
    return made;
  }

  // How hard a code is to read: long runs, blocks of four, what looks like a finder, too dark or too light.
  function penalty(rows) {
    const columns = rows.map((_, x) => rows.map((row) => row[x]));
    const lines = [...rows, ...columns].map((line) => line.join(""));
    const runs = lines.flatMap((line) => line.match(/0{5,}|1{5,}/g) ?? []);
    const blocks = sum(range(rows.length - 1).map((y) => range(rows.length - 1).filter((x) => rows[y][x] === rows[y][x + 1] && rows[y][x] === rows[y + 1][x] && rows[y][x] === rows[y + 1][x + 1]).length));
    // Around a code it is light.
    const finders = sum(lines.map((line) => (`0000${line}0000`.match(/(?=00001011101|10111010000)/g) ?? []).length));
    const dark = sum(rows.flat()) / rows.length ** 2;
    return sum(runs.map((run) => run.length - 2)) + 3 * blocks + 40 * finders + 10 * Math.floor(Math.abs(dark * 100 - 50) / 5);
  }

  // The code of a text; null where it is too long.
  function made(text) {
    const bytes = new TextEncoder().encode(text);
    const version = 1 + BLOCKS.findIndex(([, sizes]) => bytes.length + 2 <= sum(sizes));
    if (version === 0) return null;
    const rows = frame(version);
    const stream = wordsOf(bytes, BLOCKS[version - 1]).flatMap((word) => bits(word, 8));
    const at = places(rows);
    const each = range(8).map((mask) => masked(rows, at, stream, mask));
    return each.reduce((best, one) => (penalty(one) < penalty(best) ? one : best));
  }

  return { made };
})();
