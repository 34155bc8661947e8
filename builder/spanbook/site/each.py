"""Pages that are made one by one, of a thing each: any of them without the others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from spanbook.site.common import Site
from spanbook.site.page import SitePage

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Each(Generic[T]):
    """`things` are in the order of the site, `address` is where the page of one stands. Its `pages` are that
    one and the pieces it is cut into; a thing may turn out to have none."""

    things: Callable[[Site], Iterable[T]]
    address: Callable[[T], str]
    pages: Callable[[Site, T], Iterator[SitePage]]
