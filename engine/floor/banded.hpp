// A symmetric banded system, solved by L D L^T without pivoting.
//
// For stiffness matrices only: positive definite once the structure is held. `solve` returns false
// when a pivot is not positive relative to the largest, that is, when something can move freely.
// Cost n * band^2. The order of every sum is fixed, so native and WebAssembly agree to the bit.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace awlmark::floor {

class BandedSymmetric {
 public:
  BandedSymmetric(std::size_t size, std::size_t band) : size_(size), band_(band), a_(size * (band + 1), 0.0) {}
  std::size_t size() const { return size_; }

  void add(std::size_t i, std::size_t j, double value) {
    if (i < j) std::swap(i, j);
    a_[i * (band_ + 1) + (i - j)] += value;
  }
  double get(std::size_t i, std::size_t j) const {
    if (i < j) std::swap(i, j);
    return i - j > band_ ? 0.0 : a_[i * (band_ + 1) + (i - j)];
  }

  // Factors in place; call once, then `back` for each right side.
  bool factor() {
    double largest = 0;
    for (std::size_t i = 0; i < size_; ++i) largest = std::max(largest, at(i, 0));
    for (std::size_t j = 0; j < size_; ++j) {
      const std::size_t first = j > band_ ? j - band_ : 0;
      // Column entries of row j are held as L * D until the row is done.
      for (std::size_t k = first; k < j; ++k) {
        const std::size_t low = std::max(first, k > band_ ? k - band_ : 0);
        double sum = at(j, j - k);
        for (std::size_t m = low; m < k; ++m) sum -= at(j, j - m) * at(k, k - m);
        at(j, j - k) = sum;
      }
      double pivot = at(j, 0);
      for (std::size_t k = first; k < j; ++k) {
        const double held = at(j, j - k);
        const double factor = held / at(k, 0);
        pivot -= held * factor;
        at(j, j - k) = factor;
      }
      if (!(pivot > 1e-13 * largest)) return false;
      at(j, 0) = pivot;
    }
    return true;
  }

  void back(std::vector<double>& x) const {
    for (std::size_t i = 0; i < size_; ++i) {
      const std::size_t first = i > band_ ? i - band_ : 0;
      for (std::size_t k = first; k < i; ++k) x[i] -= at(i, i - k) * x[k];
    }
    for (std::size_t i = 0; i < size_; ++i) x[i] /= at(i, 0);
    for (std::size_t i = size_; i-- > 0;) {
      const std::size_t first = i > band_ ? i - band_ : 0;
      for (std::size_t k = first; k < i; ++k) x[k] -= at(i, i - k) * x[i];
    }
  }

 private:
  double& at(std::size_t row, std::size_t below) { return a_[row * (band_ + 1) + below]; }
  double at(std::size_t row, std::size_t below) const { return a_[row * (band_ + 1) + below]; }

  std::size_t size_;
  std::size_t band_;
  std::vector<double> a_;
};

}  // namespace awlmark::floor
