// How a packet leaves the device: its share sheet, a message, the forge that keeps the records, or a saved file.
"use strict";

const SpanbookLeave = (() => {
  const ZIP = "application/zip";
  const LINE = 76; // characters, as in a message (RFC 2045)
  const quoted = encodeURIComponent;
  const ISSUES = {
    github: (at, title, body) => `${at}/issues/new?title=${quoted(title)}&body=${quoted(body)}`,
    gitea: (at, title, body) => `${at}/issues/new?title=${quoted(title)}&body=${quoted(body)}`,
    gitlab: (at, title, body) => `${at}/-/issues/new?${quoted("issue[title]")}=${quoted(title)}&${quoted("issue[description]")}=${quoted(body)}`,
  };

  // Share sheets of some browsers take no archive: the same packet as text, which any of them takes (RFC 4648, base64).
  function asText(pieces, head) {
    const bytes = pieces.flatMap((one) => Array.from({ length: Math.ceil(one.length / 0x8000) }, (_, i) => String.fromCharCode(...one.subarray(i * 0x8000, (i + 1) * 0x8000))));
    return `${head}\n\n${btoa(bytes.join("")).replace(new RegExp(`.{${LINE}}`, "g"), "$&\n")}\n`;
  }

  const MOST_TEXT = 46e6; // bytes of an archive: as text it is a third larger, and 64 MB are taken at the other end

  // A file that the share sheet here takes; nothing where there is none.
  function toShare(name, pieces, head) {
    if (!navigator.canShare) return null;
    const zip = new File(pieces, `${name}.zip`, { type: ZIP });
    if (navigator.canShare({ files: [zip] })) return zip;
    if (zip.size > MOST_TEXT) return null;
    const text = new File([asText(pieces, head)], `${name}.packet.txt`, { type: "text/plain" });
    return navigator.canShare({ files: [text] }) ? text : null;
  }

  function save(name, pieces) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob(pieces, { type: ZIP }));
    link.download = `${name}.zip`;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    return link.download;
  }

  const mail = (contact, subject, body) => `${contact.split("?")[0]}?subject=${quoted(subject)}&body=${quoted(body)}`;
  const issue = (forge, repository, title, body) => ISSUES[forge](repository, title, body);
  const hasIssues = (forge) => Object.hasOwn(ISSUES, forge);

  return { asText, hasIssues, issue, mail, save, toShare };
})();
