#include "job/merge.hpp"

#include <algorithm>
#include <set>

#include "base/doc.hpp"
#include "job/merge_items.hpp"

namespace awlmark {

using doc::Json;
using namespace merging;

bool same_json(const Json& a, const Json& b) {
  if (a.is_object() && b.is_object()) {
    if (a.size() != b.size()) return false;
    for (const auto& [key, value] : a.items()) {
      const auto other = b.find(key);
      if (other == b.end() || !same_json(value, *other)) return false;
    }
    return true;
  }
  if (a.is_array() && b.is_array()) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](const Json& x, const Json& y) { return same_json(x, y); });
  }
  return a == b;
}

namespace {

bool same(const Json* a, const Json* b) { return a == nullptr || b == nullptr ? a == b : same_json(*a, *b); }
Json copy_or_null(const Json* json) { return json != nullptr ? *json : Json(nullptr); }
const Json* member(const Json* object, const std::string& key) {
  if (object == nullptr || !object->is_object()) return nullptr;
  const auto found = object->find(key);
  return found == object->end() ? nullptr : &*found;
}
const Json* item(const Keyed* list, const std::string& key) {
  if (list == nullptr) return nullptr;
  const auto found = list->items.find(key);
  return found == list->items.end() ? nullptr : found->second;
}

class Merger {
 public:
  explicit Merger(Merged& out) : out_(out) {}

  // The merged value at `at`; nothing when it is gone. `list` is the key that leads here.
  std::optional<Json> value(const Json* base, const Json* ours, const Json* theirs, const std::string& at, const std::string& list) {
    if (same(ours, theirs)) return present(ours);
    if (base != nullptr && same(ours, base)) return present(theirs);
    if (base != nullptr && same(theirs, base)) return present(ours);
    if ((ours == nullptr || theirs == nullptr) && base != nullptr && base->is_array())
      if (auto merged = emptied(*base, ours, theirs, at, list)) return merged->empty() ? std::nullopt : merged;
    if (ours == nullptr || theirs == nullptr) {
      const Json* kept = ours != nullptr ? ours : theirs;
      if (base != nullptr)
        clash(base, ours, theirs, at, ours != nullptr ? Kept::ours : Kept::theirs, "changed on one side, removed on the other; the change stays");
      return present(kept);
    }
    if (ours->is_object() && theirs->is_object()) return object(base, *ours, *theirs, at);
    if (ours->is_array() && theirs->is_array())
      if (auto merged = array(base, *ours, *theirs, at, list)) return merged;
    clash(base, ours, theirs, at, Kept::ours, base != nullptr ? "changed on both sides" : "differs");
    return *ours;
  }

 private:
  static std::optional<Json> present(const Json* json) { return json != nullptr ? std::optional<Json>(*json) : std::nullopt; }

  void clash(const Json* base, const Json* ours, const Json* theirs, const std::string& at, Kept kept, const std::string& why) {
    out_.conflicts.push_back({at, copy_or_null(base), copy_or_null(ours), copy_or_null(theirs), kept, why});
  }

  // A list that one side emptied is left out there; its items were still removed one by one.
  std::optional<Json> emptied(const Json& base, const Json* ours, const Json* theirs, const std::string& at, const std::string& list) {
    const Json none = Json::array();
    const Json &mine = ours != nullptr ? *ours : none, &yours = theirs != nullptr ? *theirs : none;
    return mine.is_array() && yours.is_array() ? array(&base, mine, yours, at, list) : std::nullopt;
  }

  Json object(const Json* base, const Json& ours, const Json& theirs, const std::string& at) {
    Json merged = Json::object();
    const auto one = [&](const std::string& key) {
      if (auto result = value(member(base, key), member(&ours, key), member(&theirs, key), doc::join(at, key), key)) merged[key] = std::move(*result);
    };
    for (const auto& [key, unused] : ours.items()) one(key);
    for (const auto& [key, unused] : theirs.items())
      if (!ours.contains(key)) one(key);
    return merged;
  }

  // Nothing where the items have no names: the list is then one value.
  std::optional<Json> array(const Json* base, const Json& ours, const Json& theirs, const std::string& at, const std::string& list) {
    if (base != nullptr && !base->is_array()) base = nullptr;
    const auto a = keyed(list, &ours), b = keyed(list, &theirs), before = keyed(list, base);
    if (!a || !b || (base != nullptr && !before)) return std::nullopt;
    const Keyed* old = base != nullptr ? &*before : nullptr;
    Json merged = Json::array();
    for (const auto& key : order(old, *a, *b, at)) {
      const Json *was = item(old, key), *mine = item(&*a, key), *other = item(&*b, key);
      if (auto result = value(was, mine, other, at + "[" + key + "]", list)) merged.push_back(std::move(*result));
    }
    return merged;
  }

  static std::vector<std::string> only(const std::vector<std::string>& order, const std::set<std::string>& wanted) {
    std::vector<std::string> out;
    for (const auto& key : order)
      if (wanted.count(key) > 0) out.push_back(key);
    return out;
  }

  // What a side put in, by the item of both sides that it stands behind ("" at the front).
  static std::map<std::string, std::vector<std::string>> additions(const Keyed& side, const std::set<std::string>& common) {
    std::map<std::string, std::vector<std::string>> out;
    std::string behind;
    for (const auto& key : side.order) {
      if (common.count(key) > 0)
        behind = key;
      else
        out[behind].push_back(key);
    }
    return out;
  }

  // All keys of both sides in one order: the common ones as the side has them that moved some, the others
  // behind the one that they stood behind; where both put something in one place, the lesser name first.
  std::vector<std::string> order(const Keyed* base, const Keyed& ours, const Keyed& theirs, const std::string& at) {
    std::set<std::string> common;
    for (const auto& key : ours.order)
      if (theirs.items.count(key) > 0) common.insert(key);
    auto spine = only(ours.order, common);
    const auto other = only(theirs.order, common);
    if (spine != other) {
      const auto was = base != nullptr ? only(base->order, common) : std::vector<std::string>{};
      if (spine == was)
        spine = other;
      else if (other != was && base != nullptr)
        clash(nullptr, nullptr, nullptr, at, Kept::ours, "both sides put the list into another order; ours stands");
    }
    const auto mine = additions(ours, common), yours = additions(theirs, common);
    std::vector<std::string> all;
    const auto append = [&](const std::string& behind) {
      const auto a = mine.find(behind), b = yours.find(behind);
      const auto put = [&](const auto& found, const auto& end) {
        if (found != end) all.insert(all.end(), found->second.begin(), found->second.end());
      };
      const bool swap = a != mine.end() && b != yours.end() && b->second.front() < a->second.front();
      if (swap) put(b, yours.end());
      put(a, mine.end());
      if (!swap) put(b, yours.end());
    };
    append("");
    for (const auto& key : spine) {
      all.push_back(key);
      append(key);
    }
    return all;
  }

  Merged& out_;
};

}  // namespace

Merged merge(const Json* base, const Json& ours, const Json& theirs) {
  Merged out;
  Json mine = ours, yours = theirs;
  part_namesakes(base, mine, yours, out.renamed);
  Merger merger(out);
  out.merged = merger.value(base, &mine, &yours, "", "").value_or(Json::object());
  restore_named(base, mine, yours, out);
  return out;
}

Json merged_json(const Merged& merged) {
  Json conflicts = Json::array();
  for (const auto& c : merged.conflicts)
    conflicts.push_back({{"at", c.at}, {"base", c.base}, {"ours", c.ours}, {"theirs", c.theirs}, {"kept", doc::word_of(c.kept)}, {"why", c.why}});
  return {{"merged", merged.merged}, {"conflicts", conflicts}, {"renamed", doc::write(merged.renamed)}};
}

}  // namespace awlmark
