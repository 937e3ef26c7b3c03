// awlmark merge: two edits of one job into one document.
#pragma once

#include <string>

namespace awlmark::cli {

struct MergeArguments {
  std::string base;  // empty: no common ancestor
  std::string ours;
  std::string theirs;
  std::string out;  // empty: standard output
  bool json = false;
};

// Exit code: 0 merged, 1 the file cannot be written, 2 bad input, 3 merged with conflicts that people must look at.
int merge_files(const MergeArguments& arguments);

}  // namespace awlmark::cli
