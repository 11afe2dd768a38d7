"""NUTS on a posterior that is nearly Gaussian but badly scaled.

Start and days, drift and level trade off along long ridges, so plain NUTS takes hundreds of
steps a draw and two short chains never meet. Here the model's own curvature at its mode
straightens the ridges first (a linear change of variables, which leaves the posterior as it
is), and the chains start apart, one Laplace standard deviation off.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
import numpyro
import scipy.optimize
from jax.flatten_util import ravel_pytree
from numpyro.infer import MCMC, NUTS
from numpyro.infer.util import initialize_model

CHAINS = 2
_LEAST_CURVATURE = 0.25  # number: no direction is stretched beyond twice its prior SD


@dataclass(frozen=True)
class Drawn:
    """Draws by chain: each site an array of (chain, draw, …); all sites are unbounded."""

    sites: dict[str, np.ndarray]
    worst_rhat: float
    divergent: int
    steps: float
    """Mean number of gradient evaluations a draw."""

    def pooled(self) -> dict[str, np.ndarray]:
        """Draws of both chains in one row."""
        return {name: draws.reshape(-1, *draws.shape[2:]) for name, draws in self.sites.items()}


def draw(model: Callable[..., None], given: tuple[Any, ...], draws: int, seed: int) -> Drawn:
    """Draw from a model whose sites all lie on the whole line."""
    key = jax.random.PRNGKey(seed)
    found = initialize_model(key, model, model_args=given)
    start, unflat = ravel_pytree(found.param_info.z)

    def potential(flat: Any) -> Any:
        return found.potential_fn(unflat(flat))

    mode = _mode(potential, np.zeros(len(start)))
    values, vectors = np.linalg.eigh(np.asarray(jax.hessian(potential)(jnp.asarray(mode))))
    straight = jnp.asarray(vectors / np.sqrt(np.maximum(values, _LEAST_CURVATURE)))
    kernel = NUTS(potential_fn=lambda u: potential(mode + straight @ u), target_accept_prob=0.9)
    run = MCMC(
        kernel,
        num_warmup=draws,
        num_samples=draws,
        num_chains=CHAINS,
        chain_method="sequential",
        progress_bar=False,
    )
    apart = jax.random.normal(key, (CHAINS, len(mode)))
    run.run(key, init_params=apart, extra_fields=("diverging", "num_steps"))
    flat = jnp.asarray(mode) + run.get_samples(group_by_chain=True) @ straight.T
    sites = {k: np.asarray(v) for k, v in jax.vmap(jax.vmap(unflat))(flat).items()}
    summary = numpyro.diagnostics.summary(sites)
    fields = run.get_extra_fields()
    return Drawn(
        sites,
        max(float(np.max(values["r_hat"])) for values in summary.values()),
        int(fields["diverging"].sum()),
        float(fields["num_steps"].mean()),
    )


def _mode(potential: Callable[[Any], Any], start: np.ndarray) -> np.ndarray:
    both = jax.jit(jax.value_and_grad(potential))

    def of(flat: np.ndarray) -> tuple[float, np.ndarray]:
        value, slope = both(jnp.asarray(flat))
        return float(value), np.asarray(slope)

    found = scipy.optimize.minimize(
        of, start, jac=True, method="L-BFGS-B", options={"maxiter": 3000, "maxcor": 30}
    )
    return np.asarray(found.x)
