// A zip archive whose files lie in it as they are: what a packet leaves as. After PKWARE's APPNOTE 6.3.10, without ZIP64.
"use strict";

const SpanbookZip = (() => {
  const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
    let c = n;
    for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
    return c >>> 0;
  });
  const VERSION = 20; // 2.0, of an archive with folders
  const UTF_8 = 0x0800; // names are UTF-8
  const MOST = 0xffffffff;
  const MOST_FILES = 0xffff;

  function crc(bytes) {
    let c = MOST;
    for (const byte of bytes) c = TABLE[(c ^ byte) & 0xff] ^ (c >>> 8);
    return (c ^ MOST) >>> 0;
  }

  // Numbers as a zip has them: each [value, bytes], the lowest byte first.
  function record(...fields) {
    const made = new Uint8Array(fields.reduce((sum, [, width]) => sum + width, 0));
    let at = 0;
    for (const [value, width] of fields) {
      for (let i = 0; i < width; i += 1) made[at + i] = Math.floor(value / 2 ** (8 * i)) % 256;
      at += width;
    }
    return made;
  }

  // The day and time of a file as MS-DOS wrote them, which begin in 1980.
  function stamped(when) {
    const year = Math.max(1980, when.getFullYear());
    const time = (when.getHours() << 11) | (when.getMinutes() << 5) | (when.getSeconds() >> 1);
    return [time, ((year - 1980) << 9) | ((when.getMonth() + 1) << 5) | when.getDate()];
  }

  // files: [name, bytes], each name once. Throws RangeError for more than an archive of this sort holds.
  function of(files, when = new Date()) {
    const [time, day] = stamped(when);
    const pieces = [];
    const central = [];
    let at = 0;
    const put = (where, ...made) => { for (const one of made) { where.push(one); if (where === pieces) at += one.length; } };
    if (files.length > MOST_FILES) throw new RangeError("files");
    for (const [name, bytes] of files) {
      const named = new TextEncoder().encode(name);
      const about = [[VERSION, 2], [UTF_8, 2], [0, 2], [time, 2], [day, 2], [crc(bytes), 4], [bytes.length, 4], [bytes.length, 4], [named.length, 2], [0, 2]];
      put(central, record([0x02014b50, 4], [VERSION, 2], ...about, [0, 2], [0, 2], [0, 2], [0, 4], [at, 4]), named);
      put(pieces, record([0x04034b50, 4], ...about), named, bytes);
    }
    const size = central.reduce((sum, one) => sum + one.length, 0);
    if (at + size > MOST) throw new RangeError("bytes");
    const end = record([0x06054b50, 4], [0, 2], [0, 2], [files.length, 2], [files.length, 2], [size, 4], [at, 4], [0, 2]);
    return [...pieces, ...central, end];
  }

  return { of };
})();
