#include <sqlite3.h>

#include "office/database.hpp"

namespace awlmark::office {
namespace {

constexpr int kBusyWait_ms = 10000;

class Sqlite : public Database {
 public:
  explicit Sqlite(const std::string& path) : path_(path) {
    if (sqlite3_open_v2(path.c_str(), &db_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_FULLMUTEX, nullptr) != SQLITE_OK) {
      const std::string why = db_ != nullptr ? sqlite3_errmsg(db_) : "no memory";
      sqlite3_close(db_);
      throw StoreError(path + ": cannot be opened: " + why);
    }
    try {
      sqlite3_busy_timeout(db_, kBusyWait_ms);
      sqlite3_db_config(db_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
      run("PRAGMA journal_mode=WAL");
      run("PRAGMA synchronous=FULL");
      run("PRAGMA foreign_keys=ON");
      run("PRAGMA trusted_schema=OFF");
    } catch (...) {
      sqlite3_close(db_);
      throw;
    }
  }
  ~Sqlite() override { sqlite3_close(db_); }
  Sqlite(const Sqlite&) = delete;
  Sqlite& operator=(const Sqlite&) = delete;

  std::vector<Row> run(const std::string& sql, const Row& parameters, std::int64_t* changed) override {
    sqlite3_stmt* statement = nullptr;
    check(sqlite3_prepare_v2(db_, sql.c_str(), -1, &statement, nullptr));
    const std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> guard(statement, sqlite3_finalize);
    for (std::size_t i = 0; i < parameters.size(); ++i)
      bind(statement, sqlite3_bind_parameter_index(statement, ("$" + std::to_string(i + 1)).c_str()), parameters[i]);
    std::vector<Row> rows;
    int state = SQLITE_ROW;
    while ((state = sqlite3_step(statement)) == SQLITE_ROW) {
      Row row;
      for (int c = 0; c < sqlite3_column_count(statement); ++c) row.push_back(cell(statement, c));
      rows.push_back(std::move(row));
    }
    if (state != SQLITE_DONE) check(state);
    if (changed != nullptr) *changed = sqlite3_changes(db_);
    return rows;
  }
  using Database::run;

  void begin() override { run("BEGIN IMMEDIATE", {}, nullptr); }
  void commit() override { run("COMMIT", {}, nullptr); }
  void rollback() noexcept override { sqlite3_exec(db_, "ROLLBACK", nullptr, nullptr, nullptr); }

  std::vector<std::string> faults() override {
    std::vector<std::string> out;
    for (const auto& row : run("PRAGMA integrity_check", {}, nullptr))
      if (row[0].text != "ok") out.push_back(path_ + ": " + row[0].text);
    for (const auto& row : run("PRAGMA foreign_key_check", {}, nullptr)) out.push_back(path_ + ": a row of " + row[0].text + " points to nothing");
    return out;
  }
  std::string bytes_type() const override { return "BLOB"; }
  std::string where() const override { return path_; }

 private:
  void run(const char* sql) { run(sql, {}, nullptr); }
  void check(int code) {
    if (code != SQLITE_OK) throw StoreError(path_ + ": " + sqlite3_errmsg(db_));
  }
  void bind(sqlite3_stmt* statement, int at, const Cell& value) {
    const auto size = static_cast<sqlite3_uint64>(value.text.size());
    switch (value.kind) {
      case Cell::Kind::none:
        return check(sqlite3_bind_null(statement, at));
      case Cell::Kind::whole:
        return check(sqlite3_bind_int64(statement, at, value.whole));
      case Cell::Kind::text:
        return check(sqlite3_bind_text64(statement, at, value.text.data(), size, SQLITE_TRANSIENT, SQLITE_UTF8));
      case Cell::Kind::bytes:
        return check(sqlite3_bind_blob64(statement, at, value.text.data(), size, SQLITE_TRANSIENT));
    }
  }
  static Cell cell(sqlite3_stmt* statement, int c) {
    const auto bytes = [&](const void* data) {
      return std::string(static_cast<const char*>(data), static_cast<std::size_t>(sqlite3_column_bytes(statement, c)));
    };
    switch (sqlite3_column_type(statement, c)) {
      case SQLITE_INTEGER:
        return Cell(static_cast<std::int64_t>(sqlite3_column_int64(statement, c)));
      case SQLITE_BLOB: {
        const void* data = sqlite3_column_blob(statement, c);
        return Cell::of_bytes(data != nullptr ? bytes(data) : std::string());
      }
      case SQLITE_NULL:
        return {};
      default:
        return Cell(bytes(sqlite3_column_text(statement, c)));
    }
  }

  std::string path_;
  sqlite3* db_ = nullptr;
};

}  // namespace

std::unique_ptr<Database> open_sqlite(const std::string& path) { return std::make_unique<Sqlite>(path); }

std::unique_ptr<Database> open_database(const std::string& place) {
  const bool server = place.rfind("postgresql://", 0) == 0 || place.rfind("postgres://", 0) == 0 || place.rfind("host=", 0) == 0;
  return server ? open_postgres(place) : open_sqlite(place);
}

}  // namespace awlmark::office
