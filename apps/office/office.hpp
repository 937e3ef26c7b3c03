// What the office does, without HTTP: pushes merged with what others pushed, history, restoring, pairing.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "base/problem.hpp"
#include "office/store.hpp"

namespace awlmark::office {

using Json = nlohmann::ordered_json;

enum class Role { reader, crew, owner };
std::optional<Role> role_of(const std::string& word);
std::string role_word(Role role);

struct Visitor {
  std::string device;  // its id
  Role role = Role::reader;
};

// Ids of jobs come from pages: letters, digits, dot, dash and underscore, at most 64.
bool valid_job_id(const std::string& id);

struct Pushed {
  std::int64_t revision = 0;
  bool merged = false;  // others had pushed since: the device takes `document`
  std::string document;
  Json conflicts = Json::array();
  Json renamed = Json::array();
};

class Office {
 public:
  explicit Office(Store& store) : store_(store) {}

  // `base` is the revision that the device had, 0 for a new job. A push that was not acknowledged may be
  // sent again: it changes nothing. Problems for bad input; StoreError when the machine fails.
  Outcome<Pushed> push(const std::string& job, std::int64_t base, const std::string& document, const Visitor& who);
  Outcome<Pushed> restore(const std::string& job, std::int64_t revision, const Visitor& who);

  // A code that one device may use once within ten minutes.
  std::string invite(Role role, const std::string& by);
  struct Paired {
    std::string id;
    std::string token;
    Role role = Role::reader;
  };
  std::optional<Paired> pair(const std::string& code, const std::string& name);
  std::optional<Visitor> visitor(const std::string& token);

 private:
  Store& store_;
};

}  // namespace awlmark::office
