#include "office/store.hpp"

#include <algorithm>

#include "base/doc.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

const std::string kRevisionColumns = "revision, base, document, device, time, why, conflicts";

Revision revision_of(const Row& row) { return {row[0].whole, row[1].whole, row[2].text, row[3].text, row[4].text, row[5].text, row[6].text}; }
Device device_of_row(const Row& row) { return {row[0].text, row[1].text, row[2].text, row[3].text, row[4].text}; }

// Each step takes the tables of one version to the next; the store's version stands in `meta`.
std::vector<std::vector<std::string>> steps(const std::string& bytes) {
  return {{"CREATE TABLE jobs (id TEXT PRIMARY KEY, head BIGINT NOT NULL)",
           "CREATE TABLE revisions (job TEXT NOT NULL REFERENCES jobs(id), revision BIGINT NOT NULL, base BIGINT NOT NULL, document TEXT NOT NULL, "
           "device TEXT NOT NULL, time TEXT NOT NULL, why TEXT NOT NULL, conflicts TEXT NOT NULL, PRIMARY KEY (job, revision))",
           "CREATE TABLE photos (sha256 TEXT PRIMARY KEY, size BIGINT NOT NULL, type TEXT NOT NULL)",
           "CREATE TABLE photo_parts (sha256 TEXT NOT NULL REFERENCES photos(sha256), part BIGINT NOT NULL, bytes " + bytes +
               " NOT NULL, PRIMARY KEY (sha256, part))",
           "CREATE TABLE devices (id TEXT PRIMARY KEY, name TEXT NOT NULL, role TEXT NOT NULL, token_hash TEXT NOT NULL UNIQUE, created TEXT NOT NULL, "
           "revoked TEXT NOT NULL)",
           "CREATE TABLE codes (code_hash TEXT PRIMARY KEY, role TEXT NOT NULL, expires BIGINT NOT NULL)",
           "CREATE TABLE audit (id BIGINT PRIMARY KEY, time TEXT NOT NULL, device TEXT NOT NULL, act TEXT NOT NULL, job TEXT NOT NULL, detail TEXT NOT NULL)"}};
}

// In the order in which rows may be put in.
const std::vector<std::pair<std::string, std::string>>& tables() {
  static const std::vector<std::pair<std::string, std::string>> all = {
      {"jobs", "id, head"},
      {"revisions", "job, " + kRevisionColumns},
      {"photos", "sha256, size, type"},
      {"photo_parts", "sha256, part, bytes"},
      {"devices", "id, name, role, token_hash, created, revoked"},
      {"audit", "id, time, device, act, job, detail"},
  };
  return all;
}

}  // namespace

Store::Store(std::unique_ptr<Database> database, std::function<std::unique_ptr<Database>()> another, std::size_t most)
    : where_(database->where()), another_(std::move(another)), most_(another_ ? std::max<std::size_t>(1, most) : 1) {
  if (const auto faults = database->faults(); !faults.empty()) throw StoreError(faults.front() + "; restore the last backup");
  idle_.push_back(std::move(database));
  migrate();
}

std::unique_ptr<Database> Store::take() {
  std::unique_lock<std::mutex> lock(mutex_);
  returned_.wait(lock, [&] { return !idle_.empty() || open_ < most_; });
  if (!idle_.empty()) {
    auto database = std::move(idle_.back());
    idle_.pop_back();
    return database;
  }
  ++open_;
  lock.unlock();
  try {
    return another_();
  } catch (...) {
    lock.lock();
    --open_;
    returned_.notify_one();
    throw;
  }
}

void Store::give_back(std::unique_ptr<Database> database) {
  const std::lock_guard<std::mutex> guard(mutex_);
  idle_.push_back(std::move(database));
  returned_.notify_one();
}

void Store::migrate() {
  const Lease database(*this);
  database->run("CREATE TABLE IF NOT EXISTS meta (key TEXT PRIMARY KEY, value TEXT NOT NULL)");
  database->transaction([&] {
    const auto rows = database->run("SELECT value FROM meta WHERE key = 'version'");
    const auto all = steps(database->bytes_type());
    const std::size_t version = rows.empty() ? 0 : static_cast<std::size_t>(std::stoul(rows[0][0].text));
    if (version > all.size()) throw StoreError(database->where() + ": was written by a newer Awlmark; use that one");
    for (std::size_t v = version; v < all.size(); ++v)
      for (const auto& sql : all[v]) database->run(sql);
    if (version == all.size()) return true;
    database->run("DELETE FROM meta WHERE key = 'version'");
    database->run("INSERT INTO meta (key, value) VALUES ('version', $1)", {Cell(std::to_string(all.size()))});
    return true;
  });
}

std::vector<JobEntry> Store::jobs() {
  const Lease database(*this);
  std::vector<JobEntry> out;
  for (const auto& row : database->run("SELECT j.id, j.head, r.time FROM jobs j JOIN revisions r ON r.job = j.id AND r.revision = j.head ORDER BY j.id"))
    out.push_back({row[0].text, row[1].whole, row[2].text});
  return out;
}

std::optional<Revision> Store::head(const std::string& job) {
  const Lease database(*this);
  const auto rows =
      database->run("SELECT " + kRevisionColumns + " FROM revisions WHERE job = $1 AND revision = (SELECT head FROM jobs WHERE id = $1)", {Cell(job)});
  return rows.empty() ? std::nullopt : std::optional<Revision>(revision_of(rows[0]));
}

std::optional<Revision> Store::at(const std::string& job, std::int64_t revision) {
  const Lease database(*this);
  const auto rows = database->run("SELECT " + kRevisionColumns + " FROM revisions WHERE job = $1 AND revision = $2", {Cell(job), Cell(revision)});
  return rows.empty() ? std::nullopt : std::optional<Revision>(revision_of(rows[0]));
}

std::vector<Revision> Store::history(const std::string& job) {
  const Lease database(*this);
  std::vector<Revision> out;
  for (const auto& row :
       database->run("SELECT revision, base, '' AS document, device, time, why, conflicts FROM revisions WHERE job = $1 ORDER BY revision DESC", {Cell(job)}))
    out.push_back(revision_of(row));
  return out;
}

bool Store::append(const std::string& job, std::int64_t expected, const Revision& revision) {
  const Lease database(*this);
  return database->transaction([&] {
    std::int64_t changed = 0;
    if (expected == 0)
      database->run("INSERT INTO jobs (id, head) VALUES ($1, 1) ON CONFLICT DO NOTHING", {Cell(job)}, &changed);
    else
      database->run("UPDATE jobs SET head = head + 1 WHERE id = $1 AND head = $2", {Cell(job), Cell(expected)}, &changed);
    if (changed != 1) return false;
    database->run("INSERT INTO revisions (job, " + kRevisionColumns + ") VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
                  {Cell(job), Cell(expected + 1), Cell(revision.base), Cell(revision.document), Cell(revision.device), Cell(revision.time), Cell(revision.why),
                   Cell(revision.conflicts)});
    return true;
  });
}

bool Store::has_photo(const std::string& sha256) { return photo(sha256).has_value(); }

void Store::put_photo(const std::string& sha256, const std::string& type, const std::string& bytes) {
  put_photo(sha256, type, static_cast<std::int64_t>(bytes.size()),
            [&](std::int64_t part) { return bytes.substr(static_cast<std::size_t>(part * kPhotoPart), static_cast<std::size_t>(kPhotoPart)); });
}

void Store::put_photo(const std::string& sha256, const std::string& type, std::int64_t size, const std::function<std::string(std::int64_t)>& part) {
  const Lease database(*this);
  database->transaction([&] {
    std::int64_t changed = 0;
    database->run("INSERT INTO photos (sha256, size, type) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING", {Cell(sha256), Cell(size), Cell(type)}, &changed);
    if (changed != 1) return false;  // it is there already
    for (std::int64_t n = 0; n * kPhotoPart < size; ++n)
      database->run("INSERT INTO photo_parts (sha256, part, bytes) VALUES ($1, $2, $3)", {Cell(sha256), Cell(n), Cell::of_bytes(part(n))});
    return true;
  });
}

std::optional<Store::PhotoInfo> Store::photo(const std::string& sha256) {
  const Lease database(*this);
  const auto rows = database->run("SELECT size, type FROM photos WHERE sha256 = $1", {Cell(sha256)});
  return rows.empty() ? std::nullopt : std::optional<PhotoInfo>(PhotoInfo{rows[0][0].whole, rows[0][1].text});
}

std::string Store::photo_part(const std::string& sha256, std::int64_t part) {
  const Lease database(*this);
  const auto rows = database->run("SELECT bytes FROM photo_parts WHERE sha256 = $1 AND part = $2", {Cell(sha256), Cell(part)});
  return rows.empty() ? std::string() : rows[0][0].text;
}

void Store::add_code(const std::string& code_hash, const std::string& role, std::int64_t expires) {
  const Lease database(*this);
  database->run("INSERT INTO codes (code_hash, role, expires) VALUES ($1, $2, $3)", {Cell(code_hash), Cell(role), Cell(expires)});
}

std::optional<std::string> Store::take_code(const std::string& code_hash, std::int64_t now) {
  const Lease database(*this);
  return database->transaction([&]() -> std::optional<std::string> {
    // Stale, or from a clock that was ahead: a clock that jumps back must not lengthen a code's life.
    database->run("DELETE FROM codes WHERE expires < $1 OR expires > $2", {Cell(now), Cell(now + kCodeLives_s + kClockSlack_s)});
    const auto rows = database->run("SELECT role FROM codes WHERE code_hash = $1", {Cell(code_hash)});
    std::int64_t changed = 0;
    database->run("DELETE FROM codes WHERE code_hash = $1", {Cell(code_hash)}, &changed);
    if (rows.empty() || changed != 1) return std::nullopt;
    return rows[0][0].text;
  });
}

void Store::add_device(const Device& device, const std::string& token_hash) {
  const Lease database(*this);
  database->run("INSERT INTO devices (id, name, role, token_hash, created, revoked) VALUES ($1, $2, $3, $4, $5, '')",
                {Cell(device.id), Cell(device.name), Cell(device.role), Cell(token_hash), Cell(device.created)});
}

std::optional<Device> Store::device_of(const std::string& token_hash) {
  const Lease database(*this);
  const auto rows = database->run("SELECT id, name, role, created, revoked FROM devices WHERE token_hash = $1 AND revoked = ''", {Cell(token_hash)});
  return rows.empty() ? std::nullopt : std::optional<Device>(device_of_row(rows[0]));
}

std::vector<Device> Store::devices() {
  const Lease database(*this);
  std::vector<Device> out;
  for (const auto& row : database->run("SELECT id, name, role, created, revoked FROM devices ORDER BY created, id")) out.push_back(device_of_row(row));
  return out;
}

bool Store::revoke(const std::string& id, const std::string& time) {
  const Lease database(*this);
  std::int64_t changed = 0;
  database->run("UPDATE devices SET revoked = $2 WHERE id = $1 AND revoked = ''", {Cell(id), Cell(time)}, &changed);
  return changed == 1;
}

void Store::audit(const std::string& time, const std::string& device, const std::string& act, const std::string& job, const std::string& detail) {
  const std::lock_guard<std::mutex> guard(audit_mutex_);
  const Lease database(*this);
  database->run("INSERT INTO audit (id, time, device, act, job, detail) VALUES ((SELECT COALESCE(MAX(id), 0) + 1 FROM audit), $1, $2, $3, $4, $5)",
                {Cell(time), Cell(device), Cell(act), Cell(job), Cell(detail)});
}

std::vector<std::vector<std::string>> Store::audit_log(std::int64_t most) {
  const Lease database(*this);
  std::vector<std::vector<std::string>> out;
  for (const auto& row : database->run("SELECT time, device, act, job, detail FROM audit ORDER BY id DESC LIMIT $1", {Cell(most)})) {
    out.emplace_back();
    for (const auto& cell : row) out.back().push_back(cell.text);
  }
  return out;
}

bool Store::empty() {
  const Lease database(*this);
  for (const auto& [table, columns] : tables())
    if (database->run("SELECT COUNT(*) FROM " + table)[0][0].whole > 0) return false;
  return true;
}

void Store::copy_to(Store& other) {
  if (!other.empty()) throw StoreError(other.where() + ": is not empty; name a new one");
  const Lease database(*this), into(other);
  database->transaction([&] {
    return into->transaction([&] {
      for (const auto& [table, columns] : tables()) {
        std::string places;
        const auto count = std::count(columns.begin(), columns.end(), ',') + 1;
        for (std::ptrdiff_t i = 1; i <= count; ++i) places += (i > 1 ? ", $" : "$") + std::to_string(i);
        for (const auto& row : database->run("SELECT " + columns + " FROM " + table))
          into->run("INSERT INTO " + table + " (" + columns + ") VALUES (" + places + ")", row);
      }
      return true;
    });
  });
}

std::vector<std::string> Store::verify() {
  std::vector<std::string> out;
  {
    const Lease database(*this);
    out = database->faults();
    for (const auto& row : database->run("SELECT j.id, j.head, (SELECT COUNT(*) FROM revisions r WHERE r.job = j.id), (SELECT MAX(revision) FROM revisions r "
                                         "WHERE r.job = j.id) FROM jobs j"))
      if (row[1].whole != row[2].whole || row[1].whole != row[3].whole) out.push_back("job " + row[0].text + ": its revisions have a gap");
  }
  for (const auto& job : jobs())
    for (std::int64_t n = 1; n <= job.head; ++n) {
      const auto revision = at(job.id, n);
      if (!revision || !doc::parse(revision->document)) out.push_back("job " + job.id + ", revision " + std::to_string(n) + ": is no document");
    }
  std::vector<Row> photos;
  {
    const Lease database(*this);
    photos = database->run("SELECT sha256, size FROM photos");
  }
  for (const auto& row : photos) {
    Sha256 hash;
    for (std::int64_t part = 0; part * kPhotoPart < row[1].whole; ++part) hash.add(photo_part(row[0].text, part));
    if (hash.hex() != row[0].text) out.push_back("photo " + row[0].text + ": is not what it was");
  }
  return out;
}

}  // namespace awlmark::office
