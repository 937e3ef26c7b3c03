// Names of items: which key tells them apart, namesakes of two sides, and items that others name.
#include "job/merge_items.hpp"

#include <algorithm>
#include <set>

#include "base/doc.hpp"

namespace awlmark::merging {

using doc::Json;

namespace {

// Lists without ids, and the keys that tell their items apart.
const std::map<std::string, std::vector<std::string>>& natural_keys() {
  static const std::map<std::string, std::vector<std::string>> keys = {{"met", {"gate", "time"}},   {"laboratory", {"layer", "wall", "part", "date"}},
                                                                       {"rests", {"end", "at_in"}}, {"cuts", {"along_in", "face"}},
                                                                       {"hours", {"task"}},         {"goods", {"item", "unit"}}};
  return keys;
}

}  // namespace

std::optional<std::string> key_of(const std::string& list, const Json& item) {
  if (item.is_string()) return item.get<std::string>();  // ids, dates: a set
  if (!item.is_object()) return std::nullopt;
  if (const auto id = item.find("id"); id != item.end() && id->is_string() && !id->get_ref<const std::string&>().empty()) return id->get<std::string>();
  const auto natural = natural_keys().find(list);
  if (natural == natural_keys().end()) return std::nullopt;
  std::string key;
  for (const auto& part : natural->second)
    if (const auto found = item.find(part); found != item.end())
      key += (key.empty() ? "" : " ") + (found->is_string() ? found->get<std::string>() : found->dump());
  return key.empty() ? std::nullopt : std::optional<std::string>(key);
}

std::optional<Keyed> keyed(const std::string& list, const Json* json) {
  Keyed out;
  if (json == nullptr) return out;
  for (const auto& item : *json) {
    const auto key = key_of(list, item);
    if (!key || !out.items.emplace(*key, &item).second) return std::nullopt;
    out.order.push_back(*key);
  }
  return out;
}

std::string canonical(const Json& json) { return nlohmann::json(json).dump(-1, ' ', false, Json::error_handler_t::replace); }

namespace {

// Every object of a list of the job, at the top or inside another list ("openings", "readings").
template <class J, class Act>  // J: Json or const Json
void each_item(J& job, const std::vector<std::string>& path, const Act& act, std::size_t step = 0) {
  if (!job.is_object()) return;
  const auto found = job.find(path[step]);
  if (found == job.end()) return;
  if (found->is_object() && step + 1 < path.size()) return each_item(*found, path, act, step + 1);
  if (!found->is_array()) return;
  for (auto& item : *found) {
    if (step + 1 < path.size())
      each_item(item, path, act, step + 1);
    else if (item.is_object())
      act(item);
  }
}

std::string text_at(const Json& item, const char* key) {
  const auto found = item.find(key);
  return found != item.end() && found->is_string() ? found->get<std::string>() : std::string();
}

// Things that people record on the spot: two of them are two, whatever they are called.
struct Space {
  const char* name;
  std::vector<std::vector<std::string>> lists;
  std::vector<std::pair<std::vector<std::string>, const char*>> references;  // a key with the id, or with a list of ids
};
const std::vector<Space>& spaces() {
  static const std::vector<Space> all = {
      {"marks", {{"marks"}, {"openings", "readings"}}, {{{"photos"}, "mark"}}},
      {"photos", {{"photos"}}, {{{"openings"}, "photos"}}},
      {"openings", {{"openings"}}, {{{"photos"}, "opening"}}},
      {"drying.readings", {{"drying", "readings"}}, {}},
      {"visits", {{"visits"}}, {}},
      {"decisions", {{"decisions"}}, {}},
  };
  return all;
}

using Things = std::map<std::string, Json>;

Things things_of(const Json& job, const Space& space) {
  Things out;
  for (const auto& list : space.lists)
    each_item(job, list, [&](const Json& item) {
      if (const auto id = text_at(item, "id"); !id.empty()) out.emplace(id, item);
    });
  return out;
}

void rename(Json& job, const Space& space, const std::string& from, const std::string& to) {
  for (const auto& list : space.lists)
    each_item(job, list, [&](Json& item) {
      if (text_at(item, "id") == from) item["id"] = to;
    });
  for (const auto& [list, key] : space.references)
    each_item(job, list, [&, name = key](Json& item) {
      if (text_at(item, name) == from) item[name] = to;
      if (const auto ids = item.find(name); ids != item.end() && ids->is_array())
        for (auto& id : *ids)
          if (id.is_string() && id.get_ref<const std::string&>() == from) id = to;
    });
}

// Whether no key says different things on the two sides: then they may be one thing, told twice.
bool agree(const Json& a, const Json& b) {
  return std::all_of(a.items().begin(), a.items().end(), [&](const auto& entry) {
    const auto other = b.find(entry.key());
    return other == b.end() || same_json(entry.value(), *other);
  });
}

Json without_id(Json item) {
  item.erase("id");
  return item;
}

// The id under which `other` already has this very thing from an earlier merge, else the next free one.
std::string new_id(const std::string& id, const Json& item, const Things& own, const Things& other) {
  for (int n = 2;; ++n) {
    const std::string name = id + "-" + std::to_string(n);
    const auto found = other.find(name);
    if (found != other.end() && same_json(without_id(found->second), without_id(item))) return name;
    if (found == other.end() && own.count(name) == 0) return name;
  }
}

}  // namespace

void part_namesakes(const Json* base, Json& ours, Json& theirs, std::vector<Renamed>& renamed) {
  for (const auto& space : spaces()) {
    const Things before = base != nullptr ? things_of(*base, space) : Things{};
    Things mine = things_of(ours, space), yours = things_of(theirs, space);
    const Things mine_first = mine;
    for (const auto& [id, item] : mine_first) {
      const auto other = yours.find(id);
      if (other == yours.end() || before.count(id) > 0 || agree(item, other->second)) continue;
      // Whoever merges, the same one keeps its name.
      const bool ours_moves = canonical(other->second) < canonical(item);
      const std::string to = ours_moves ? new_id(id, item, mine, yours) : new_id(id, other->second, yours, mine);
      rename(ours_moves ? ours : theirs, space, id, to);
      Json moved = ours_moves ? item : other->second;
      moved["id"] = to;
      (ours_moves ? mine : yours)[to] = moved;
      renamed.push_back({space.name, id, to, ours_moves ? Kept::ours : Kept::theirs});
    }
  }
}

namespace {

// Lists whose items others name, and who names them.
struct Reference {
  std::vector<std::string> from;
  const char* key;
  const char* to;
};
const std::vector<Reference>& references() {
  static const std::vector<Reference> all = {
      {{"marks"}, "layer", "layers"},
      {{"marks"}, "support", "supports"},
      {{"marks"}, "wall", "walls"},
      {{"openings", "readings"}, "layer", "layers"},
      {{"openings", "readings"}, "support", "supports"},
      {{"openings", "readings"}, "wall", "walls"},
      {{"drying", "readings"}, "layer", "layers"},
      {{"drying", "readings"}, "support", "supports"},
      {{"supports", "rests"}, "support", "supports"},
      {{"supports", "rests"}, "wall", "walls"},
      {{"rows", "rests"}, "support", "supports"},
      {{"rows", "rests"}, "wall", "walls"},
      {{"hazards", "facts", "laboratory"}, "layer", "layers"},
      {{"hazards", "facts", "laboratory"}, "wall", "walls"},
      {{"photos"}, "mark", "marks"},
      {{"photos"}, "opening", "openings"},
  };
  return all;
}

const Json* find_in(const Json& job, const std::string& list, const std::string& id) {
  if (!job.is_object()) return nullptr;
  const auto found = job.find(list);
  if (found == job.end() || !found->is_array()) return nullptr;
  for (const auto& item : *found)
    if (item.is_object() && text_at(item, "id") == id) return &item;
  return nullptr;
}

// The ids of each list that others name.
using Index = std::map<std::string, std::set<std::string>>;
Index index_of(const Json& job) {
  Index out;
  for (const char* list : {"layers", "supports", "rows", "walls", "marks", "openings", "photos"})
    each_item(job, {list}, [&](const Json& item) { out[list].insert(text_at(item, "id")); });
  each_item(job, {"openings", "readings"}, [&](const Json& item) { out["marks"].insert(text_at(item, "id")); });
  return out;
}

// The list and the id that must come back for `id` to be found; empty where nothing is missing. Members of
// rows stand in their row.
std::pair<std::string, std::string> home_of(const Index& there, const std::string& list, const std::string& id, const std::vector<const Json*>& sources) {
  const auto has = [&](const std::string& name, const std::string& wanted) {
    const auto ids = there.find(name);
    return ids != there.end() && ids->second.count(wanted) > 0;
  };
  if (has(list, id)) return {};
  for (const Json* source : sources)
    if (source != nullptr && find_in(*source, list, id) != nullptr) return {list, id};
  const auto dot = id.rfind('.');
  if (list != "supports" || dot == std::string::npos || has("rows", id.substr(0, dot))) return {};
  return {"rows", id.substr(0, dot)};
}

using Wanted = std::set<std::pair<std::string, std::string>>;

// What a document's items name, as list and id.
Wanted named_in(const Json& job) {
  Wanted out;
  for (const auto& reference : references())
    each_item(job, reference.from, [&](const Json& item) {
      if (const auto id = text_at(item, reference.key); !id.empty()) out.emplace(reference.to, id);
    });
  return out;
}

// What a side names and lacks by itself: no fault of the merge, and validation says it.
Wanted lacking(const Json& job, const std::vector<const Json*>& sources) {
  Wanted out;
  const Index there = index_of(job);
  for (const auto& [list, id] : named_in(job))
    if (!home_of(there, list, id, sources).first.empty()) out.emplace(list, id);
  return out;
}

// Puts the item where its own list has it: behind the one before it that is still there.
void put_back(Json& merged, const std::string& list, const std::string& id, const Json& source, const Json& item) {
  Json& target = merged[list];
  if (!target.is_array()) target = Json::array();
  std::size_t at = 0;
  for (const auto& other : source.at(list)) {
    const std::string name = other.is_object() ? text_at(other, "id") : std::string();
    if (name == id) break;
    for (std::size_t i = 0; i < target.size(); ++i)
      if (target[i].is_object() && text_at(target[i], "id") == name) at = i + 1;
  }
  target.insert(target.begin() + static_cast<std::ptrdiff_t>(at), item);
}

// One side moved a mark into an opening, the other changed it where it was: both stay, the single one
// under a new id.
void part_moved(Merged& out) {
  const auto list = out.merged.find("marks");
  if (list == out.merged.end() || !list->is_array()) return;
  std::set<std::string> readings;
  each_item(out.merged, {"openings", "readings"}, [&](const Json& item) { readings.insert(text_at(item, "id")); });
  Json kept = Json::array();
  for (const auto& mark : *list) {
    const std::string id = mark.is_object() ? text_at(mark, "id") : std::string();
    if (id.empty() || readings.count(id) == 0) {
      kept.push_back(mark);
      continue;
    }
    const Things all = things_of(out.merged, spaces().front());
    const std::string to = new_id(id, mark, {}, all);
    out.conflicts.push_back({"marks[" + id + "]", nullptr, mark, nullptr, Kept::both, "moved into an opening on one side, changed on the other; both stay"});
    if (all.count(to) > 0) continue;  // an earlier merge kept it already
    Json renamed = mark;
    renamed["id"] = to;
    kept.push_back(renamed);
    out.renamed.push_back({"marks", id, to, Kept::both});
  }
  *list = kept;
}

}  // namespace

void restore_named(const Json* base, const Json& ours, const Json& theirs, Merged& out) {
  const std::vector<const Json*> sources = {&ours, &theirs, base};
  if (!out.merged.is_object()) return;
  part_moved(out);
  Wanted known = lacking(ours, sources);
  known.merge(lacking(theirs, sources));
  for (bool again = true; again;) {
    again = false;
    Index there = index_of(out.merged);
    for (const auto& [list, id] : named_in(out.merged)) {
      const auto [home, name] = home_of(there, list, id, sources);
      if (home.empty() || known.count({list, id}) > 0) continue;
      const Json *mine = find_in(ours, home, name), *yours = find_in(theirs, home, name), *was = base != nullptr ? find_in(*base, home, name) : nullptr;
      const Json* kept = mine != nullptr ? mine : yours != nullptr ? yours : was;
      if (kept == nullptr) continue;  // nobody had it: validation says so
      put_back(out.merged, home, name, mine != nullptr ? ours : yours != nullptr ? theirs : *base, *kept);
      out.conflicts.push_back({home + "[" + name + "]", was != nullptr ? *was : Json(nullptr), mine != nullptr ? *mine : Json(nullptr),
                               yours != nullptr ? *yours : Json(nullptr), mine != nullptr ? Kept::ours : Kept::theirs,
                               "removed on one side, but an item of the other side names it; it stays"});
      there[home].insert(name);
      again = true;
    }
  }
}

}  // namespace awlmark::merging
