#include <libpq-fe.h>

#include "office/database.hpp"

namespace awlmark::office {
namespace {

// Types of pg_type.h that the office's tables use.
constexpr Oid kInt8 = 20, kInt4 = 23, kBytea = 17;

class Postgres : public Database {
 public:
  explicit Postgres(const std::string& connection) : pg_(PQconnectdb(connection.c_str())) {
    if (PQstatus(pg_) != CONNECTION_OK) {
      const std::string why = PQerrorMessage(pg_);
      PQfinish(pg_);
      throw StoreError("PostgreSQL: " + why);
    }
    PQsetNoticeProcessor(
        pg_, [](void*, const char*) {}, nullptr);
  }
  ~Postgres() override { PQfinish(pg_); }
  Postgres(const Postgres&) = delete;
  Postgres& operator=(const Postgres&) = delete;

  std::vector<Row> run(const std::string& sql, const Row& parameters, std::int64_t* changed) override {
    // A server that was restarted is asked again; what was under way then failed and was not acknowledged.
    if (PQstatus(pg_) != CONNECTION_OK) PQreset(pg_);
    std::vector<std::string> texts(parameters.size());
    std::vector<const char*> values;
    std::vector<int> lengths, formats;
    for (std::size_t i = 0; i < parameters.size(); ++i) {
      const auto& p = parameters[i];
      texts[i] = p.kind == Cell::Kind::whole ? std::to_string(p.whole) : p.text;
      values.push_back(p.kind == Cell::Kind::none ? nullptr : texts[i].c_str());
      lengths.push_back(static_cast<int>(texts[i].size()));
      formats.push_back(p.kind == Cell::Kind::bytes ? 1 : 0);
    }
    using Result = std::unique_ptr<PGresult, void (*)(PGresult*)>;
    const Result result(PQexecParams(pg_, sql.c_str(), static_cast<int>(parameters.size()), nullptr, values.data(), lengths.data(), formats.data(), 0),
                        PQclear);
    const auto state = PQresultStatus(result.get());
    if (state != PGRES_TUPLES_OK && state != PGRES_COMMAND_OK) throw StoreError(std::string("PostgreSQL: ") + PQerrorMessage(pg_));
    if (changed != nullptr) *changed = std::strtoll(PQcmdTuples(result.get()), nullptr, 10);
    return rows_of(result.get());
  }

  void begin() override { run("BEGIN", {}, nullptr); }
  void commit() override { run("COMMIT", {}, nullptr); }
  void rollback() noexcept override { PQclear(PQexec(pg_, "ROLLBACK")); }
  std::vector<std::string> faults() override { return {}; }  // the server looks after its own files
  std::string bytes_type() const override { return "BYTEA"; }
  std::string where() const override { return std::string("PostgreSQL database ") + PQdb(pg_); }

 private:
  static std::vector<Row> rows_of(PGresult* result) {
    std::vector<Row> rows;
    for (int r = 0; r < PQntuples(result); ++r) {
      Row row;
      for (int c = 0; c < PQnfields(result); ++c) {
        const Oid type = PQftype(result, c);
        const char* text = PQgetvalue(result, r, c);
        if (PQgetisnull(result, r, c) != 0) {
          row.emplace_back();
        } else if (type == kInt8 || type == kInt4) {
          row.emplace_back(static_cast<std::int64_t>(std::strtoll(text, nullptr, 10)));
        } else if (type == kBytea) {
          std::size_t size = 0;
          unsigned char* bytes = PQunescapeBytea(reinterpret_cast<const unsigned char*>(text), &size);
          if (bytes == nullptr) throw StoreError("PostgreSQL: no memory");
          row.push_back(Cell::of_bytes(std::string(reinterpret_cast<char*>(bytes), size)));
          PQfreemem(bytes);
        } else {
          row.emplace_back(std::string(text, static_cast<std::size_t>(PQgetlength(result, r, c))));
        }
      }
      rows.push_back(std::move(row));
    }
    return rows;
  }

  PGconn* pg_;
};

}  // namespace

std::unique_ptr<Database> open_postgres(const std::string& connection) { return std::make_unique<Postgres>(connection); }

}  // namespace awlmark::office
