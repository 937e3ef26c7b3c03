#include "merge.hpp"

#include <cstdio>

#include "base/doc.hpp"
#include "files.hpp"
#include "job/merge.hpp"

namespace awlmark::cli {
namespace {

constexpr int kConflicts = 3;

// The document of a file as it is: a newer one is merged too, so only JSON is asked for.
std::optional<doc::Json> document(const std::string& path) {
  const auto text = read_file(path, doc::Limits{}.max_bytes);
  Problems problems = text.problems;
  if (text) {
    auto parsed = doc::parse(*text.value);
    problems = parsed.problems;
    if (parsed && parsed.value->is_object()) return *parsed.value;
    if (parsed) problems.push_back({"", "is no job document", "give the file of a job"});
  }
  for (const auto& problem : problems) std::fprintf(stderr, "%s: %s\n", path.c_str(), describe(problem).c_str());
  return std::nullopt;
}

std::string shown(const doc::Json& value) {
  const std::string text = value.is_null() ? "nothing" : value.dump();
  return text.size() <= 100 ? text : text.substr(0, 97) + "...";
}

void tell(const Merged& merged) {
  for (const auto& c : merged.conflicts)
    std::fprintf(stderr, "  %s: %s\n    ours:   %s\n    theirs: %s\n", c.at.c_str(), c.why.c_str(), shown(c.ours).c_str(), shown(c.theirs).c_str());
  for (const auto& r : merged.renamed)
    std::fprintf(stderr, "  %s: both sides have a '%s'; %s is now '%s'\n", r.list.c_str(), r.from.c_str(), r.side == Kept::ours ? "ours" : "theirs",
                 r.to.c_str());
}

}  // namespace

int merge_files(const MergeArguments& arguments) {
  std::optional<doc::Json> base;
  if (!arguments.base.empty()) {
    base = document(arguments.base);
    if (!base) return 2;
  }
  const auto ours = document(arguments.ours), theirs = document(arguments.theirs);
  if (!ours || !theirs) return 2;
  const auto merged = merge(base ? &*base : nullptr, *ours, *theirs);
  const std::string text = (arguments.json ? merged_json(merged) : merged.merged).dump(2) + "\n";
  if (arguments.out.empty()) {
    std::fwrite(text.data(), 1, text.size(), stdout);
  } else if (const auto problems = write_file(arguments.out, text); !problems.empty()) {
    std::fprintf(stderr, "%s\n", describe(problems.front()).c_str());
    return 1;
  }
  tell(merged);
  return merged.conflicts.empty() ? 0 : kConflicts;
}

}  // namespace awlmark::cli
