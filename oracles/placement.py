"""Largest margin with which rectangles lie in a frame, by a general-purpose optimiser.

Each pair of rectangles has one of four sides (big-M), each may be turned by a quarter where that is
allowed; the margin to the frame is made as large as can be. Solved to the end by the mixed-integer
solver of scipy (HiGHS); a problem that is not is left out.

    python3 oracles/placement.py > tests/long/placementOracle.json

numpy 1.24.2, scipy 1.10.1. Nothing of the program's own search is used.
"""

import json
import random
import sys
from itertools import combinations

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

SIDES = 4
SEED = 20261128
TIME_LIMIT_SEC = 150


def largest_margin(frame, films):
    """The margin in mm, below 0 where they reach out; None where it was not proved."""
    wide, high = frame
    count = len(films)
    pairs = list(combinations(range(count), 2))
    # margin, x and y of each, turned of each, four sides of each pair
    x, y, turn = 1, 1 + count, 1 + 2 * count
    side = 1 + 3 * count
    size = side + SIDES * len(pairs)
    far = 4 * max(wide, high, *(max(w, h) for w, h, _ in films))
    rows, low, up = [], [], []

    def constrain(terms, least, most):
        row = np.zeros(size)
        for at, factor in terms:
            row[at] += factor
        rows.append(row)
        low.append(least)
        up.append(most)

    for i, (w, h, _) in enumerate(films):
        # its width is w + (h - w) turned
        constrain([(x + i, 1), (0, -1)], 0, np.inf)
        constrain([(y + i, 1), (0, -1)], 0, np.inf)
        constrain([(x + i, 1), (turn + i, h - w), (0, 1)], -np.inf, wide - w)
        constrain([(y + i, 1), (turn + i, w - h), (0, 1)], -np.inf, high - h)
    for at, (i, j) in enumerate(pairs):
        (wi, hi, _), (wj, hj, _) = films[i], films[j]
        first = side + SIDES * at
        constrain([(first + k, 1) for k in range(SIDES)], 1, SIDES)
        for k, (a, b, start, length, more) in enumerate(
            [
                (i, j, x, wi, hi - wi),
                (j, i, x, wj, hj - wj),
                (i, j, y, hi, wi - hi),
                (j, i, y, hj, wj - hj),
            ]
        ):
            constrain(
                [(start + a, 1), (turn + a, more), (start + b, -1), (first + k, far)],
                -np.inf,
                far - length,
            )
    cost = np.zeros(size)
    cost[0] = -1
    whole = np.zeros(size)
    whole[turn:] = 1
    least, most = np.full(size, -far, float), np.full(size, far, float)
    least[turn:], most[turn:] = 0, 1
    for i, (_, _, may_turn) in enumerate(films):
        most[turn + i] = 1 if may_turn else 0
    found = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, up),
        bounds=Bounds(least, most),
        integrality=whole,
        options={"time_limit": TIME_LIMIT_SEC, "mip_rel_gap": 0},
    )
    return -found.fun if found.status == 0 else None


def main():
    luck = random.Random(SEED)
    problems = []
    for count, may_turn, many in [(3, True, 4), (4, True, 4), (5, False, 4), (6, False, 2)]:
        for _ in range(many):
            films = [
                (luck.randrange(60, 320), luck.randrange(60, 320), may_turn) for _ in range(count)
            ]
            frame = (luck.randrange(400, 900), luck.randrange(400, 900))
            margin = largest_margin(frame, films)
            print(count, frame, films, margin, file=sys.stderr, flush=True)
            if margin is None:
                continue
            problems.append(
                {
                    "frame": {"insideWidthMm": frame[0], "insideHeightMm": frame[1]},
                    "films": [
                        {"widthMm": w, "heightMm": h, "turn": "quarter" if t else "fixed"}
                        for w, h, t in films
                    ],
                    "marginMm": round(margin, 6),
                }
            )
    print(json.dumps(problems, indent=1))


if __name__ == "__main__":
    main()
