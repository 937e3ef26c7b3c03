// The appendix of reasons: every figure that somebody may ask about gets a number here.
#pragma once

#include <vector>

#include "base/reason.hpp"
#include "papers/markup.hpp"

namespace awlmark::papers {

class ReasonList {
 public:
  // The number of this reason; the same reason twice gets the same number. 0 for an empty one.
  int number_of(const Reason& reason);
  bool empty() const { return reasons_.empty(); }
  int count() const { return static_cast<int>(reasons_.size()); }
  void write(Markup& out) const;

 private:
  std::vector<Reason> reasons_;
};

}  // namespace awlmark::papers
