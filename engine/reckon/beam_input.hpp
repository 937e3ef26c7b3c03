// Loads and ends as the topics beam and member take them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/doc.hpp"
#include "mechanics/beam.hpp"

namespace awlmark::reckon {

enum class LoadKind { uniform, point, varying };
BOOST_DESCRIBE_ENUM(LoadKind, uniform, point, varying)

enum class LoadOf { live, dead };
BOOST_DESCRIBE_ENUM(LoadOf, live, dead)

struct LoadItem {
  LoadKind kind = LoadKind::uniform;
  std::optional<double> w_pli;
  std::optional<double> w_from_pli;
  std::optional<double> w_to_pli;
  std::optional<double> from_in;
  std::optional<double> to_in;
  std::optional<double> p_lb;
  std::optional<double> at_in;
  std::optional<LoadOf> of;  // where live and dead loads are told apart
};
BOOST_DESCRIBE_STRUCT(LoadItem, (), (kind, w_pli, w_from_pli, w_to_pli, from_in, to_in, p_lb, at_in, of))
doc::FieldRules field_rules(const LoadItem*);

// Loads on a beam of that length; what a kind needs and does not have, or has and does not need, and
// places off the beam become problems at "loads[2].at_in".
mechanics::Loads to_loads(const std::vector<LoadItem>& items, double length_in, Problems& problems);

}  // namespace awlmark::reckon
