"""The least of a convex quadratic function between bounds, by an interior point method."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from core.geometry.polyline import Floats

MOST_ROUNDS = 60
NEAR = 1e-7
"""How near to the least is near enough, in the units of the gradient."""


def least_within(matrix: Floats, gradient: Floats, rows: Any, limits: Floats) -> Floats:
    """The x at which x'Mx / 2 + g'x is least under rows @ x <= limits; M positive definite, shape (n, n).

    `rows` is a sparse matrix of shape (m, n). Some x must satisfy all bounds with room to spare. The method is the
    primal-dual one with a predictor and a corrector; it ends where rounding lets it come no nearer to the least.
    """
    from scipy.linalg import cho_factor
    from scipy.sparse import diags

    x = np.zeros(len(gradient))
    slack = np.maximum(limits, 0.1)
    pull = np.ones(len(limits)) * max(float(np.abs(gradient).max()), 1e-6)
    for _ in range(MOST_ROUNDS):
        dual = matrix @ x + gradient + rows.T @ pull
        primal = rows @ x + slack - limits
        centre = float(slack @ pull) / len(limits)
        if centre < NEAR * 1e-3 and np.abs(dual).max() < NEAR and np.abs(primal).max() < NEAR:
            break
        try:
            factor = cho_factor(matrix + (rows.T @ diags(pull / slack) @ rows).toarray())
        except np.linalg.LinAlgError:
            break
        rest = _Rest(slack, pull, dual, primal)
        _, freed, pulled = _steps(factor, rows, rest, slack * pull)
        reach, hold = _share(slack, freed), _share(pull, pulled)
        after = float((slack + reach * freed) @ (pull + hold * pulled)) / len(limits)
        spread = (after / centre) ** 3
        move, freed, pulled = _steps(factor, rows, rest, slack * pull + freed * pulled - spread * centre)
        share = 0.995 * min(_share(slack, freed), _share(pull, pulled))
        x, slack, pull = x + share * move, slack + share * freed, pull + share * pulled
    return x


@dataclass(frozen=True, eq=False)
class _Rest:
    """Slacks and multipliers, and what is left of the two linear conditions."""

    slack: Floats
    pull: Floats
    dual: Floats
    primal: Floats


def _steps(factor: Any, rows: Any, rest: _Rest, target: Floats) -> tuple[Floats, Floats, Floats]:
    """Changes of x, slacks and multipliers that take the products of these two down by a target."""
    from scipy.linalg import cho_solve

    move = cho_solve(factor, -rest.dual - rows.T @ ((rest.pull * rest.primal - target) / rest.slack))
    freed = -rest.primal - rows @ move
    return move, freed, (-target - rest.pull * freed) / rest.slack


def _share(values: Floats, change: Floats) -> float:
    """The largest share up to 1 of a change that leaves no value negative."""
    falling = change < 0
    return float(min(1.0, np.min(-values[falling] / change[falling], initial=np.inf)))
