// The page by which the site is kept on this device.
"use strict";

(() => {
  const place = document.querySelector("[data-device]");
  if (!place || location.protocol === "file:") return;
  const part = (name) => place.querySelector(`[data-${name}]`);
  const { filled } = SpanbookPieces;
  const { words } = SpanbookAlong;
  const progress = place.querySelector("progress");
  const buttons = ["keep", "renew", "forget"];
  let offered = null; // what the browser asks by whether it may be put among the programs

  const show = (...names) => buttons.forEach((name) => { part(name).hidden = !names.includes(name); });
  const say = (name, ...values) => { part("told").textContent = filled(place.dataset[name], ...values); };

  async function tell() {
    const [list, kept] = await Promise.all([SpanbookCopy.listed(), SpanbookCopy.here()]);
    if (kept) {
      say("kept", kept.about.told);
      show("forget");
      if (!list) return;
      const missing = SpanbookCopy.missing(list, kept.about);
      const older = SpanbookCopy.stateOf(list) !== SpanbookCopy.stateOf(kept.about);
      part("told").append(` ${older ? filled(place.dataset.older, list.told, words(SpanbookCopy.size(missing))) : place.dataset.same}`);
      show("forget", ...(older ? ["renew"] : []));
    } else if (list) {
      say("none", words(SpanbookCopy.size(list.files)));
      show("keep");
    } else {
      say("offline");
      show();
    }
  }

  async function keep() {
    show();
    const list = await SpanbookCopy.listed();
    if (!list) { await tell(); return; }
    const all = SpanbookCopy.size(list.files);
    progress.hidden = false;
    try {
      await SpanbookCopy.keep(list, filled(place.dataset.note, list.told), (done) => {
        progress.value = done / all;
        say("fetching", words(done), words(all));
      });
      await tell();
    } catch (failure) {
      await tell();
      say(failure.name === "QuotaExceededError" ? "full" : failure.message === "changed" ? "changed" : "failed");
    }
    progress.hidden = true;
    place.dataset.done = "yes";
  }

  place.hidden = false;
  if (!SpanbookCopy.able()) { say("unable"); return; }
  part("keep").addEventListener("click", keep);
  part("renew").addEventListener("click", keep);
  part("forget").addEventListener("click", async () => {
    await SpanbookCopy.forget();
    await tell();
    say("gone");
  });
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offered = event;
    part("install").hidden = false;
  });
  part("install").addEventListener("click", () => { offered.prompt(); part("install").hidden = true; });
  tell();
})();
