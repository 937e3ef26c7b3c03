// How items of lists are told apart: shared by the parts of the merge.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/merge.hpp"

namespace awlmark::merging {

// What names an item in a list of this name: its id, or for the lists without ids what stands in its
// place (a gate and its time, a task, the end of a rest); nothing where nothing does.
std::optional<std::string> key_of(const std::string& list, const doc::Json& item);

// Items by key, in order; nothing when an item has no key or a key stands twice.
struct Keyed {
  std::vector<std::string> order;
  std::map<std::string, const doc::Json*> items;
};
std::optional<Keyed> keyed(const std::string& list, const doc::Json* json);

// JSON text with sorted keys, for comparing alone.
std::string canonical(const doc::Json& json);

// Gives a new id to one of two different things that the sides called alike, on copies of the sides.
void part_namesakes(const doc::Json* base, doc::Json& ours, doc::Json& theirs, std::vector<Renamed>& renamed);
// Brings back what one side removed and the other side's items still name.
void restore_named(const doc::Json* base, const doc::Json& ours, const doc::Json& theirs, Merged& out);

}  // namespace awlmark::merging
