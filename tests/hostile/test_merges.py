"""A stranger's tree has no say in how it is merged, whatever it calls for and whoever has laid it out."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from tests.faces.test_merge import FILE, commit, narrowed
from tests.support.command import project, run
from tests.support.repository import git
from tests.support.trees import tree

ATTRIBUTES = {
    "union": "* merge=union\n",
    "ours": "* merge=binary\n",
    "not": "* -merge\n",
    "a macro": "[attr]mine merge=union\n* mine\n",
    "a driver": "* merge=evil filter=evil diff=evil\n",
    "long marks": "* conflict-marker-size=100000000\n",
    "text": "*.yml text eol=crlf working-tree-encoding=UTF-16 ident\n",
}


def hostile(folder: Path, attributes: str, *, clash: bool) -> Path:
    """Main and the proposal change the lid; the proposal brings attributes, and its tree is laid out."""
    project(folder)
    ran = folder.parent / "ran"
    for name in ("merge.evil.driver", "filter.evil.clean", "filter.evil.smudge", "diff.evil.textconv"):
        git(folder, "init", "-q", "-b", "main")
        git(folder, "config", name, f"touch '{ran}'; exit 1")
    commit(folder, "The records")
    git(folder, "branch", "proposal")
    file = folder / FILE
    if clash:
        narrowed(folder, 12)
    else:
        file.write_text(f"# looked at again\n{file.read_text()}")
    commit(folder, "Main")
    git(folder, "switch", "-q", "proposal")
    narrowed(folder, 15)
    commit(folder, "Another end")
    for place in (folder, folder / "content/assemblies"):
        (place / ".gitattributes").write_text(attributes)
    git(folder, "-c", "filter.evil.clean=cat", "add", "*.gitattributes")
    git(folder, "-c", "filter.evil.clean=cat", "commit", "-qm", "Attributes")
    ran.unlink(missing_ok=True)
    return folder


@pytest.mark.parametrize("name", ATTRIBUTES)
def test_attributes_neither_hide_a_clash_nor_make_one(tmp_path: Path, name: str) -> None:
    for clash in (True, False):
        folder = hostile(tmp_path / f"{clash}/p", ATTRIBUTES[name], clash=clash)
        found = spanbook.review(folder, "main", "proposal")
        assert [one.path for one in found.clashes] == ([FILE] if clash else [])
        assert (found.comparison is None) == clash
        if found.comparison:
            (change,) = found.comparison.answers
            assert (change.change.first, change.change.last) == (16, 20)
        assert not (folder.parent / "ran").exists()


def test_no_setting_of_the_machine_has_a_say(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is judged is the same for everybody: by whom, and where, it is judged makes no difference."""
    home = tmp_path / "home"
    home.mkdir()
    (home / ".gitconfig").write_text(
        f"[core]\nattributesFile = {home}/attributes\n[merge]\ndefault = union\n"
    )
    (home / "attributes").write_text("* merge=union\n")
    (home / ".config/git").mkdir(parents=True)
    (home / ".config/git/attributes").write_text("* merge=union\n")
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    folder = hostile(tmp_path / "p", "", clash=True)
    monkeypatch.setenv("HOME", str(home))
    (folder / ".git/info").mkdir(exist_ok=True)
    (folder / ".git/info/attributes").write_text("* merge=union\n")
    monkeypatch.setenv("GIT_CONFIG_COUNT", "1")
    monkeypatch.setenv("GIT_CONFIG_KEY_0", "merge.default")
    monkeypatch.setenv("GIT_CONFIG_VALUE_0", "union")
    assert [one.path for one in spanbook.review(folder, "main", "proposal").clashes] == [FILE]


def test_where_a_hook_names_the_folder_of_objects_nothing_is_written_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = hostile(tmp_path / "p", "", clash=False)
    monkeypatch.setenv("GIT_OBJECT_DIRECTORY", str(folder / ".git/objects"))
    before = tree(folder)
    assert spanbook.review(folder, "main", "proposal").comparison is not None
    assert tree(folder) == before


@pytest.mark.parametrize("name", ["::error::x.yml", "a\nb.yml", "\x1b[2J.yml"])
def test_a_clashing_files_name_commands_nobody(tmp_path: Path, name: str) -> None:
    folder = project(tmp_path / "p")
    git(folder, "init", "-q", "-b", "main")
    commit(folder, "The records")
    git(folder, "branch", "proposal")
    for branch in ("main", "proposal"):
        git(folder, "switch", "-q", branch)
        (folder / "content/sources" / name).write_text(f"kind: source\ntitle: {branch}\n")
        commit(folder, branch)
    for arguments in (["review"], ["compare", "--merge"]):
        told = run(*arguments, "main", "proposal", "--folder", folder)
        assert told.exit_code == 1
        assert all(line.isprintable() for line in told.output.split("\n"))
