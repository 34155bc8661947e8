// What was found, for the box and for the page of results: as a sentence, as lines, and where Enter leads.
"use strict";

const SpanbookFind = (() => {
  const ON_A_PAGE = 60; // of each sort
  const FAILED = _("The tables of this site could not be loaded. Try again when there is a connection.");

  function target(root, address) {
    // From a folder nobody turns a folder's address into its index.
    const [, path, rest] = address.match(/^([^?#]*)(.*)$/);
    const file = location.protocol === "file:" && (path === "" || path.endsWith("/")) ? "index.html" : "";
    return root + path + file + rest;
  }

  const pageOf = (query) => `find/?q=${encodeURIComponent(query)}`;
  const page = (root, query) => target(root, pageOf(query));

  const linked = (rows) => rows.filter(([, , address]) => address);

  // The row that a query meant: the only one that is what was asked for, or the only one there is.
  function meant(rows) {
    const links = linked(rows);
    const sure = links.filter(([, , , itself]) => itself);
    return sure.length === 1 ? sure[0] : sure.length === 0 && links.length === 1 ? links[0] : null;
  }

  const told = (row) => row.slice(0, 2).filter(Boolean).join(", ");

  // What a screen reader says of the box's list, and where Enter leads.
  function inBox({ words, rows }) {
    const links = linked(rows);
    if (links.length === 0) return told(rows[0]);
    const only = meant(rows);
    const first = told(only ?? links[0]);
    if (links.length === 1) return SpanbookRead.say(words, "found-one", first);
    return SpanbookPieces.filled(only
      ? _n("{} result. Enter opens {}.", "{} results. Enter opens {}.", links.length)
      : _n("{} result; the first is {}. Enter lists them all.", "{} results; the first is {}. Enter lists them all.", links.length), first);
  }

  // The box's rows; where there are several, the last leads to all of them: a telephone has no Enter in sight.
  function listed({ words, rows }, query) {
    return linked(rows).length > 1 ? [...rows, [words.all, "", pageOf(query), false]] : rows;
  }

  function onPage({ words, rows }, query) {
    const { length } = linked(rows);
    if (length === 0) return told(rows[0]);
    return length === 1 ? SpanbookRead.say(words, "results-one", query) : SpanbookPieces.filled(_n("{} result for {}", "{} results for {}", length), query);
  }

  // The rows of a query and the words of the finder; null where the tables could not be loaded.
  async function answer(query, most) {
    const [rows, mine, table] = await Promise.all([SpanbookRead.rows(query, most), ofMine(query), spanbookLoad("series")]);
    if (!rows) return null;
    const asked = rows.some(([, , address]) => address.startsWith("card/")); // a machine was asked for
    return { rows: [...(asked ? [] : mine), ...rows], words: table[0] };
  }

  // The positions of the reader's own machine that words name.
  async function ofMine(query) {
    const reading = await SpanbookMine.reading();
    if (!reading) return [];
    const [words] = await spanbookLoad("series");
    return SpanbookRead.placeRows(words, { words: query, readings: [reading], loose: [] });
  }

  // A machine that somebody asked for is remembered.
  function remember(href) {
    const { pathname, searchParams } = new URL(href, location.href);
    if (/\/card\/(index\.html)?$/.test(pathname)) SpanbookMine.given(searchParams.get("serial"));
  }

  // It says nothing that the words beside it do not; line art is turned light on dark.
  function small(root, picture) {
    const figure = document.createElement("figure");
    figure.className = "picture sb-hit";
    const image = Object.assign(document.createElement("img"), { alt: "", loading: "lazy", src: root + picture });
    if (picture.startsWith("drawings/")) image.className = "sb-lines";
    figure.append(image);
    return figure;
  }

  function line(root, [title, detail, address, , picture]) {
    const made = document.createElement(address ? "a" : "span");
    if (picture) made.append(small(root, picture));
    const strong = document.createElement("strong");
    strong.textContent = title;
    made.append(strong);
    if (detail) made.append(" ", detail);
    if (address) {
      made.href = target(root, address);
      made.addEventListener("click", () => remember(made.href));
    }
    return [made];
  }

  // What an address that leads nowhere may have meant: the words of it.
  function wordsOf(path) {
    let text = path;
    try { text = decodeURIComponent(path); } catch { /* as it stands */ }
    const parts = text.split("/").filter((part) => part && !/\.html?$/i.test(part));
    return (parts.at(-1) ?? "").replace(/[-_+]+/g, " ").trim();
  }

  async function fill(place) {
    const form = document.querySelector("form[data-finder]");
    const missing = place.dataset.find === "missing";
    const query = missing ? wordsOf(location.pathname) : (new URLSearchParams(location.search).get("q") ?? "").trim();
    if (!query) return;
    const status = place.querySelector("[role=status]");
    const list = place.querySelector("ul");
    if (!missing) {
      document.title = document.title.replace(/^[^·]*/, () => `${query} `);
      form.querySelector("input").value = query;
    }
    const found = await answer(query, ON_A_PAGE);
    status.textContent = found ? onPage(found, query) : FAILED;
    // Where nothing leads on the first row is told above; a size may have others, and what to mind of it.
    const { rows } = found ?? { rows: [] };
    for (const row of linked(rows).length ? rows : rows.slice(1)) {
      const item = document.createElement("li");
      item.append(...line(form.dataset.root, row));
      list.append(item);
    }
    place.dataset.done = query;
  }

  document.querySelectorAll("[data-find]").forEach(fill);
  return { FAILED, answer, inBox, line, listed, meant, page, remember, small, target };
})();
