"""Where a long sequence is cut so that a change moves few cuts: the keys that stand there decide."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate, chain
from zlib import crc32


def ends(
    keys: Sequence[str], weights: Sequence[int], about: int, free: Callable[[int], bool] = lambda _: True
) -> Iterator[int]:
    """Where every run ends but the last one, and the next one begins; only where that is `free`.

    A run has from two thirds of the weight `about` to four thirds, where no weight is alone beyond that, and
    ends at the key of the least sum, wherever it begins.
    """
    total = list(accumulate(weights, initial=0))
    begin, last = 0, len(keys) - 1
    while begin < last and total[-1] - total[begin] > about * 4 // 3:
        least = min(bisect_left(total, total[begin] + about * 2 // 3, begin + 1), last)
        most = max(least, bisect_right(total, total[begin] + about * 4 // 3) - 1)
        ranked = sorted(range(least, most + 1), key=lambda i: crc32(keys[i].encode()))
        end = next((i for i in chain(ranked, range(most + 1, len(keys))) if free(i)), None)
        if end is None:
            return
        yield end
        begin = end
