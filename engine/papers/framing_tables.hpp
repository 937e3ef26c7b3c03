// The tables of the framing sheet, packed: members alike in one row, checks as a grid, sources once.
#pragma once

#include <string>
#include <vector>

#include "papers/drawing/framing_lines.hpp"
#include "papers/sheet.hpp"

namespace awlmark::papers {

// Rules and sources, each once, in the order in which they are first used. A check's own figures stand
// in its table, so two checks by one rule share one number.
class SourceList {
 public:
  // `before`: how many reasons the paper has numbered already.
  explicit SourceList(int before = 0) : before_(before) {}
  // 0 for a reason that names nothing.
  int number_of(const Reason& reason);
  bool empty() const { return rows_.empty(); }
  void write(Markup& out) const;

 private:
  int before_ = 0;
  std::vector<Reason> rows_;
};

// Members alike in all but their place share a row.
Table schedule_of(const Job& job, const Framing& framing);
// One row for each member, one column for each kind of check; a cell is the ratio, or the words of a
// state that has none. Checks of what is no member (the deck) are left to `check_rows`.
Table check_grid(const Job& job, const std::vector<Check>& checks, SourceList& sources);
// With their figures: every check of the deck, and of the members the worst failing one of each kind.
Table check_rows(const Job& job, const std::vector<Check>& checks, SourceList& sources);
// Of each kind the check nearest to its limit, with its factors in the order used.
std::vector<const Check*> governing(const std::vector<Check>& checks);
// "1.71", "nothing left", "not allowed".
std::string ratio_cell(const Check& check);
// Blocking of one length and one reason in one row.
Table blocking_rows(const cutback::CutBack& cut);

}  // namespace awlmark::papers
