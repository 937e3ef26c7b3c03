// What opening up shows beyond the plan, draw by draw, and what mending a member then takes.
#pragma once

#include <string>
#include <vector>

#include "cutback/cutback.hpp"
#include "floor/floor.hpp"
#include "goods/goods.hpp"
#include "job/job.hpp"

namespace awlmark::work {

// The repair of one member in one state: what it takes beside everything else.
struct Repair {
  std::string words;  // "sister 2x8, 12'"
  std::vector<goods::Good> goods;
  floor::Hours hours;
};
// As the chosen way mends its members: with sisters, or by new ones; at a rest always by a new one.
Repair repair_of(const Job& job, const floor::Option* option, std::size_t support, measure::MemberState state);

class Reveal {
 public:
  Reveal() = default;
  Reveal(const Job& job, const floor::Option* option, const cutback::Result& cut);
  std::size_t draws() const { return draws_.size(); }  // 0 without a survey
  // Beyond the plan in that draw. Members count in likely hours of their repairs.
  double more(const goods::Growth& what, std::size_t draw) const;
  double member_goods(std::size_t draw) const { return member_goods_.empty() ? 0 : member_goods_[draw]; }  // money
  double mean_more(const goods::Growth& what) const;
  double mean_member_goods() const;
  bool ever(const goods::Growth& what) const;  // in any draw
  // Chance that the member turns up in a state that the plan does not mend.
  double chance(std::size_t support, measure::MemberState state) const;

 private:
  std::vector<std::string> layers_;
  measure::Quantities plan_;
  std::vector<measure::Quantities> draws_;
  std::vector<double> member_hours_, member_goods_;
};

}  // namespace awlmark::work
