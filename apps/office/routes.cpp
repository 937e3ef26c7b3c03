#include "office/routes.hpp"

#include <algorithm>
#include <cstdio>
#include <memory>

#include "base/doc.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

using httplib::Request;
using httplib::Response;

void answer(Response& response, int status, const Json& body) {
  response.status = status;
  response.set_content(body.dump(-1, ' ', false, Json::error_handler_t::replace), "application/json");
}
void ok(Response& response, const Json& value) { answer(response, 200, {{"ok", true}, {"value", value}}); }
void refuse(Response& response, int status, const std::string& at, const std::string& what, const std::string& mend) {
  answer(response, status, {{"ok", false}, {"problems", Json::array({{{"at", at}, {"what", what}, {"mend", mend}}})}});
}
void refuse(Response& response, const Problems& problems) {
  Json list = Json::array();
  for (const auto& p : problems) list.push_back({{"at", p.at}, {"what", p.what}, {"mend", p.mend}});
  answer(response, 400, {{"ok", false}, {"problems", list}});
}

std::string bearer(const Request& request) {
  const std::string header = request.get_header_value("Authorization");
  return header.rfind("Bearer ", 0) == 0 ? header.substr(7) : std::string();
}

using Act = std::function<void(const Visitor&, const Request&, Response&)>;

// The gate before every act: our own page, not too often, somebody we know, with the right to do it.
// Returns the visitor; the response is filled when there is none.
std::optional<Visitor> admit(Door& door, Role least, const Request& request, Response& response) {
  if (!comes_from_us(door, request)) {
    refuse(response, 403, "", "comes from another page", "open Awlmark by the address that it prints");
    return std::nullopt;
  }
  if (!door.requests.allows(request.remote_addr)) {
    refuse(response, 429, "", "asks too often", "wait a few seconds");
    return std::nullopt;
  }
  const std::string token = bearer(request);
  auto visitor = token.empty() ? std::nullopt : door.office.visitor(token);
  if (!visitor && token.empty() && door.local) visitor = Visitor{"this machine", Role::owner};
  if (!visitor) {
    refuse(response, 401, "", "is from a device that this office does not know", "pair the device again");
    return std::nullopt;
  }
  if (visitor->role < least) {
    refuse(response, 403, "", "needs the role " + role_word(least), "ask the owner");
    return std::nullopt;
  }
  return visitor;
}

// A machine that failed is said as such and nothing is acknowledged.
void carefully(Response& response, const std::function<void()>& act) {
  try {
    act();
  } catch (const StoreError& error) {
    refuse(response, 503, "", std::string("could not be done: ") + error.what(), "nothing was written; try again");
  } catch (const std::exception& error) {
    refuse(response, 500, "", std::string("is a fault of the program: ") + error.what(), "nothing was acknowledged");
  }
}

httplib::Server::Handler gated(Door& door, Role least, Act act) {
  return [&door, least, act = std::move(act)](const Request& request, Response& response) {
    carefully(response, [&] {
      if (const auto visitor = admit(door, least, request, response)) act(*visitor, request, response);
    });
  };
}

// The JSON object of a body; the response is filled when there is none.
std::optional<Json> body_of(const Request& request, Response& response) {
  // Another site's form cannot say application/json without asking first.
  if (request.get_header_value("Content-Type").rfind("application/json", 0) != 0) {
    refuse(response, 415, "Content-Type", "is not application/json", "send JSON");
    return std::nullopt;
  }
  const doc::Limits limits{.max_bytes = doc::Limits{}.max_bytes + 4096, .max_depth = doc::Limits{}.max_depth + 1};
  auto parsed = doc::parse(request.body, limits);
  if (parsed && parsed.value->is_object()) return std::move(*parsed.value);
  if (parsed) parsed.problems.push_back({"", "is no object", "send {...}"});
  refuse(response, parsed.problems);
  return std::nullopt;
}

std::int64_t whole(const Json& body, const char* key, std::int64_t otherwise) {
  const auto found = body.find(key);
  return found != body.end() && found->is_number_integer() ? found->get<std::int64_t>() : otherwise;
}
std::string text(const Json& body, const char* key) {
  const auto found = body.find(key);
  return found != body.end() && found->is_string() ? found->get<std::string>() : std::string();
}

Json pushed_json(const Pushed& pushed) {
  Json out = {{"revision", pushed.revision}, {"merged", pushed.merged}, {"conflicts", pushed.conflicts}, {"renamed", pushed.renamed}};
  if (pushed.merged) out["document"] = Json::parse(pushed.document, nullptr, false);
  return out;
}

void job_routes(httplib::Server& server, Door& door) {
  const std::string job = R"(/api/jobs/([A-Za-z0-9_-][A-Za-z0-9._-]{0,63}))";
  server.Get("/api/jobs", gated(door, Role::reader, [&door](const Visitor&, const Request&, Response& response) {
               Json list = Json::array();
               for (const auto& entry : door.store.jobs()) list.push_back({{"id", entry.id}, {"revision", entry.head}, {"time", entry.time}});
               ok(response, list);
             }));
  server.Get(job, gated(door, Role::reader, [&door](const Visitor&, const Request& request, Response& response) {
               const std::string wanted = request.get_param_value("revision");
               const bool number =
                   !wanted.empty() && wanted.size() < 18 && std::all_of(wanted.begin(), wanted.end(), [](char c) { return c >= '0' && c <= '9'; });
               const auto found = number ? door.store.at(request.matches[1], std::stoll(wanted)) : door.store.head(request.matches[1]);
               if (!found || (!wanted.empty() && !number)) return refuse(response, 404, "job", "is not there", "ask for the list");
               ok(response, {{"revision", found->revision}, {"document", Json::parse(found->document, nullptr, false)}});
             }));
  server.Post(job, gated(door, Role::crew, [&door](const Visitor& who, const Request& request, Response& response) {
                const auto body = body_of(request, response);
                if (!body) return;
                const auto document = body->find("document");
                if (document == body->end()) return refuse(response, 400, "document", "is missing", "send {\"base\": revision, \"document\": {...}}");
                const auto pushed = door.office.push(request.matches[1], whole(*body, "base", 0), document->dump(), who);
                if (!pushed) return refuse(response, pushed.problems);
                door.store.audit(time_text(), who.device, pushed.value->merged ? "merge" : "push", request.matches[1], std::to_string(pushed.value->revision));
                ok(response, pushed_json(*pushed.value));
              }));
  server.Get(job + "/history", gated(door, Role::reader, [&door](const Visitor&, const Request& request, Response& response) {
               Json list = Json::array();
               for (const auto& r : door.store.history(request.matches[1]))
                 list.push_back({{"revision", r.revision},
                                 {"base", r.base},
                                 {"device", r.device},
                                 {"time", r.time},
                                 {"why", r.why},
                                 {"conflicts", Json::parse(r.conflicts, nullptr, false)}});
               ok(response, list);
             }));
  server.Post(job + "/restore", gated(door, Role::owner, [&door](const Visitor& who, const Request& request, Response& response) {
                const auto body = body_of(request, response);
                if (!body) return;
                const auto restored = door.office.restore(request.matches[1], whole(*body, "revision", -1), who);
                if (!restored) return refuse(response, restored.problems);
                door.store.audit(time_text(), who.device, "restore", request.matches[1], std::to_string(restored.value->revision));
                ok(response, pushed_json(*restored.value));
              }));
}

// A body on its way, in a file without a name that is gone when this is: no photograph is in memory whole.
class Spool {
 public:
  Spool() : file_(std::tmpfile(), &std::fclose) {}
  // False once it is too large or the disk is full; the rest is read all the same and dropped.
  void add(const char* data, std::size_t size) {
    if (size_ + size > kMostPhotoBytes) fits_ = false;
    if (!fits_ || !holds_) return;
    holds_ = file_ && std::fwrite(data, 1, size, file_.get()) == size;
    if (holds_) hash_.add(data, size);
    size_ += size;
  }
  bool fits() const { return fits_; }
  bool holds() { return holds_ && file_ && std::fflush(file_.get()) == 0; }
  std::string hash() { return hash_.hex(); }
  std::int64_t size() const { return static_cast<std::int64_t>(size_); }
  std::string part(std::int64_t n) {
    std::string bytes(static_cast<std::size_t>(std::min(Store::kPhotoPart, size() - n * Store::kPhotoPart)), '\0');
    if (std::fseek(file_.get(), static_cast<long>(n * Store::kPhotoPart), SEEK_SET) != 0 ||
        std::fread(bytes.data(), 1, bytes.size(), file_.get()) != bytes.size())
      throw StoreError("the photograph cannot be read back");
    return bytes;
  }

 private:
  std::unique_ptr<std::FILE, int (*)(std::FILE*)> file_;
  Sha256 hash_;
  std::size_t size_ = 0;
  bool fits_ = true, holds_ = true;
};

void put_photo(Door& door, const Request& request, Response& response, const httplib::ContentReader& content) {
  std::optional<Visitor> who;
  std::unique_ptr<Spool> spool;
  carefully(response, [&] {
    who = admit(door, Role::crew, request, response);
    if (who) spool = std::make_unique<Spool>();
  });
  // Read to the end in any case: what is left of a body must never be taken for a request.
  const bool whole_body = content([&](const char* data, std::size_t size) {
    if (spool) spool->add(data, size);
    return true;
  });
  if (!spool) return;
  carefully(response, [&] {
    if (!spool->fits() || !whole_body) return refuse(response, 413, "photo", "is larger than 20 MiB", "make it smaller");
    if (!spool->holds()) throw StoreError("the disk is full");
    const std::string type = request.get_header_value("Content-Type"), hash = request.matches[1];
    if (type != "image/jpeg" && type != "image/png" && type != "image/webp")
      return refuse(response, 415, "Content-Type", "is no photograph", "send JPEG, PNG or WebP");
    if (!same_secret(spool->hash(), hash)) return refuse(response, 400, "photo", "is not the one that its hash names", "send it again");
    door.store.put_photo(hash, type, spool->size(), [&](std::int64_t n) { return spool->part(n); });
    door.store.audit(time_text(), who->device, "photo", "", hash);
    ok(response, {{"sha256", hash}});
  });
}

void photo_routes(httplib::Server& server, Door& door) {
  const std::string photo = R"(/api/photos/([0-9a-f]{64}))";
  server.Put(photo,
             [&door](const Request& request, Response& response, const httplib::ContentReader& content) { put_photo(door, request, response, content); });
  server.Get(photo, gated(door, Role::reader, [&door](const Visitor&, const Request& request, Response& response) {
               const std::string hash = request.matches[1];
               const auto info = door.store.photo(hash);
               if (!info) return refuse(response, 404, "photo", "is not there", "send it from the device that took it");
               response.set_header("Cache-Control", "private, max-age=31536000, immutable");
               response.set_content_provider(static_cast<std::size_t>(info->size), info->type,
                                             [&door, hash](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
                                               const auto part = static_cast<std::int64_t>(offset) / Store::kPhotoPart;
                                               std::string bytes;
                                               try {
                                                 bytes = door.store.photo_part(hash, part);
                                               } catch (const StoreError&) {
                                                 return false;
                                               }  // the transfer breaks off
                                               const auto skip = offset - static_cast<std::size_t>(part * Store::kPhotoPart);
                                               if (skip >= bytes.size()) return false;
                                               return sink.write(bytes.data() + skip, std::min(length, bytes.size() - skip));
                                             });
             }));
}

void device_routes(httplib::Server& server, Door& door) {
  server.Post("/api/pair", [&door](const Request& request, Response& response) {
    carefully(response, [&] {
      if (!comes_from_us(door, request)) return refuse(response, 403, "", "comes from another page", "open Awlmark by the address that it prints");
      if (!door.pairing.allows(request.remote_addr) || !door.pairing_of_all.allows("")) return refuse(response, 429, "", "asks too often", "wait a minute");
      const auto body = body_of(request, response);
      if (!body) return;
      const auto paired = door.office.pair(text(*body, "code"), text(*body, "name"));
      if (!paired) return refuse(response, 403, "code", "is wrong, used or older than ten minutes", "ask for a new one: awlmark invite");
      ok(response, {{"device", paired->id}, {"token", paired->token}, {"role", role_word(paired->role)}});
    });
  });
  server.Post("/api/invite", gated(door, Role::owner, [&door](const Visitor& who, const Request& request, Response& response) {
                const auto body = body_of(request, response);
                if (!body) return;
                const auto role = role_of(text(*body, "role"));
                if (!role) return refuse(response, 400, "role", "is no role", "say owner, crew or reader");
                ok(response, {{"code", door.office.invite(*role, who.device)}, {"minutes", 10}});
              }));
  server.Get("/api/me", gated(door, Role::reader, [](const Visitor& who, const Request&, Response& response) {
               ok(response, {{"device", who.device}, {"role", role_word(who.role)}});
             }));
  server.Get("/api/devices", gated(door, Role::owner, [&door](const Visitor&, const Request&, Response& response) {
               Json list = Json::array();
               for (const auto& d : door.store.devices())
                 list.push_back({{"id", d.id}, {"name", d.name}, {"role", d.role}, {"created", d.created}, {"revoked", d.revoked}});
               ok(response, list);
             }));
  server.Post(R"(/api/devices/([0-9a-f]{16})/revoke)", gated(door, Role::owner, [&door](const Visitor& who, const Request& request, Response& response) {
                if (!door.store.revoke(request.matches[1], time_text())) return refuse(response, 404, "device", "is not there", "ask for the list");
                door.store.audit(time_text(), who.device, "revoke", "", request.matches[1]);
                ok(response, true);
              }));
  server.Get("/api/audit", gated(door, Role::owner, [&door](const Visitor&, const Request&, Response& response) {
               Json list = Json::array();
               for (const auto& row : door.store.audit_log(1000))
                 list.push_back({{"time", row[0]}, {"device", row[1]}, {"act", row[2]}, {"job", row[3]}, {"detail", row[4]}});
               ok(response, list);
             }));
}

}  // namespace

bool comes_from_us(const Door& door, const Request& request) {
  const std::string host = request.get_header_value("Host"), origin = request.get_header_value("Origin");
  if (door.local) {
    const auto colon = door.own_origin.rfind(':');
    const std::string port = door.own_origin.substr(colon);
    const bool named = host == "127.0.0.1" + port || host == "localhost" + port || host == "[::1]" + port;
    if (!named) return false;
  }
  return origin.empty() || origin == "http://" + host || origin == "https://" + host;
}

void add_routes(httplib::Server& server, Door& door) {
  server.Get("/api/health", [&door](const Request&, Response& response) {
    carefully(response, [&] {
      door.store.head("");  // the store answers
      ok(response, {{"format", "awlmark-office"}, {"version", 1}});
    });
  });
  job_routes(server, door);
  photo_routes(server, door);
  device_routes(server, door);
}

}  // namespace awlmark::office
