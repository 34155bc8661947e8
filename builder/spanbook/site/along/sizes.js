// How large something is, as people say it.
"use strict";

const SpanbookAlong = (() => {
  const ONE_PLACE = { minimumFractionDigits: 1, maximumFractionDigits: 1, useGrouping: false };
  const millions = (bytes) => (bytes / 1e6).toLocaleString("LANGUAGE-OF-THE-PAGES", ONE_PLACE);
  const words = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${millions(bytes)} MB`);
  return { words };
})();
