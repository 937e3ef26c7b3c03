// What the office keeps: jobs with all their revisions, photographs by hash, devices, codes, the audit log.
// One store over either database; every call is one transaction, and what it returned is on the disk. Calls
// of several threads run side by side, each on a connection of its own, as many as `most`.
#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "office/database.hpp"

namespace awlmark::office {

struct Revision {
  std::int64_t revision = 0;
  std::int64_t base = 0;  // that the device had
  std::string document;   // JSON text as it came
  std::string device;
  std::string time;
  std::string why;        // push, merge, restore
  std::string conflicts;  // JSON list
};

struct JobEntry {
  std::string id;
  std::int64_t head = 0;
  std::string time;
};

struct Device {
  std::string id;
  std::string name;
  std::string role;  // owner, crew, reader
  std::string created;
  std::string revoked;  // empty while it may come in
};

inline constexpr std::int64_t kCodeLives_s = 600;
inline constexpr std::int64_t kClockSlack_s = 60;

class Store {
 public:
  // Checks the database and brings its tables up to date; `another` opens more connections to it when they
  // are needed. Throws StoreError.
  explicit Store(std::unique_ptr<Database> database, std::function<std::unique_ptr<Database>()> another = {}, std::size_t most = 1);

  std::vector<JobEntry> jobs();
  std::optional<Revision> head(const std::string& job);
  std::optional<Revision> at(const std::string& job, std::int64_t revision);
  std::vector<Revision> history(const std::string& job);  // newest first, without documents
  // Adds a revision behind `expected` (0: the job is new); false when somebody else was first.
  bool append(const std::string& job, std::int64_t expected, const Revision& revision);

  bool has_photo(const std::string& sha256);
  // `part(n)` gives the n-th kPhotoPart bytes, so that no photograph is in memory whole.
  void put_photo(const std::string& sha256, const std::string& type, std::int64_t size, const std::function<std::string(std::int64_t)>& part);
  void put_photo(const std::string& sha256, const std::string& type, const std::string& bytes);
  struct PhotoInfo {
    std::int64_t size = 0;
    std::string type;
  };
  std::optional<PhotoInfo> photo(const std::string& sha256);
  std::string photo_part(const std::string& sha256, std::int64_t part);  // parts of kPhotoPart bytes
  static constexpr std::int64_t kPhotoPart = 1 << 18;

  void add_code(const std::string& code_hash, const std::string& role, std::int64_t expires);
  // The role of a code that is there and not stale; the code is used up.
  std::optional<std::string> take_code(const std::string& code_hash, std::int64_t now);
  void add_device(const Device& device, const std::string& token_hash);
  std::optional<Device> device_of(const std::string& token_hash);  // not the revoked
  std::vector<Device> devices();
  bool revoke(const std::string& id, const std::string& time);

  void audit(const std::string& time, const std::string& device, const std::string& act, const std::string& job, const std::string& detail);
  std::vector<std::vector<std::string>> audit_log(std::int64_t most);

  // Every table into another, empty store: backup (into a file) and restore (from one).
  void copy_to(Store& other);
  bool empty();
  // All that is wrong: the files, heads without their revision, documents and photographs that are not what
  // they were.
  std::vector<std::string> verify();
  std::string where() const { return where_; }

 private:
  // A connection for the length of one call.
  class Lease {
   public:
    explicit Lease(Store& store) : store_(store), database_(store.take()) {}
    ~Lease() { store_.give_back(std::move(database_)); }
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;
    Database* operator->() const { return database_.get(); }

   private:
    Store& store_;
    std::unique_ptr<Database> database_;
  };
  std::unique_ptr<Database> take();
  void give_back(std::unique_ptr<Database> database);
  void migrate();

  const std::string where_;
  const std::function<std::unique_ptr<Database>()> another_;
  const std::size_t most_;
  std::mutex mutex_;
  std::condition_variable returned_;
  std::size_t open_ = 1;
  std::vector<std::unique_ptr<Database>> idle_;
  std::mutex audit_mutex_;  // its numbers follow each other
};

}  // namespace awlmark::office
