// The checks of a job that go beyond types. Items that already have a problem of their own are not
// judged a second time, so that one slip gives one problem. What is judged is the document as written;
// references and places look at the whole job (rows and openings expanded).
#pragma once

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "job/job.hpp"

namespace awlmark {

class Judge {
 public:
  Judge(const Job& job, Problems& problems, Problems& warnings);
  void all();

 private:
  void problem(const std::string& at, const std::string& what, const std::string& mend) { problems_.push_back({at, what, mend}); }
  void warning(const std::string& at, const std::string& what, const std::string& mend) { warnings_.push_back({at, what, mend}); }

  static bool lies_in(const std::string& place, const std::string& at) {
    return place == at || (place.size() > at.size() && place.compare(0, at.size(), at) == 0 && (place[at.size()] == '.' || place[at.size()] == '['));
  }
  // Whether this place, or one inside it, has a problem already.
  bool judged(const std::string& at) const {
    return std::any_of(problems_.begin(), problems_.end(), [&](const Problem& p) { return lies_in(p.at, at); });
  }
  // Whether reading failed there, so that its members may not be what the document says.
  bool unread(const std::string& at) const {
    return std::any_of(problems_.begin(), problems_.begin() + static_cast<std::ptrdiff_t>(from_reading_), [&](const Problem& p) { return lies_in(p.at, at); });
  }

  template <class T, class F>
  void each(const std::string& name, const std::vector<T>& list, F judge) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string at = name + "[" + std::to_string(i) + "]";
      if (!unread(at)) judge(list[i], at);
    }
  }

  template <class T>
  void ids(const std::string& name, const std::vector<T>& list) {
    std::map<std::string, std::size_t> seen;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string at = name + "[" + std::to_string(i) + "].id";
      if (judged(at)) continue;
      if (list[i].id.empty())
        problem(at, "is empty", "give it a short text, unique in its list");
      else if (const auto [first, fresh] = seen.emplace(list[i].id, i); !fresh)
        problem(at, "is '" + list[i].id + "' again, as at " + name + "[" + std::to_string(first->second) + "]", "give each item an id of its own");
    }
  }

  template <class T>
  static std::vector<std::string> ids_of(const std::vector<T>& list) {
    std::vector<std::string> all;
    for (const auto& item : list) all.push_back(item.id);
    return all;
  }

  // Shared checks, validate.cpp.
  bool reference(const std::string& at, const std::string& id, const std::vector<std::string>& known, const char* what);
  void polygon(const Polygon& ring, const std::string& at);
  void line(Point from, Point to, const std::string& at, const char* what);
  void date(const std::optional<std::string>& text, const std::string& at);
  void time(const std::optional<std::string>& text, const std::string& at);
  void time_or_date(const std::string& text, const std::string& at);
  double edge_distance(Point p) const;
  // Whether a spot lies where marks may lie; a problem otherwise.
  bool within_reach(Point spot, const std::string& at, const char* what);

  // The house, validate.cpp.
  void format();
  void room();
  void house();
  void layer(const Layer& layer, const std::string& at);
  void wall(const Wall& wall, const std::string& at);
  // What carries, validate_members.cpp.
  void members();
  void rests(const std::vector<SupportRest>& list, const std::string& self, double length_in, const std::string& at);
  void rests_at(const std::vector<double>& list, double length_in, const std::string& at);
  void support(const Support& support, const std::string& at);
  void row(const SupportRow& row, const std::string& at);
  void row_place(const SupportRow& row, const std::string& at);
  // What was read, validate_readings.cpp.
  void readings();
  void mark_ids();
  void mark(const Mark& mark, const std::string& at);
  void place(const Mark& mark, const std::string& at);
  void on_layer(const Mark& mark, Point spot, const std::string& at);
  void reading(const Mark& mark, const std::string& at);
  void opening(const Opening& opening, const std::string& at);
  void photo(const Photo& photo, const std::string& at);
  void laboratory(const LaboratoryResult& result, const std::string& at);
  // What is planned, validate_plans.cpp.
  void plans();
  void shower(const ShowerPlan& shower);
  void drain(const ShowerPlan& shower);
  void work(const WorkPlan& work);
  // The contractor's rates, validate_rates.cpp.
  void rates(const Rates& rates);

  const Job job_;   // as written
  const Job full_;  // expanded
  Problems& problems_;
  Problems& warnings_;
  const std::size_t from_reading_;  // how many problems reading left
  bool outline_ok_ = false;
};

// Larger rooms are a slip of units, and the grid would be too big.
inline constexpr double kLargestRoom_in = 1200;

}  // namespace awlmark
