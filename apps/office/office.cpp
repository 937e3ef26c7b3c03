#include "office/office.hpp"

#include <algorithm>

#include "base/doc.hpp"
#include "job/merge.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

constexpr int kTries = 20;  // pushes that come between ours and its place, before we give up

// A document is kept as it came; it must only be one.
Outcome<Json> document_of(const std::string& text) {
  auto parsed = doc::parse(text);
  if (!parsed) return parsed;
  Outcome<Json> outcome;
  const auto format = parsed.value->is_object() ? parsed.value->find("format") : parsed.value->end();
  if (!parsed.value->is_object() || format == parsed.value->end() || *format != "awlmark-job")
    outcome.problems.push_back({"document", "is no job document", "a job document says \"format\": \"awlmark-job\""});
  else
    outcome.value = std::move(parsed.value);
  return outcome;
}

Json parsed_or_null(const std::string& text) { return Json::parse(text, nullptr, false); }

}  // namespace

std::optional<Role> role_of(const std::string& word) {
  if (word == "owner") return Role::owner;
  if (word == "crew") return Role::crew;
  if (word == "reader") return Role::reader;
  return std::nullopt;
}

std::string role_word(Role role) { return role == Role::owner ? "owner" : role == Role::crew ? "crew" : "reader"; }

bool valid_job_id(const std::string& id) {
  const auto fits = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '_'; };
  return !id.empty() && id.size() <= 64 && id[0] != '.' && std::all_of(id.begin(), id.end(), fits);
}

Outcome<Pushed> Office::push(const std::string& job, std::int64_t base, const std::string& document, const Visitor& who) {
  Outcome<Pushed> outcome;
  if (!valid_job_id(job)) {
    outcome.problems.push_back({"job", "is no id", "use letters, digits, dot, dash and underscore, at most 64"});
    return outcome;
  }
  const auto ours = document_of(document);
  outcome.problems = ours.problems;
  if (!ours) return outcome;
  for (int tries = 0; tries < kTries; ++tries) {
    const auto head = store_.head(job);
    if (base < 0 || base > (head ? head->revision : 0)) {
      outcome.problems.push_back({"base", "is a revision that this office does not have", "pull first, or push with base 0"});
      return outcome;
    }
    Pushed pushed;
    Json merged = *ours.value;
    if (head && base != head->revision) {
      const auto before = base > 0 ? store_.at(job, base) : std::nullopt;
      const Json theirs = parsed_or_null(head->document), ancestor = before ? parsed_or_null(before->document) : Json();
      const auto result = merge(before ? &ancestor : nullptr, *ours.value, theirs);
      const auto told = merged_json(result);
      pushed = {0, true, {}, told["conflicts"], told["renamed"]};
      merged = result.merged;
    }
    if (head && same_json(merged, parsed_or_null(head->document))) {
      pushed.revision = head->revision;
      pushed.document = head->document;
      outcome.value = std::move(pushed);
      return outcome;
    }
    pushed.document = pushed.merged ? merged.dump() : document;
    const Revision next{0, base, pushed.document, who.device, time_text(), pushed.merged ? "merge" : "push", pushed.conflicts.dump()};
    if (store_.append(job, head ? head->revision : 0, next)) {
      pushed.revision = (head ? head->revision : 0) + 1;
      outcome.value = std::move(pushed);
      return outcome;
    }
  }
  throw StoreError("others push too fast; nothing was written");
}

Outcome<Pushed> Office::restore(const std::string& job, std::int64_t revision, const Visitor& who) {
  Outcome<Pushed> outcome;
  for (int tries = 0; tries < kTries; ++tries) {
    const auto head = store_.head(job), old = store_.at(job, revision);
    if (!head || !old) {
      outcome.problems.push_back({"revision", "is not there", "ask for the job's history"});
      return outcome;
    }
    const Revision next{0, revision, old->document, who.device, time_text(), "restore", "[]"};
    if (!store_.append(job, head->revision, next)) continue;
    outcome.value = Pushed{head->revision + 1, false, old->document, Json::array(), Json::array()};
    return outcome;
  }
  throw StoreError("others push too fast; nothing was written");
}

std::string Office::invite(Role role, const std::string& by) {
  const std::string code = random_code();
  store_.add_code(sha256_hex(code), role_word(role), now_s() + kCodeLives_s);
  store_.audit(time_text(), by, "invite", "", role_word(role));
  return code;
}

std::optional<Office::Paired> Office::pair(const std::string& code, const std::string& name) {
  const auto word = store_.take_code(sha256_hex(code), now_s());
  if (!word) return std::nullopt;
  Paired paired{random_token().substr(0, 16), random_token(), role_of(*word).value_or(Role::reader)};
  store_.add_device({paired.id, name.substr(0, 80), *word, time_text(), ""}, sha256_hex(paired.token));
  store_.audit(time_text(), paired.id, "pair", "", *word);
  return paired;
}

std::optional<Visitor> Office::visitor(const std::string& token) {
  if (token.size() != 64) return std::nullopt;
  const auto device = store_.device_of(sha256_hex(token));
  if (!device) return std::nullopt;
  return Visitor{device->id, role_of(device->role).value_or(Role::reader)};
}

}  // namespace awlmark::office
