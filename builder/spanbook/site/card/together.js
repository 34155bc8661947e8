// Numbers that were given together: whether they can be one machine's, and what is known of it then.
"use strict";

const SpanbookTogether = (() => {
  const { filled } = SpanbookPieces;

  // Why numbers are not taken for one machine's; nothing where they are.
  function apart(way, parts, kept) {
    if (!SpanbookSerials.oneModel(way)) return "models";
    if (new Set(parts.map(({ machine }) => machine.unit).filter(Boolean)).size > 1) return "units";
    const plates = kept.flatMap((one) => one.plates);
    return new Set(plates).size < plates.length ? "plate" : "";
  }

  // What is known under each of several numbers, every position by the one that tells of it.
  function composed(table, words, kept, shown) {
    const told = [filled(words.together, shown)];
    const each = (name) => [...new Map(kept.flatMap(({ machine }) => machine[name]).map((said) => [JSON.stringify(said), said])).values()];
    const rows = table.positions.map((_, i) => composedRow(words, kept.map(({ machine, shown: by }) => ({ ...machine.rows[i], by }))));
    return {
      head: kept[0].machine.head,
      known: [told, ...each("known")],
      looks: each("looks"),
      perhaps: each("perhaps"),
      rows,
      questions: each("questions").slice(0, table["most-questions"]),
    };
  }

  function composedRow(words, each) {
    const row = telling(each);
    const seenHere = [words.seen, words.perhaps].flatMap((heading) => {
      const lines = each.flatMap(({ sections }) => sections.filter(([one]) => one === heading).flatMap(([, held]) => held));
      return lines.length ? [[heading, lines]] : [];
    });
    const recorded = row.sections.filter(([heading]) => heading !== words.seen && heading !== words.perhaps);
    const named = recorded.map(([heading, lines]) => [heading === words.left ? filled(words["left-by"], row.by) : heading, lines]);
    const seen = row.seen ? "" : each.map((one) => one.seen).find(Boolean);
    const short = seen ? filled(filled(words["seen-and-recorded"], seen), row.short) : row.short;
    return { ...row, short, sections: [...seenHere, ...named] };
  }

  // Of several numbers' rows the one that tells: the builder says which may, and whose plate is followed.
  function telling(each) {
    const may = each.filter(({ told: [tells] }) => tells);
    const of = may.length ? may : each;
    const ordered = [...of.filter(({ told: [, own] }) => own), ...of.filter(({ told: [, own] }) => !own)];
    return ordered.find(({ known }) => known !== "blank" && known !== "other-plate") ?? ordered[0];
  }

  return { apart, composed };
})();
