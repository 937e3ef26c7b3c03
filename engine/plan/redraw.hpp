// Moves every place in a value made of described structs: from the drawing to the floor's own frame
// (the job) or back (findings). Places are Points wherever they stand; directions are Runs and numbers
// whose name ends in "degrees" (temperatures carry _f). A stage need not know of this: what it adds to
// its findings is moved with the rest. Areas by cell are the survey's own business (assess/drawn.cpp).
#pragma once

#include <algorithm>
#include <map>
#include <optional>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/described.hpp"
#include "job/job.hpp"
#include "plan/turn.hpp"

namespace awlmark::plan {

struct ToOwn {
  const Turn& turn;
  Point place(Point p) const { return turn.own(p); }
  double degrees(double d) const { return turn.own_degrees(d); }
  void ring(Polygon& moved) const { settle_ring(moved); }  // counter-clockwise from the lowest corner
};

struct ToDrawn {
  const Turn& turn;
  Point place(Point p) const { return turn.drawn(p); }
  double degrees(double d) const { return turn.drawn_degrees(d); }
  void ring(Polygon& moved) const {  // holes stay clockwise, outlines counter-clockwise
    if (turn.mirrors() && moved.size() > 2) std::reverse(moved.begin() + 1, moved.end());
  }
};

namespace redrawing {
inline bool ends_with(std::string_view name, std::string_view end) { return name.size() >= end.size() && name.substr(name.size() - end.size()) == end; }
inline bool names_a_ring(std::string_view name) {
  for (const std::string_view word : {"outline", "ring", "hole", "absent"})
    if (name.find(word) != std::string_view::npos) return true;
  return false;
}
template <class T>
struct Inner : std::false_type {};
template <class T>
struct Inner<std::optional<T>> : std::true_type {};
template <class T>
struct ListOf : std::false_type {};
template <class T>
struct ListOf<std::vector<T>> : std::true_type {};
template <class T>
struct MapOf : std::false_type {};
template <class K, class T>
struct MapOf<std::map<K, T>> : std::true_type {};
}  // namespace redrawing

template <class T, class Move>
void redraw(T& value, const Move& move, std::string_view name = {}) {
  if constexpr (std::is_same_v<T, Point>) {
    value = move.place(value);
  } else if constexpr (std::is_same_v<T, Runs>) {
    value.degrees = move.degrees(value.degrees);
  } else if constexpr (std::is_same_v<T, double>) {
    if (redrawing::ends_with(name, "degrees")) value = move.degrees(value);
  } else if constexpr (std::is_same_v<T, Polygon>) {
    for (Point& p : value) p = move.place(p);
    if (redrawing::names_a_ring(name)) move.ring(value);
  } else if constexpr (redrawing::Inner<T>::value) {
    if (value) redraw(*value, move, name);
  } else if constexpr (redrawing::ListOf<T>::value) {
    if constexpr (std::is_class_v<typename T::value_type>)
      for (auto& item : value) redraw(item, move, name);
  } else if constexpr (redrawing::MapOf<T>::value) {
    for (auto& item : value) redraw(item.second, move, name);
  } else if constexpr (std::is_class_v<T> && boost::describe::has_describe_members<T>::value) {
    using Members = boost::describe::describe_members<T, boost::describe::mod_any_access | boost::describe::mod_inherited>;
    boost::mp11::mp_for_each<Members>([&](auto d) { redraw(value.*d.pointer, move, d.name); });
  }
}

}  // namespace awlmark::plan
