#include "reckon/beam_input.hpp"

#include "base/doc.hpp"

namespace awlmark::reckon {
namespace {

class Reader {
 public:
  Reader(const LoadItem& item, std::size_t index, double length_in, Problems& problems)
      : item_(item), at_("loads[" + std::to_string(index) + "]."), length_in_(length_in), problems_(problems) {}

  void add_to(mechanics::Loads& loads) {
    const std::size_t before = problems_.size();
    if (item_.kind == LoadKind::point) {
      need(item_.p_lb, "p_lb");
      need(item_.at_in, "at_in");
      for (const auto& [value, key] : {std::pair{item_.w_pli, "w_pli"},
                                       {item_.w_from_pli, "w_from_pli"},
                                       {item_.w_to_pli, "w_to_pli"},
                                       {item_.from_in, "from_in"},
                                       {item_.to_in, "to_in"}})
        not_for(value, key);
      on_beam(item_.at_in, "at_in");
      if (problems_.size() == before) loads.points.push_back({*item_.p_lb, *item_.at_in});
      return;
    }
    const bool varying = item_.kind == LoadKind::varying;
    if (varying) {
      need(item_.w_from_pli, "w_from_pli");
      need(item_.w_to_pli, "w_to_pli");
      not_for(item_.w_pli, "w_pli");
    } else {
      need(item_.w_pli, "w_pli");
      not_for(item_.w_from_pli, "w_from_pli");
      not_for(item_.w_to_pli, "w_to_pli");
    }
    not_for(item_.p_lb, "p_lb");
    not_for(item_.at_in, "at_in");
    on_beam(item_.from_in, "from_in");
    on_beam(item_.to_in, "to_in");
    const double from = item_.from_in.value_or(0), to = item_.to_in.value_or(length_in_);
    if (problems_.size() == before && !(to - from > 1e-6))
      problems_.push_back({at_ + "to_in", "is not to the right of from_in", "exchange the two, or give a point load"});
    if (problems_.size() != before) return;
    if (varying)
      loads.lines.push_back({*item_.w_from_pli, *item_.w_to_pli, from, to});
    else
      loads.lines.push_back(mechanics::uniform(*item_.w_pli, from, to));
  }

 private:
  void need(const std::optional<double>& value, const char* key) {
    if (!value) problems_.push_back({at_ + key, "is missing", "a " + doc::word_of(item_.kind) + " load needs it"});
  }
  void not_for(const std::optional<double>& value, const char* key) {
    if (value) problems_.push_back({at_ + key, "does not belong to a " + doc::word_of(item_.kind) + " load", "take it out, or change kind"});
  }
  void on_beam(const std::optional<double>& x, const char* key) {
    if (x && *x > length_in_ + 1e-6)
      problems_.push_back(
          {at_ + key, "is " + doc::Json(*x).dump() + ", past the end of the beam at " + doc::Json(length_in_).dump() + " in.", "measure from the left end"});
  }

  const LoadItem& item_;
  std::string at_;
  double length_in_;
  Problems& problems_;
};

}  // namespace

doc::FieldRules field_rules(const LoadItem*) {
  return {{.name = "kind", .text = "uniform: w_pli; varying: from w_from_pli to w_to_pli in a straight line; point: p_lb"},
          {.name = "w_pli", .text = "downwards", .min = -1e6, .max = 1e6},
          {.name = "w_from_pli", .min = -1e6, .max = 1e6},
          {.name = "w_to_pli", .min = -1e6, .max = 1e6},
          {.name = "from_in", .text = "from the left end; 0 when left out", .min = 0, .max = 1e5},
          {.name = "to_in", .text = "the right end when left out", .min = 0, .max = 1e5},
          {.name = "p_lb", .text = "downwards", .min = -1e8, .max = 1e8},
          {.name = "at_in", .text = "from the left end", .min = 0, .max = 1e5},
          {.name = "of", .text = "live where left out; a beam alone does not tell them apart"}};
}

mechanics::Loads to_loads(const std::vector<LoadItem>& items, double length_in, Problems& problems) {
  mechanics::Loads loads;
  for (std::size_t i = 0; i < items.size(); ++i) Reader(items[i], i, length_in, problems).add_to(loads);
  return loads;
}

}  // namespace awlmark::reckon
