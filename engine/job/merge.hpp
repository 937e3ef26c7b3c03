// Merge of two edits of one job document, item by item. It works on JSON, so that keys which this version
// does not know survive untouched; it neither validates nor drops anything. How it decides: docs/merge.md.
//
// Promises (tests/job/merge_test.cpp): merging a document with itself or with its ancestor changes nothing;
// merging the result with either side again changes nothing; without conflicts the sides may be swapped; no
// mark, reading, opening or photograph is ever lost.
#pragma once

#include <boost/describe.hpp>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "base/described.hpp"

namespace awlmark {

// Which value stands in the merged document.
enum class Kept { ours, theirs, both };
BOOST_DESCRIBE_ENUM(Kept, ours, theirs, both)

// One place where both sides said something else. A value that a side does not have is null.
struct MergeConflict {
  std::string at;  // "marks[m4].reads": items of lists by their id
  doc::Json base;
  doc::Json ours;
  doc::Json theirs;
  Kept kept = Kept::ours;
  std::string why;  // in words
};

// An id that both sides gave to different things: one of them has a new one.
struct Renamed {
  std::string list;  // "marks"
  std::string from;
  std::string to;
  Kept side = Kept::theirs;  // whose item has the new id
};
BOOST_DESCRIBE_STRUCT(Renamed, (), (list, from, to, side))

struct Merged {
  doc::Json merged;
  std::vector<MergeConflict> conflicts;
  std::vector<Renamed> renamed;
};

// `base` is the last document that both sides had; null when there is none. Where both sides changed one
// value differently, ours stands and the conflict is told.
Merged merge(const doc::Json* base, const doc::Json& ours, const doc::Json& theirs);

// {"merged", "conflicts", "renamed"}, as the doors give it.
doc::Json merged_json(const Merged& merged);

// The same whatever the order of keys.
bool same_json(const doc::Json& a, const doc::Json& b);

}  // namespace awlmark
