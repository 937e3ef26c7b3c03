#!/usr/bin/python3
"""Makes ../survey_probit.json: ordinal and binary probit cases with exact or long-sampled answers,
and the logit case of scikit-learn. Run: /usr/bin/python3 tests/outside/make/survey_probit.py

Ordinal probit with f ~ N(0, K) and y the interval that holds f + noise, noise ~ N(0, 1):
  evidence = P(low < z <= high), z ~ N(0, K + I)   (SciPy's multivariate normal integral)
  posterior of f by elliptical slice sampling, many chains at once; each entry with its standard error.
The points of the 15-point case are R's set.seed(3); sort(runif(15, 0, 10))."""
import json
import sys

import numpy as np
import scipy
import sklearn
from scipy.special import log_ndtr
from scipy.stats import multivariate_normal
from sklearn.gaussian_process import GaussianProcessClassifier, GaussianProcessRegressor
from sklearn.gaussian_process.kernels import ConstantKernel, Matern

OUT = "tests/outside/survey_probit.json"
X15 = [1.2463344424031675, 1.6804152633994818, 2.9460092424415052, 3.2773431716486812, 3.8494235137477517, 5.0502391415648162,
       5.1201589754782617, 5.3403535345569253, 5.572494356893003, 5.7760991901159286, 6.0210067476145923, 6.0439405404031277,
       6.3097927439957857, 8.0751639907248318, 8.6791948764584959]


def matern(a, b, variance, length):
    d = np.sqrt(3) * np.abs(np.subtract.outer(a, b)) / length
    return variance * (1 + d) * np.exp(-d)


def evidence(K, low, high):
    n = len(low)
    tries = [multivariate_normal.cdf(high, mean=np.zeros(n), cov=K + np.eye(n), lower_limit=low, maxpts=400_000, abseps=1e-13, releps=1e-5)
             for _ in range(8)]
    return float(np.log(np.mean(tries))), float(np.std(np.log(tries)) / np.sqrt(8))


def slice_posterior(K, low, high, rng, chains=1500, keep=800, burn=100):
    """Elliptical slice sampling (Murray, Adams and MacKay 2010), all chains in step. The first
    len(low) places are read, the others only predicted."""
    n, seen = len(K), len(low)
    L = np.linalg.cholesky(K + 1e-12 * np.eye(n))

    def loglik(f):
        a, b = low - f[:, :seen], high - f[:, :seen]
        flip = a > 0
        a2, b2 = np.where(flip, -b, a), np.where(flip, -a, b)
        la, lb = log_ndtr(a2), log_ndtr(b2)
        with np.errstate(divide="ignore"):
            return np.sum(lb + np.log1p(-np.exp(la - lb)), axis=1)

    f = rng.standard_normal((chains, n)) @ L.T
    ll = loglik(f)
    total, square = np.zeros((chains, n)), np.zeros((chains, n))
    above, half = np.zeros((chains, n)), np.zeros((chains, n))
    for step in range(burn + keep):
        nu = rng.standard_normal((chains, n)) @ L.T
        bar = ll + np.log(rng.random(chains))
        theta = rng.random(chains) * 2 * np.pi
        lo, hi = theta - 2 * np.pi, theta.copy()
        todo = np.arange(chains)
        new, new_ll = f.copy(), ll.copy()
        while len(todo):
            t = theta[todo, None]
            trial = f[todo] * np.cos(t) + nu[todo] * np.sin(t)
            trial_ll = loglik(trial)
            ok = trial_ll > bar[todo]
            new[todo[ok]], new_ll[todo[ok]] = trial[ok], trial_ll[ok]
            todo = todo[~ok]
            neg = theta[todo] < 0
            lo[todo[neg]] = theta[todo[neg]]
            hi[todo[~neg]] = theta[todo[~neg]]
            theta[todo] = lo[todo] + rng.random(len(todo)) * (hi[todo] - lo[todo])
        f, ll = new, new_ll
        if step >= burn:
            total += f
            square += f * f
            above += f > 0
            half += 1
    mean, second, p = total / keep, square / keep, above / keep
    se = lambda v: (v.std(axis=0) / np.sqrt(chains)).tolist()
    sd = np.sqrt(second.mean(axis=0) - mean.mean(axis=0) ** 2)
    return {"mean": mean.mean(axis=0).tolist(), "mean_se": se(mean), "sd": sd.tolist(), "p_above_0": p.mean(axis=0).tolist(), "p_above_0_se": se(p),
            "draws": chains * keep}


def probit_case(name, x, cuts, y, variance, length, rng, predict):
    x = np.array(x)
    ends = np.concatenate([[-np.inf], cuts, [np.inf]])
    low, high = ends[np.array(y) - 1], ends[np.array(y)]
    K = matern(x, x, variance, length)
    log_z, log_z_se = evidence(K, low, high)
    both = np.concatenate([x, predict])
    posterior = slice_posterior(matern(both, both, variance, length), low, high, rng)
    print(name, "log evidence", log_z, "+-", log_z_se, "E f1..3", np.round(posterior["mean"][:3], 4), "se", max(posterior["mean_se"]))
    return {"name": name, "x": x.tolist(), "y": list(y), "cuts": list(cuts), "variance": variance, "length": length, "noise_sd": 1.0,
            "predict_x": list(predict), "log_evidence": log_z, "log_evidence_se": log_z_se, "posterior_of_f_then_predictions": posterior}


def logit_case(name, x, y, variance, length, at):
    """Laplace by scikit-learn, and beside it the exact evidence: of the logit by plain Monte Carlo over
    the prior, of a probit of sd 1.702 by the normal integral. They show how much of a difference is
    Laplace's own."""
    x, at, sign = np.array(x, float), np.array(at, float), 2 * np.array(y) - 1
    kernel = ConstantKernel(variance, "fixed") * Matern(length, "fixed", nu=1.5)
    model = GaussianProcessClassifier(kernel, optimizer=None).fit(x[:, None], y)
    K, n = matern(x, x, variance, length), len(x)
    L, rng = np.linalg.cholesky(K + 1e-10 * np.eye(n)), np.random.default_rng(1702)
    parts = [np.mean(np.exp(-np.logaddexp(0, -sign * (rng.standard_normal((100_000, n)) @ L.T)).sum(axis=1))) for _ in range(40)]
    turned = np.outer(sign, sign) * (K + 1.702 ** 2 * np.eye(n))
    probit = [multivariate_normal.cdf(np.zeros(n), cov=turned, maxpts=400_000, abseps=1e-13, releps=1e-5) for _ in range(4)]
    return {"name": name, "x": x.tolist(), "y": list(y), "variance": variance, "length": length, "predict_x": at.tolist(),
            "p": model.predict_proba(at[:, None])[:, 1].tolist(), "log_marginal_laplace": float(model.log_marginal_likelihood(model.kernel_.theta)),
            "log_evidence_logit": float(np.log(np.mean(parts))), "log_evidence_logit_se": float(np.std(parts) / np.mean(parts) / np.sqrt(40)),
            "log_evidence_probit_1702": float(np.log(np.mean(probit)))}


def regression_case():
    x, y, at = np.arange(6.0)[:, None], np.array([0.1, 0.3, 0.9, 0.4, 1.2, 1.5]), np.array([[2.5], [7.0], [-1.0]])
    kernel = ConstantKernel(2.0, "fixed") * Matern(1.5, "fixed", nu=1.5)
    model = GaussianProcessRegressor(kernel, alpha=0.1, optimizer=None).fit(x, y)
    mean, sd = model.predict(at, return_std=True)
    return {"x": x.ravel().tolist(), "y": y.tolist(), "variance": 2.0, "length": 1.5, "noise_variance": 0.1, "predict_x": at.ravel().tolist(),
            "mean": mean.tolist(), "sd": sd.tolist(), "log_marginal": float(model.log_marginal_likelihood_value_)}


def product_case(rng):
    """Kriging with a product of two Materns in a turned frame, by a dense NumPy solve: an independent
    writing of the survey's covariance for one layer without own term, level or source."""
    p, q = rng.random((60, 2)) * [120, 144], rng.random((25, 2)) * [120, 144]
    y = rng.standard_normal(60)
    turn, along, across, variance, noise = np.deg2rad(30), 36.0, 14.4, 1.69, 0.25
    axes = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    k = lambda a, b: variance * matern((a @ axes.T)[:, 0], (b @ axes.T)[:, 0], 1, along) * matern((a @ axes.T)[:, 1], (b @ axes.T)[:, 1], 1, across)
    C = k(p, p) + noise * np.eye(60)
    S = k(q, p)
    mean = S @ np.linalg.solve(C, y)
    var = variance - np.einsum("ij,ji->i", S, np.linalg.solve(C, S.T))
    lml = -0.5 * y @ np.linalg.solve(C, y) - 0.5 * np.linalg.slogdet(C)[1] - 30 * np.log(2 * np.pi)
    return {"degrees": 30, "length_along": along, "length_across": across, "variance": variance, "noise_variance": noise, "x": p[:, 0].tolist(),
            "y": p[:, 1].tolist(), "value": y.tolist(), "at_x": q[:, 0].tolist(), "at_y": q[:, 1].tolist(), "mean": mean.tolist(),
            "posterior_variance": var.tolist(), "log_marginal": float(lml)}


def main():
    rng = np.random.default_rng(1954)
    y15 = [2, 2, 3, 1, 3, 2, 1, 1, 1, 1, 2, 2, 1, 3, 3]
    x12 = np.round(np.sort(rng.random(12) * 60), 2)
    y12 = [1, 1, 1, 2, 1, 2, 2, 2, 2, 1, 1, 1]
    cases = [
        probit_case("ordinal, 15 points", X15, [-0.7, 0.7], y15, 1.5, 2.0, rng, [0.0, 4.5, 7.0]),
        probit_case("binary, 12 points", x12, [0.0], y12, 4.0, 12.0, rng, [-10.0, 30.0, 75.0]),
        probit_case("ordinal, all sound but one", list(range(8)), [0.0, 1.0], [1, 1, 1, 3, 1, 1, 1, 1], 1.44, 2.0, rng, [3.5, 12.0]),
        probit_case("binary, five alike at one spot", [5.0] * 5 + [6.0], [0.0], [2, 2, 2, 2, 2, 1], 2.25, 3.0, rng, [5.5]),
    ]
    json.dump({"made_by": "tests/outside/make/survey_probit.py",
               "versions": f"Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}, scikit-learn {sklearn.__version__}",
               "probit": cases,
               "logit_laplace": [logit_case("six points", range(6), [0, 0, 1, 0, 1, 1], 2.0, 1.5, [2.5, 0, 5, 7, -2]),
                                 logit_case("twelve points", x12, [v - 1 for v in y12], 4.0, 12.0, [-10, 5, 30, 45, 75])],
               "regression": regression_case(), "product": product_case(rng)}, open(OUT, "w"), indent=0)


if __name__ == "__main__":
    main()
