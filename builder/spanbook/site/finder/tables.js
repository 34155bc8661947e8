// Tables as classic scripts: they load from a server and from a folder alike, each once.
"use strict";

const spanbookTables = new Map();
const spanbookWaiting = new Map();
const spanbookHere = document.currentScript.src.replace(/[^/]*$/, "");
// Tables are asked for as those of the state that this script is of: none of another comes from what a browser keeps.
const spanbookState = "STATE-OF-THE-TABLES";
const spanbookOf = location.protocol === "file:" ? "" : `?of=${spanbookState}`;

// Every table's script calls this with its name and its data.
function spanbookTable(name, data) {
  spanbookTables.set(name, data);
}

// A table by the name of its file; null where there is no such file.
function spanbookLoad(name, folder = "") {
  const path = folder + name;
  if (!spanbookWaiting.has(path)) {
    spanbookWaiting.set(path, new Promise((resolve) => {
      const script = document.createElement("script");
      script.src = `${spanbookHere}${path}.js${spanbookOf}`;
      script.onload = () => resolve(spanbookTables.get(name));
      script.onerror = () => { spanbookWaiting.delete(path); resolve(null); }; // it may be there the next time
      document.head.append(script);
    }));
  }
  return spanbookWaiting.get(path);
}

// Keys that share their beginnings with the key before, as [key, value] pairs.
function spanbookDecoded(coded) {
  let before = [];
  return coded.map(([shared, rest, value]) => {
    before = [...before.slice(0, shared), ...rest];
    return [before.join(""), value];
  });
}

// What the block of a table is called that begins with a key: the twin of `named` in blocks.py.
function spanbookBlock(table, first) {
  const total = new TextEncoder().encode(first).reduce((sum, byte) => Math.imul(sum ^ byte, 16777619), 2166136261);
  return `${table}-${(total >>> 0).toString(16)}`;
}

// Every entry of a sorted table whose key begins with a text, at most so many keys.
async function spanbookBeginning(name, text, most = Infinity) {
  const directory = spanbookDecoded((await spanbookLoad(name)) ?? []).map(([key]) => key);
  const found = [];
  // The block before the first that begins after the text may still hold it.
  if (!directory.length) return found;
  let at = directory.findIndex((first) => first > text);
  at = Math.max(0, (at < 0 ? directory.length : at) - 1);
  // Blocks are asked for together: on a slow line each round of asking costs more than what is sent.
  const surely = most < Infinity ? at + 2 : directory.length;
  for (let i = at; i < surely && (i === at || directory[i]?.startsWith(text)); i += 1) spanbookLoad(spanbookBlock(name, directory[i]));
  for (; at < directory.length; at += 1) {
    if (directory[at] > text && !directory[at].startsWith(text) && !text.startsWith(directory[at])) break;
    for (const [key, value] of spanbookDecoded((await spanbookLoad(spanbookBlock(name, directory[at]))) ?? [])) {
      if (key.startsWith(text)) {
        found.push([key, value]);
        if (found.length === most) return found;
      } else if (key > text) {
        return found;
      }
    }
  }
  return found;
}
