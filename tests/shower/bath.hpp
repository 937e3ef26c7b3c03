// A tiled bath with a shower, and joists below it: what the shower's tests begin with.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "shower/shower.hpp"

namespace awlmark::shower {

inline Job tiled_bath(double length = 60, double width = 36) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 96, 84);
  job.room.doors.push_back({});
  job.room.doors.back().id = "d1";
  job.room.doors.back().from_in = {96, 10};
  job.room.doors.back().to_in = {96, 42};
  job.room.doors.back().meets_height_in = 0.75;
  Layer deck;
  deck.id = "deck";
  deck.material = Material::plywood;
  deck.thickness_in = 0.71875;
  job.layers = {deck};
  Rebuild rebuild;
  rebuild.finish = Finish::porcelain_tile;
  job.rebuild = rebuild;
  ShowerPlan shower;
  shower.outline_in = rectangle(0, 84 - width, length, 84);
  shower.entry = Entry::flush;
  shower.drain = Drain{DrainKind::point, Point{length / 2, 84 - width / 2}, {}, {}};
  job.shower = shower;
  return job;
}

inline floor::Floor joists(double spacing, double d = 9.25) {
  floor::Floor floor;
  for (int i = 0; i * spacing <= 112; ++i) {
    floor::FramingLine line;
    line.id = "j" + std::to_string(i + 1);
    line.kind = "joist";
    line.from_in = {-8 + i * spacing, -10};
    line.to_in = {-8 + i * spacing, 94};
    line.b_in = 1.5;
    line.d_in = d;
    floor.framing.push_back(line);
  }
  return floor;
}

inline const HeightStack& stack_at(const ShowerAnswer& answer, const std::string& at) {
  const auto it = std::find_if(answer.stacks.begin(), answer.stacks.end(), [&](const HeightStack& s) { return s.at == at; });
  EXPECT_NE(it, answer.stacks.end());
  return *it;
}

inline const ShowerAnswer* answer_of(const Shower& found, const std::string& id) {
  for (const auto& answer : found.answers)
    if (answer.id == id) return &answer;
  return nullptr;
}

inline bool says(const std::vector<std::string>& list, const std::string& part) {
  return std::any_of(list.begin(), list.end(), [&](const std::string& s) { return s.find(part) != std::string::npos; });
}

}  // namespace awlmark::shower
