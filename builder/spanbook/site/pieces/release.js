// Which state of the records a page is told as having: in the script that all pages share, so that a page stays the
// file that it was while another record changes.
"use strict";

for (const told of document.querySelectorAll("[data-release]")) told.dataset.release = "RELEASE-OF-THE-RECORDS";
