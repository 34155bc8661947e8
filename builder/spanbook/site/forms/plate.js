// What a serial number that is being typed reads as: one machine, or what is wrong with it and what may be meant.
"use strict";

const SpanbookPlate = (() => {
  const MOST_MEANT = 5;

  // { state, series, number, shown, count, meant }: `one` machine, one of those that a worn number `may-be`, of
  // `several` series, `never` issued, `two` numbers given together, or `unread`; null where the tables did not load.
  async function read(text, wanted) {
    const table = await spanbookLoad("series");
    if (!table) return null;
    const [, all] = table;
    const { loosely, readings, show, together, wornTo } = SpanbookSerials;
    const every = readings(all, text);
    const issued = every.filter(([, , was]) => was);
    const chosen = issued.filter(([[id]]) => id === wanted);
    const found = chosen.length ? chosen : issued;
    const series = [...new Set(found.map(([one]) => one))];
    if (series.length > 1) return { state: "several", of: series };
    if (found.length === 1) return { state: "one", series: series[0], number: found[0][1], shown: show(series[0], found[0][1]) };
    if (found.length) return { state: "may-be", series: series[0], number: null, count: found.length };
    const ways = together(all, text);
    if (ways.length) return { state: "two", meant: ways[0].map(([one, number]) => show(one, number)) };
    const near = text.includes("?") ? [] : [...wornTo(all, text), ...loosely(all, text)].map(([one, number]) => show(one, number));
    return { state: every.length ? "never" : "unread", meant: [...new Set(near)].slice(0, MOST_MEANT) };
  }

  return { read };
})();
