// Small whole floors and what is found in their answers, shared by the tests of ways.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "floor/floor.hpp"
#include "members.hpp"

namespace awlmark::floor {

using awlmark::testing::support_of;

inline Layer layer(const std::string& id, Material material, double thickness_in) {
  Layer one;
  one.id = id;
  one.material = material;
  one.thickness_in = thickness_in;
  one.runs = Runs{0};
  one.species = Species::douglas_fir_larch;
  one.grade = Grade::decking_commercial;
  return one;
}

// 2x10s 16 in. apart over 12 ft under plywood.
inline Job joists(Finish finish) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 128, 144);
  job.layers = {layer("deck", Material::plywood, 0.75)};
  for (int i = 0; i < 8; ++i)
    job.supports.push_back(support_of("j" + std::to_string(i + 1), SupportRole::joist, {8 + 16.0 * i, 0}, {8 + 16.0 * i, 144}, "2x10", {0, 144}));
  Rebuild rebuild;
  rebuild.finish = finish;
  job.rebuild = rebuild;
  return job;
}

// 2-in. planks over 4x10s 48 in. apart on 4x4 posts.
inline Job girders(Finish finish) {
  Job job;
  job.job.below = Below::crawl_space;
  job.room.outline_in = rectangle(0, 0, 132, 96);
  auto deck = layer("deck", Material::plank_tg, 1.5);
  deck.face_width_in = 5.25;
  job.layers = {deck};
  int number = 0;
  for (const double x : {-6.0, 42.0, 90.0, 138.0}) {
    auto girder = support_of("g" + std::to_string(++number), SupportRole::girder, {x, -36}, {x, 132}, "4x10", {0, 84, 168});
    girder.post_size = section_of("4x4");
    girder.post_length_in = 30;
    job.supports.push_back(girder);
  }
  Rebuild rebuild;
  rebuild.finish = finish;
  job.rebuild = rebuild;
  return job;
}

inline cutback::CutBack hole(double x0, double y0, double x1, double y1) {
  cutback::CutBack cut;
  cutback::Piece piece;
  piece.id = "deck.1";
  piece.layer = "deck";
  piece.kind = "panel";
  piece.outline_in = rectangle(x0, y0, x1, y1);
  piece.out = true;
  cut.pieces = {piece};
  cut.area_sf["deck"] = (x1 - x0) * (y1 - y0) / 144;
  cut.outlines_in["deck"] = {piece.outline_in};
  return cut;
}

inline Mark rot(const std::string& support, double along_in, double depth_in, Face face = Face::top) {
  Mark mark;
  mark.id = "m" + support;
  mark.support = support;
  mark.along_in = along_in;
  mark.reads = Reading::gone;
  mark.depth_in = depth_in;
  mark.face = face;
  return mark;
}

inline const Option* find(const Floor& floor, const std::string& id) {
  for (const auto& option : floor.options)
    if (option.id == id) return &option;
  return nullptr;
}
inline std::vector<FramingLine> lines(const Option& option, const std::string& kind) {
  std::vector<FramingLine> out;
  for (const auto& line : option.framing)
    if (line.kind == kind) out.push_back(line);
  return out;
}

// Every sawn member on the list is a section that is sold, and the section checked is that one.
inline void expect_sold(const Floor& floor) {
  for (const auto& option : floor.options)
    for (const auto& line : option.framing) {
      const auto size = section_of(line.size);
      ASSERT_TRUE(size) << option.id << " " << line.id << " " << line.size;
      EXPECT_NEAR(size->b_in, line.b_in, 1e-9) << option.id << " " << line.id << " " << line.size;
      EXPECT_NEAR(size->d_in, line.d_in, 1e-9) << option.id << " " << line.id << " " << line.size;
    }
}

}  // namespace awlmark::floor
