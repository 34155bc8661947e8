"""What is made one by one, of a thing each: any of them without the others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from spanbook.site.common import Site
from spanbook.site.page import SitePage

T = TypeVar("T")
File = tuple[str, bytes]  # by its path below the site
Share = tuple[int, int]  # which of how many


@dataclass(frozen=True, slots=True)
class Each(Generic[T]):
    """Pages: `things` are in the order of the site, `address` is where the page of one stands. Its `pages`
    are that one and the pieces it is cut into; a thing may turn out to have none. What a page of all things
    needs of one is `told`, in plain values."""

    things: Callable[[Site], Iterable[T]]
    address: Callable[[T], str]
    pages: Callable[[Site, T], Iterator[SitePage]]
    told: Callable[[Site, T], object] = lambda site, thing: None


@dataclass(frozen=True, slots=True)
class EachTable(Generic[T]):
    """Tables that scripts look up in: the `files` of a thing, which may turn out to have none. It goes by its
    `name` from one build to the next."""

    things: Callable[[Site], Iterable[T]]
    name: Callable[[T], str]
    files: Callable[[Site, T], Iterator[File]]


def of_share(things: Iterable[T], share: Share) -> Sequence[T]:
    """Shares follow one another, so that all of them have all things in the order of one."""
    every, (number, of) = tuple(things), share
    return every[len(every) * number // of : len(every) * (number + 1) // of]
