// Reports as the packet that leaves: the record of each, its pictures, and a note for those who keep the records.
"use strict";

const SpanbookPacket = (() => {
  const CONTENT = "content/";
  const NONE = "-"; // found, and none that is recorded
  const bytesOf = (text) => new TextEncoder().encode(text);
  const worth = ({ is, of, note, number, pictures }) => Boolean(is || of.length || note.trim() || number.trim() || pictures.length);
  const placesOf = (report) => Object.entries(report.places).filter(([, found]) => worth(found));

  // Only what was said is written; a field that is not there was not told of.
  const filledIn = (values) => Object.fromEntries(Object.entries(values).filter(([, value]) => Object.keys(value).length > 0));

  function find(path, found, id) {
    const files = found.pictures.map(({ shows }, i) => ({ file: `${id}/${path.split("/").at(-1)}-${i + 1}.jpg`, shows }));
    return filledIn({
      position: path,
      assembly: found.of.length || found.is === NONE ? "" : found.is,
      "one-of": found.of,
      condition: found.condition,
      parts: found.number.trim() ? [filledIn({ number: found.number.trim(), by: found.by })] : [],
      signs: found.is ? found.signs : [],
      photographs: files,
      note: found.note.trim(),
    });
  }

  // What a report says as a record.
  function record(report, id) {
    const { date, by, serial, series, condition } = report;
    return filledIn({
      kind: "teardown", id, date, "seen-by": by.trim(), serial: serial.trim(), series, condition,
      found: placesOf(report).map(([path, found]) => find(path, found, id)),
    });
  }

  // The files of a report: its record, and its pictures by `picture(key)`, which gives their bytes.
  async function files(report, id, schema, picture) {
    const values = record(report, id);
    const pictures = placesOf(report).flatMap(([, found], i) => found.pictures.map((one, n) => [values.found[i].photographs[n].file, one.id]));
    const made = await Promise.all(pictures.map(async ([file, key]) => [`${CONTENT}photographs/${file}`, await picture(key)]));
    return [[`${CONTENT}teardowns/${id}.yml`, bytesOf(spanbookYaml(values, schema))], ...made];
  }

  // The archive of some files, as pieces of a Blob; about: { site, data, made, by, note }.
  function zip(about, files) {
    const head = { packet: 1, ...filledIn(about) };
    return SpanbookZip.of([["packet.json", bytesOf(`${JSON.stringify(head, null, 1)}\n`)], ...files]);
  }

  // Whether it lacks nothing that a record needs.
  function whole(report) {
    const told = placesOf(report);
    const said = ([, { is, of, note }]) => of.length > 0 || (is && (is !== NONE || note.trim()));
    return Boolean(report.serial.trim() && report.condition && report.date && report.by.trim() && told.length && told.every(said));
  }

  return { NONE, whole, files, placesOf, record, zip };
})();
