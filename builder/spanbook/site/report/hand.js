// Handing over: the packet is made as soon as nothing lacks, and leaves by a tap.
"use strict";

const SpanbookHand = (() => {
  const PAUSE = 400; // milliseconds after the last change
  const MOST = 64e6; // bytes that are taken at the other end
  const { filled } = SpanbookPieces;
  const { hasIssues, issue, mail, save, toShare } = SpanbookLeave;

  const named = (text) => (text.replaceAll("?", "x").normalize("NFKD").toLowerCase().match(/[a-z0-9]+/g) ?? []).join("-");
  // The number, the name and the day: the same person's next look has another.
  const idOf = ({ serial, by, date }) => named(`${serial} ${by} ${date}`).slice(0, 100).replace(/-$/, "");

  // page: { part, words, report, beside, alone, shown, key, over } and of the site { site, day, contact, forge, repository, schema }.
  function attach(page) {
    const { part, words } = page;
    let ready = null; // the packet as it would leave now
    let timer = 0;

    const picture = (of) => async (key) => {
      const bytes = await SpanbookShelf.get(page.key(key, of));
      if (!bytes) throw new Error("lost");
      return bytes;
    };

    async function made() {
      const own = page.report();
      const written = page.beside.records();
      const told = [...(page.alone() ? [] : [own]), ...page.beside.reports()];
      const files = written.map(({ path, text }) => [path, new TextEncoder().encode(text)]);
      const ids = [];
      for (const one of told) {
        const like = ids.filter((id) => id.startsWith(idOf(one))).length;
        const id = like ? `${idOf(one)}-${like + 1}` : idOf(one);
        ids.push(id);
        files.push(...await SpanbookPacket.files(one, id, page.schema.startsWith("http") ? page.schema : "", picture(one.id)));
      }
      const corrects = Object.fromEntries(written.filter((one) => one.corrects).map(({ path, corrects: digest }) => [path, digest]));
      const about = { site: page.site, data: page.day, made: SpanbookWhen.today, by: own.by.trim(), note: own.note.trim(), corrects };
      const pieces = SpanbookPacket.zip(about, files);
      if (pieces.reduce((sum, one) => sum + one.length, 0) > MOST) throw new Error("too-large");
      const id = ids[0] ?? written[0].path.split("/").at(-1).replace(/\.yml$/, "");
      return { id, pieces, share: toShare(id, pieces, words.text) };
    }

    // Made before anybody taps: a share sheet opens only at once after a tap. Nothing where it cannot be made.
    async function packed() {
      const mine = ready ??= made();
      try {
        const packet = await mine;
        if (mine !== ready) return null; // something was changed meanwhile
        part("sheet").hidden = !packet.share;
        part("ways").dataset.done = packet.id;
        return packet;
      } catch (error) {
        if (mine === ready) { ready = null; part("told").textContent = words[error.message] ?? String(error); }
        return null;
      }
    }

    async function share() {
      const packet = await packed();
      if (!packet?.share) return;
      try {
        await navigator.share({ files: [packet.share], title: filled(words.subject, page.shown()) });
        page.over("share", filled(words.shared, packet.share.name));
      } catch (error) {
        if (error.name !== "AbortError") part("told").textContent = words.unshared;
      }
    }

    // By a message or at the forge the saved file is attached by hand.
    async function handOver(how, said, open) {
      const packet = await packed();
      if (!packet) return;
      const name = save(packet.id, packet.pieces);
      page.over(how, filled(words[said], name));
      open?.(filled(words.subject, page.shown()), filled(words.body, page.shown(), page.report().by.trim(), name));
    }

    part("mail").hidden = !page.contact.startsWith("mailto:");
    part("forge-it").hidden = !hasIssues(page.forge);
    part("sheet").addEventListener("click", share);
    part("save").addEventListener("click", () => handOver("save", "saved"));
    part("mail").addEventListener("click", () => handOver("mail", "attach", (subject, body) => { location.href = mail(page.contact, subject, body); }));
    part("forge-it").addEventListener("click", () => handOver("forge", "drag", (subject, body) => { window.open(issue(page.forge, page.repository, subject, body), "_blank", "noopener"); }));

    // While somebody types nothing is packed: of ten pictures every key would cost a telephone half a second.
    function changed() {
      ready = null;
      clearTimeout(timer);
      delete part("ways").dataset.done;
    }

    return { changed, soon: () => { clearTimeout(timer); timer = setTimeout(packed, PAUSE); } };
  }

  return { attach, idOf };
})();
