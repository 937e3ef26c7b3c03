#include "work/reveal.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "base/stats.hpp"
#include "money/money.hpp"
#include "tables/table.hpp"
#include "tables/usual.hpp"

namespace awlmark::work {
namespace {

constexpr double kSisterLength_in = 96;

floor::Hours hours_of(const Job& job, const char* row_id, double quantity) {
  const auto* row = tables::table("floor_hours.csv").find("id", row_id);
  const double times = quantity / row->number("per");
  const auto hours = money::floor_hours_of(job, *row);
  return {hours.low * times, hours.likely * times, hours.high * times};
}

bool mends_by_new_members(const floor::Option* option) {
  return option && (option->id.rfind("replaced_members", 0) == 0 || option->id.rfind("like_for_like", 0) == 0);
}

}  // namespace

Repair repair_of(const Job& job, const floor::Option* option, std::size_t index, measure::MemberState state) {
  Repair repair;
  if (state == measure::MemberState::whole) return repair;
  const Support& support = job.supports[index];
  const double length_in = distance_in(support.from_in, support.to_in);
  goods::Section section{2, goods::nominal_in(tables::usual().member_depth_in), 1};
  if (support.size) section = {goods::nominal_in(support.size->b_in / std::max(1, support.size->plies)), goods::nominal_in(support.size->d_in), 1};
  const int plies = support.size ? std::max(1, support.size->plies) : 1;
  const bool girder = support.role == SupportRole::girder;
  if (state == measure::MemberState::decayed_at_rest || mends_by_new_members(option)) {
    repair.words = "new " + doc::spoken(support.role) + " in place of " + support.id + ", " + format_length(length_in);
    auto good = goods::lumber(girder ? goods::Kind::girder : goods::Kind::joist, repair.words, section, length_in, plies);
    repair.goods = {good, goods::connectors(2), goods::shores(girder ? 2 : 1)};
    repair.hours = hours_of(job, "replace_member", (girder ? 2.0 : 1.0) * plies);
  } else {
    section.b_in = 2;
    repair.words = "sister beside " + support.id + ", " + format_length(length_in);
    repair.goods = {goods::lumber(goods::Kind::sister, repair.words, section, length_in, 1)};
    repair.hours = hours_of(job, "sister", std::max(1.0, length_in / kSisterLength_in));
  }
  for (auto& good : repair.goods) good.grows = {goods::Extent::members, {}};
  return repair;
}

Reveal::Reveal(const Job& job, const floor::Option* option, const cutback::Result& cut) : plan_(cut.findings.quantities), draws_(cut.draws) {
  for (const auto& layer : job.layers) layers_.push_back(layer.id);
  // One table: each member's two states, priced once.
  struct Cost {
    double hours = 0, goods = 0;
  };
  std::vector<std::vector<Cost>> table(job.supports.size(), std::vector<Cost>(3));
  for (std::size_t s = 0; s < job.supports.size(); ++s)
    for (const auto state : {measure::MemberState::decayed, measure::MemberState::decayed_at_rest}) {
      const auto repair = repair_of(job, option, s, state);
      auto& cost = table[s][static_cast<std::size_t>(state)];
      cost.hours = repair.hours.likely;
      for (const auto& good : repair.goods) cost.goods += goods::cost(job, good);
    }
  const auto planned = [&](std::size_t s) { return s < plan_.members.size() ? plan_.members[s] : measure::MemberState::whole; };
  for (const auto& draw : draws_) {
    double hours = 0, money = 0;
    for (std::size_t s = 0; s < draw.members.size() && s < table.size(); ++s) {
      if (draw.members[s] <= planned(s)) continue;
      const auto &now = table[s][static_cast<std::size_t>(draw.members[s])], &then = table[s][static_cast<std::size_t>(planned(s))];
      hours += std::max(0.0, now.hours - then.hours);
      money += std::max(0.0, now.goods - then.goods);
    }
    member_hours_.push_back(hours);
    member_goods_.push_back(money);
  }
}

double Reveal::more(const goods::Growth& what, std::size_t draw) const {
  using goods::Extent;
  if (draw >= draws_.size()) return 0;
  const auto& now = draws_[draw];
  switch (what.with) {
    case Extent::layer_sf: {
      const auto layer = static_cast<std::size_t>(std::find(layers_.begin(), layers_.end(), what.layer) - layers_.begin());
      if (layer >= now.layer_sf.size() || layer >= plan_.layer_sf.size()) return 0;
      return now.layer_sf[layer] - plan_.layer_sf[layer];
    }
    case Extent::saw_ft:
      return std::max(0.0, now.saw_ft - plan_.saw_ft);
    case Extent::blocking_ft:
      return std::max(0.0, now.blocking_ft - plan_.blocking_ft);
    case Extent::plate_ft:
      return now.plate_ft - plan_.plate_ft;
    case Extent::wallboard_sf:
      return now.wallboard_sf - plan_.wallboard_sf;
    case Extent::members:
      return member_hours_[draw];
    case Extent::fixed:
    case Extent::posts:
      break;
  }
  return 0;
}

double Reveal::mean_more(const goods::Growth& what) const {
  double sum = 0;
  for (std::size_t d = 0; d < draws_.size(); ++d) sum += more(what, d);
  return draws_.empty() ? 0 : sum / static_cast<double>(draws_.size());
}

double Reveal::mean_member_goods() const { return mean(member_goods_); }

bool Reveal::ever(const goods::Growth& what) const {
  for (std::size_t d = 0; d < draws_.size(); ++d)
    if (more(what, d) > 0) return true;
  return false;
}

double Reveal::chance(std::size_t support, measure::MemberState state) const {
  if (draws_.empty() || support >= plan_.members.size()) return 0;
  std::size_t count = 0;
  for (const auto& draw : draws_) count += draw.members[support] == state && draw.members[support] > plan_.members[support];
  return static_cast<double>(count) / static_cast<double>(draws_.size());
}

}  // namespace awlmark::work
