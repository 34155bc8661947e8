// A copy for the workshop: the whole site or what one machine needs, as one archive made in this browser.
"use strict";

(() => {
  const place = document.querySelector("[data-workshop]");
  if (!place) return;
  const told = place.querySelector("[data-told]");
  const progress = place.querySelector("progress");
  const link = place.querySelector("[data-made] a");
  const { filled } = SpanbookPieces;
  const { root, each, fetched, size } = SpanbookCopy;
  const HELD = "assets/along/held.js";
  const say = (name, ...values) => { told.textContent = filled(place.dataset[name], ...values); };

  const fileOf = (address) => (address === "" || address.endsWith("/") ? `${address}index.html` : address);

  // The files that a page names; those of other pages, which are links, apart.
  function named(html, address, known) {
    const base = new URL(address, root);
    const found = { pages: new Set(), files: new Set() };
    const put = (text) => {
      const url = new URL(text, base);
      if (!url.href.startsWith(root)) return;
      const file = fileOf(decodeURI(url.origin + url.pathname).slice(decodeURI(root).length));
      if (known.has(file)) found[file.endsWith(".html") ? "pages" : "files"].add(file);
    };
    const page = new DOMParser().parseFromString(html, "text/html");
    for (const one of page.querySelectorAll("[href]")) put(one.getAttribute("href"));
    for (const one of page.querySelectorAll("[src]")) put(one.getAttribute("src"));
    for (const one of page.querySelectorAll("[srcset]")) one.getAttribute("srcset").split(",").forEach((each) => put(each.trim().split(" ")[0]));
    return found;
  }

  // What the pages of a machine lead to comes along, and what those show, but not where those lead.
  async function around(pages, list) {
    const known = new Set(list.files.map(([address]) => address));
    // Any machine's card can be asked for: the tables come along, and the small pictures that cards show.
    const files = new Set([...known].filter((address) => address.startsWith("assets/") || /-160\.\w+$/.test(address)));
    const first = new Set(["index.html", "card/index.html", ...pages.map(fileOf)].filter((file) => known.has(file)));
    const second = new Set();
    let done = 0;
    const read = async (file, on) => {
      const found = named(await (await fetched(SpanbookCopy.at(file))).text(), file, known);
      found.files.forEach((one) => files.add(one));
      if (on) found.pages.forEach((one) => { if (!first.has(one)) second.add(one); });
      say("reading", String(done += 1), String(first.size + second.size));
    };
    await each(first, (file) => read(file, true));
    await each(second, (file) => read(file, false));
    return [...first, ...second, ...files].sort();
  }

  // Which files are in it, for the links of a page that is opened from a disk.
  const tableOf = (files) => new TextEncoder().encode(`spanbookTable("held",${JSON.stringify(files)});\n`);

  async function make(table) {
    const list = await SpanbookCopy.listed();
    if (!list) throw new Error("failed");
    const sizes = new Map(list.files.map(([address, bytes]) => [address, bytes]));
    const pages = table ? await (await fetched(root + table)).json() : null;
    const files = pages ? await around(pages, list) : [...sizes.keys()];
    const all = files.reduce((sum, file) => sum + sizes.get(file), 0);
    const folder = table ? table.replace(/^.*machine-|\.json$/g, "") : "site";
    const held = [];
    let done = 0;
    progress.hidden = false;
    await each(files, async (file) => {
      const bytes = pages && file === HELD ? tableOf(files) : new Uint8Array(await (await fetched(SpanbookCopy.at(file))).arrayBuffer());
      held.push([`${folder}/${file}`, bytes]);
      done += sizes.get(file);
      progress.value = done / all;
    });
    held.sort(([a], [b]) => (a < b ? -1 : 1));
    return { name: `${folder}.zip`, archive: new Blob(SpanbookZip.of(held), { type: "application/zip" }) };
  }

  async function submit(event) {
    event.preventDefault();
    const button = place.querySelector("button");
    button.disabled = true;
    link.parentElement.hidden = true;
    delete place.dataset.done;
    try {
      const { name, archive } = await make(new FormData(event.target).get("of"));
      if (link.href) URL.revokeObjectURL(link.href);
      Object.assign(link, { href: URL.createObjectURL(archive), download: name, textContent: name });
      link.parentElement.hidden = false;
      say("made", SpanbookAlong.words(archive.size));
      link.click();
    } catch (failure) {
      say(failure instanceof RangeError ? "large" : "failed");
    }
    progress.hidden = true;
    button.disabled = false;
    place.dataset.done = "yes";
  }

  place.hidden = false;
  if (location.protocol === "file:") {
    place.querySelector("form").hidden = true;
    say("fromDisk", document.querySelector("[data-as-of]")?.textContent ?? "");
    return;
  }
  place.querySelector("form").addEventListener("submit", submit);
})();
