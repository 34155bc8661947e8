// How large something is, as people say it.
"use strict";

const SpanbookAlong = (() => {
  const words = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);
  return { words };
})();
