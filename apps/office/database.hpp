// A database as the office needs it: statements with numbered parameters ($1, $2, ...), rows, and
// transactions. Two drivers, SQLite and PostgreSQL; the SQL of store.cpp is the same for both.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

namespace awlmark::office {

// The machine failed: disk full, connection lost, file damaged. Nothing of the transaction stands.
struct StoreError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct Cell {
  enum class Kind { none, whole, text, bytes };
  Kind kind = Kind::none;
  std::int64_t whole = 0;
  std::string text;  // text or bytes
  Cell() = default;
  Cell(std::int64_t value) : kind(Kind::whole), whole(value) {}
  Cell(std::string value) : kind(Kind::text), text(std::move(value)) {}
  Cell(const char* value) : kind(Kind::text), text(value) {}
  static Cell of_bytes(std::string value) {
    Cell cell(std::move(value));
    cell.kind = Kind::bytes;
    return cell;
  }
};
using Row = std::vector<Cell>;

class Database {
 public:
  virtual ~Database() = default;
  // Rows of a query, or the number of rows that a change touched in `changed`.
  virtual std::vector<Row> run(const std::string& sql, const Row& parameters = {}, std::int64_t* changed = nullptr) = 0;
  virtual void begin() = 0;
  virtual void commit() = 0;
  virtual void rollback() noexcept = 0;
  // One line each thing that is wrong with the files themselves.
  virtual std::vector<std::string> faults() = 0;
  virtual std::string bytes_type() const = 0;  // the name of its type for bytes
  virtual std::string where() const = 0;       // for people; never a password

  // All of `work` or nothing of it.
  template <class Work>
  auto transaction(Work work) {
    begin();
    try {
      auto result = work();
      commit();
      return result;
    } catch (...) {
      rollback();
      throw;
    }
  }
};

// Opens or makes the file: write-ahead log, foreign keys, every commit on the disk before it returns.
std::unique_ptr<Database> open_sqlite(const std::string& path);
std::unique_ptr<Database> open_postgres(const std::string& connection);
// "postgresql://..." or "host=..." goes to PostgreSQL, anything else is a file.
std::unique_ptr<Database> open_database(const std::string& place);

}  // namespace awlmark::office
