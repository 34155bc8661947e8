"""A content folder as it would be with some files put into it and others taken away. Nothing is written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.reading.files import Picture, Tree, is_other, is_picture, is_too_long, is_yaml


@dataclass(frozen=True, slots=True)
class LaidOver:
    """`put` has the bytes of files by their paths in the folder, `away` the paths of those that go."""

    base: Tree
    put: Mapping[str, bytes]
    away: frozenset[str] = frozenset()

    def yaml_files(self) -> Iterator[tuple[str, bool]]:
        yield from ((path, linked) for path, linked in self.base.yaml_files() if self._stays(path))
        yield from ((path, False) for path in self._put() if is_yaml(path))

    def too_long(self) -> Iterator[str]:
        yield from self.base.too_long()
        yield from filter(is_too_long, self.put)

    def pictures(self) -> Iterator[Picture]:
        yield from (one for one in self.base.pictures() if self._stays(one.path))
        yield from (Picture(path, len(self.put[path]), False) for path in self._put() if is_picture(path))

    def others(self) -> Iterator[str]:
        yield from filter(self._stays, self.base.others())
        yield from filter(is_other, self._put())

    def read(self, relative: str, most: int) -> bytes:
        return self.put[relative][:most] if relative in self.put else self.base.read(relative, most)

    def _stays(self, path: str) -> bool:
        return path not in self.put and path not in self.away

    def _put(self) -> Iterator[str]:
        return (path for path in self.put if not is_too_long(path))
