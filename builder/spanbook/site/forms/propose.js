// Where a record is handed in: the forge's own page for a new file, or instructions where it has none.
"use strict";

const spanbookPropose = (() => {
  const MOST = 7500; // bytes of an address; servers refuse it at 8,191
  const quoted = encodeURIComponent;
  const { filled } = SpanbookPieces;
  const path = (text) => encodeURI(text).replace(/[?#]/g, quoted);

  const NEW = {
    github: (at, folder, name, text) => `${at.repository}/new/${path(at.branch)}?filename=${quoted(folder + name)}&value=${quoted(text)}`,
    gitea: (at, folder, name, text) => `${at.repository}/_new/${path(at.branch)}/${path(folder)}?filename=${quoted(name)}&value=${quoted(text)}`,
    gitlab: (at, folder, name, text) =>
      `${at.repository}/-/issues/new?${quoted("issue[title]")}=${quoted(filled(_("New record: {}"), name))}&` +
      `${quoted("issue[description]")}=${quoted(`${filled(_("For {}:"), folder + name)}\n\n~~~~yaml\n${text}~~~~\n`)}`,
  };
  const UPLOAD = {
    github: (at, folder) => `${at.repository}/upload/${path(at.branch)}/${path(folder)}`,
    gitea: (at, folder) => `${at.repository}/_upload/${path(at.branch)}/${path(folder)}`,
    gitlab: (at) => `${at.repository}/-/issues/new`,
  };
  const EDIT = { github: "edit", gitea: "_edit", gitlab: "-/edit" };

  // at: {forge, repository, branch, content}; old: the path of the record that is corrected, if one is.
  return (at, folder, name, text, old) => {
    if (!Object.hasOwn(NEW, at.forge)) return { how: _("Download it, and send the file to the maintainers.") };
    if (old) {
      const address = `${at.repository}/${EDIT[at.forge]}/${path(at.branch)}/${path(old)}`;
      return { address, copy: true, how: _("Propose copies the record and opens the editor of the site's records: put it in place of all that is there, and follow what the page says.") };
    }
    const address = NEW[at.forge](at, folder, name, text);
    if (new TextEncoder().encode(address).length > MOST) {
      return { address: UPLOAD[at.forge](at, folder), how: filled(_("It is too long to be handed over in an address. Download it first; Propose then opens the page on which the file {} can be put."), name) };
    }
    return { address, how: _("Propose opens a page with the record in it; an account there is needed to send it. Without one, download it and send the file to the maintainers.") };
  };
})();
