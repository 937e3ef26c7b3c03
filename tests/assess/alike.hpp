// Whether two findings are those of one floor: the second drawn otherwise, or with other names.
// Figures within 1e-6, choices exactly, places where the drawing puts them, names as they were mapped.
// Sentences may name places and things and are not compared; words without a space are.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "../support/drawings.hpp"
#include "findings/findings.hpp"

namespace awlmark::testing {

using Names = std::map<std::string, std::string>;  // from the first floor's to the second's

class Alike {
 public:
  Alike(Drawing drawing, Names names) : drawing_(drawing), names_(std::move(names)) {}

  // Adds a failure for every difference, up to twenty.
  void expect(const Findings& first, const Findings& second) {
    auto a = to_json(first), b = to_json(second);
    cells(first.survey, second.survey);
    for (auto* json : {&a, &b}) {
      (*json)["survey"].erase("grid");
      if ((*json)["survey"].contains("layers")) (*json)["survey"].erase("layers");
      if (json->contains("shower")) forget_order((*json)["shower"]);
    }
    walk(a, b, "findings");
  }
  int differences() const { return found_; }

 private:
  void differ(const std::string& at, const std::string& what) {
    if (++found_ <= 20) ADD_FAILURE() << at << ": " << what;
  }
  static bool near(double a, double b) { return std::fabs(a - b) <= 1e-6 * std::max({1.0, std::fabs(a), std::fabs(b)}); }
  static bool is_point(const doc::Json& json) { return json.is_array() && json.size() == 2 && json[0].is_number() && json[1].is_number(); }
  static bool is_ring(const doc::Json& json) { return json.is_array() && json.size() > 2 && std::all_of(json.begin(), json.end(), is_point); }
  // A pan's planes and lines are listed round its outline, which a mirror image runs the other way, and a
  // whole tile's corner is the drawing's: heights, falls and volumes are compared, these lists are not.
  static void forget_order(doc::Json& shower) {
    if (shower.contains("pan") && shower["pan"].is_object()) {
      for (const char* list : {"planes", "valleys_in", "heights"}) shower["pan"].erase(list);
      if (shower["pan"].contains("contours"))
        for (auto& contour : shower["pan"]["contours"]) contour.erase("lines_in");
    }
    shower.erase("entry_in");
    if (shower.contains("wet_area") && shower["wet_area"].is_object()) shower["wet_area"].erase("band_in");
    if (shower.contains("tile_layouts"))
      for (auto& layout : shower["tile_layouts"]) layout.erase("start_in");
  }
  static bool is_place(const std::string& key) {
    static const std::set<std::string> places = {"at_in",         "from_in",     "to_in",       "origin_in",    "start_in",     "probes_in[]",   "path_in[]",
                                                 "drain_from_in", "drain_to_in", "band_in[][]", "entry_in[][]", "lines_in[][]", "valleys_in[][]"};
    return places.count(key) > 0;
  }
  static bool counts_planks(const std::string& key) { return key == "plank"; }
  std::string named(const std::string& name) const {
    const auto found = names_.find(name);
    if (found != names_.end()) return found->second;
    if (name.rfind("wall:", 0) == 0) return "wall:" + named(name.substr(5));
    return name;
  }

  void directions(const doc::Json& a, const doc::Json& b, const std::string& at) {
    const Point from = drawing_.of({0, 0}), to = drawing_.of({a[0], a[1]});
    if (!near(to.x_in - from.x_in, b[0]) || !near(to.y_in - from.y_in, b[1])) differ(at, a.dump() + " against " + b.dump());
  }

  void points(const doc::Json& a, const doc::Json& b, const std::string& at) {
    if (a.size() != b.size()) return differ(at, std::to_string(a.size()) + " points against " + std::to_string(b.size()));
    std::vector<char> taken(b.size(), 0);
    for (const auto& p : a) {
      const Point want = drawing_.of({p[0], p[1]});
      bool found = false;
      for (std::size_t k = 0; k < b.size() && !found; ++k) {
        if (taken[k] || std::fabs(b[k][0].get<double>() - want.x_in) > 1e-6 || std::fabs(b[k][1].get<double>() - want.y_in) > 1e-6) continue;
        taken[k] = found = true;
      }
      if (!found) return differ(at, "no corner at " + std::to_string(want.x_in) + ", " + std::to_string(want.y_in));
    }
  }

  void walk(const doc::Json& a, const doc::Json& b, const std::string& at, const std::string& key = {}) {
    if (a.type() != b.type() && !(a.is_number() && b.is_number())) return differ(at, a.dump().substr(0, 80) + " against " + b.dump().substr(0, 80));
    if (is_point(a) && is_point(b) && key == "falls_toward") return directions(a, b, at);
    if (is_point(a) && is_point(b) && is_place(key)) return points(doc::Json::array({a}), doc::Json::array({b}), at);
    if (is_ring(a) && is_ring(b)) return points(a, b, at);
    if (a.is_object()) {
      if (a.size() != b.size()) return differ(at, a.dump().substr(0, 120) + " against " + b.dump().substr(0, 120));
      for (const auto& [name, value] : a.items()) {
        if (b.contains(named(name)))
          walk(value, b[named(name)], at + "." + name, name);
        else if (b.contains(name))  // a key of ours, though a part bears the same name
          walk(value, b[name], at + "." + name, name);
        else
          differ(at, "no " + named(name));
      }
    } else if (a.is_array()) {
      if (a.size() != b.size()) return differ(at, std::to_string(a.size()) + " items against " + std::to_string(b.size()));
      for (std::size_t i = 0; i < a.size(); ++i) walk(a[i], b[i], at + "[" + std::to_string(i) + "]", key + "[]");
    } else if (a.is_number()) {
      const bool line = key.size() >= 7 && key.substr(key.size() - 7) == "degrees";
      const double off = std::fmod(drawing_.of_degrees(a.get<double>()) - b.get<double>() + 720, 180);
      if (counts_planks(key) || (line && std::min(off, 180 - off) < 1e-6)) return;
      if (!near(a, b)) differ(at, a.dump() + " against " + b.dump());
    } else if (a.is_string()) {
      const std::string text = a.get<std::string>(), other = b.get<std::string>();
      const bool word = text.find(' ') == std::string::npos && text.find('.') == std::string::npos;
      if (word && key != "item" && other != text && other != named(text)) differ(at, text + " against " + other);
    } else if (a != b) {
      differ(at, a.dump() + " against " + b.dump());
    }
  }

  // The survey's fields: the same chance at the same place.
  void cells(const survey::Survey& a, const survey::Survey& b) {
    const auto& ga = a.grid;
    const auto& gb = b.grid;
    if (a.layers.size() != b.layers.size()) return differ("survey.layers", "other layers");
    for (std::size_t l = 0; l < a.layers.size(); ++l)
      for (int j = 0; j < ga.ny; ++j)
        for (int i = 0; i < ga.nx; ++i) {
          const Point at = drawing_.of({ga.origin_in.x_in + (i + 0.5) * ga.cell_in, ga.origin_in.y_in + (j + 0.5) * ga.cell_in});
          const int bi = static_cast<int>(std::floor((at.x_in - gb.origin_in.x_in) / gb.cell_in)),
                    bj = static_cast<int>(std::floor((at.y_in - gb.origin_in.y_in) / gb.cell_in));
          if (bi < 0 || bj < 0 || bi >= gb.nx || bj >= gb.ny) return differ("survey.grid", "no cell there");
          const std::size_t ka = static_cast<std::size_t>(j * ga.nx + i), kb = static_cast<std::size_t>(bj * gb.nx + bi);
          for (const auto member : {&survey::LayerField::p_unsound, &survey::LayerField::p_gone, &survey::LayerField::p_wet}) {
            const double pa = (a.layers[l].*member)[ka], pb = (b.layers[l].*member)[kb];
            if (std::isnan(pa) != std::isnan(pb) || (!std::isnan(pa) && !near(pa, pb)))
              return differ("survey.layers", std::to_string(pa) + " against " + std::to_string(pb));
          }
        }
  }

  Drawing drawing_;
  Names names_;
  int found_ = 0;
};

}  // namespace awlmark::testing
