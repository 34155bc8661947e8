// What goes along with a report in one packet: records from forms, and other reports that lack nothing.
"use strict";

const SpanbookBeside = (() => {
  const { make } = SpanbookPieces;

  // page: { part, words, reports, report, changed, home, site, whole }; `whole` tells whether a report lacks nothing.
  function attach(page) {
    const { part, words } = page;
    const kept = spanbookWritten(page.home, page.site);
    const left = new Set(); // paths of records that stay here
    const taken = new Set(); // ids of other reports that go along

    const records = () => kept.all().filter(({ path }) => !left.has(path));
    const others = () => page.reports.all().map(([, one]) => one).filter((one) => one && !one.sent && one.id !== page.report().id && page.whole(one));
    const reports = () => others().filter(({ id }) => taken.has(id));

    function choice(said, checked, then) {
      const label = make("label");
      const box = make("input", "", { type: "checkbox", checked });
      box.addEventListener("change", () => { then(box.checked); page.changed(); });
      label.append(box, ` ${said}`);
      return label;
    }

    function show() {
      const turn = (set, one) => (is) => (is ? set.add(one) : set.delete(one));
      const lines = [
        ...kept.all().map(({ path, title }) => choice(title, !left.has(path), (is) => turn(left, path)(!is))),
        ...others().map((one) => choice(one.serial, taken.has(one.id), turn(taken, one.id))),
      ];
      part("along").hidden = lines.length === 0;
      part("along").querySelector("div").replaceChildren(...lines);
    }

    // All that went along has gone.
    function gone(how) {
      for (const { path } of records()) kept.drop(path);
      for (const one of reports()) page.reports.keep({ ...one, sent: how });
      show();
    }

    return { gone, records, reports, show };
  }

  return { attach };
})();
