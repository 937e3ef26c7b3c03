"""SciPy's and scikit-learn's side of bench/field (called by field.py with each Python it was given):
processor time, one thread, medians; JSON on standard output."""
import json
import sys
import time

import numpy as np
import scipy
import scipy.linalg


def cpu_ms(repeats, body):
    body()
    times = []
    for _ in range(repeats):
        start = time.process_time()
        body()
        times.append(1000 * (time.process_time() - start))
    return float(np.median(times))


def product_matern(a, b):
    d = np.sqrt(3) * np.abs(a[:, None, :] - b[None, :, :]) / 20
    return 1.44 * np.prod((1 + d) * np.exp(-d), axis=2)


def main():
    table = np.loadtxt(f"{sys.argv[1]}/points.csv", delimiter=",", skiprows=1)
    points, value = table[:, :2], table[:, 2]
    axis = np.arange(64) * 2 + 1.0
    grid = np.array([(x, y) for y in axis for x in axis])
    rng = np.random.default_rng(1)

    def exact_draws():
        gain = np.linalg.solve(product_matern(points, points) + 0.09 * np.eye(60), product_matern(points, grid))
        cov = product_matern(grid, grid) - product_matern(grid, points) @ gain
        cov[np.diag_indices(4096)] += 1e-8
        lower = scipy.linalg.cholesky(cov, lower=True, overwrite_a=True, check_finite=False)
        return (value @ gain)[:, None] + lower @ rng.standard_normal((4096, 100))

    loaded = open("/proc/self/maps").read()  # which BLAS decides a factor of seven or more
    blas = "OpenBLAS" if "openblas" in loaded else "reference BLAS"
    out = {"versions": f"Python {sys.version.split()[0]}, NumPy {np.__version__}, SciPy {scipy.__version__}, {blas}", "draws100_ms": cpu_ms(1, exact_draws)}
    try:
        import sklearn
        from sklearn.gaussian_process import GaussianProcessClassifier, GaussianProcessRegressor
        from sklearn.gaussian_process.kernels import ConstantKernel, Matern

        kernel = ConstantKernel(1.44, "fixed") * Matern(20.0, "fixed", nu=1.5)
        fixed = lambda: GaussianProcessClassifier(kernel, optimizer=None).fit(points, value > 0)
        out["binary_fit_ms"] = cpu_ms(7, fixed)
        out["binary_fit_predict_ms"] = cpu_ms(7, lambda: fixed().predict_proba(grid))
        out["krige_ms"] = cpu_ms(7, lambda: GaussianProcessRegressor(kernel, alpha=0.09, optimizer=None).fit(points, value).predict(grid, return_std=True))
        out["versions"] += f", scikit-learn {sklearn.__version__}"
    except ImportError:
        pass
    print(json.dumps(out))


if __name__ == "__main__":
    main()
