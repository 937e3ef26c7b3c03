#include "rates.hpp"

#include <cstdio>

#include "base/doc.hpp"
#include "files.hpp"
#include "money/rates_file.hpp"

namespace awlmark::cli {
namespace {

constexpr int kFailed = 1, kBadInput = 2;
constexpr std::size_t kMaxBytes = doc::Limits{}.max_bytes;

int complain(const std::string& where, const Problems& problems) {
  for (const auto& problem : problems) std::fprintf(stderr, "%s: %s\n", where.c_str(), describe(problem).c_str());
  return kBadInput;
}

std::optional<money::RatesFile> rates_of(const std::string& path, int& code) {
  const auto text = read_file(path, kMaxBytes);
  if (!text) return code = complain(path, text.problems), std::nullopt;
  auto file = money::read_rates(*text.value);
  if (!file) return code = complain(path, file.problems), std::nullopt;
  return std::move(file.value);
}

int put(const std::string& path, const std::string& text) {
  if (path.empty()) {
    std::fwrite(text.data(), 1, text.size(), stdout);
  } else if (const auto problems = write_file(path, text); !problems.empty()) {
    complain(path, problems);
    return kFailed;
  }
  return 0;
}

bool ends_in_json(const std::string& path) { return path.size() >= 5 && path.compare(path.size() - 5, 5, ".json") == 0; }

struct Asked {
  std::string file, from, job, out;
};

int write(const Asked& asked) {
  money::RatesFile file;
  int code = 0;
  if (!asked.from.empty()) {
    auto read = rates_of(asked.from, code);
    if (!read) return code;
    file = std::move(*read);
  }
  if (!asked.file.empty() && asked.file != asked.from && read_file(asked.file, kMaxBytes))
    return complain(asked.file, {{"", "is there already", "name a new file; nothing was written"}});
  return put(asked.file, ends_in_json(asked.file) ? money::write_rates_json(file) : money::write_rates_csv(file));
}

int check(const Asked& asked) {
  int code = 0;
  const auto file = rates_of(asked.file, code);
  if (file) std::printf("%s: can be used\n%s", asked.file.c_str(), money::rates_text(*file).c_str());
  return code;
}

int import(const Asked& asked) {
  int code = 0;
  const auto text = read_file(asked.job, kMaxBytes);
  if (!text) return complain(asked.job, text.problems);
  auto job = read_job(*text.value);
  if (!job) return complain(asked.job, job.problems);
  if (!use_rates_file(asked.file, *job.value, code)) return code;
  return put(asked.out, write_job(*job.value));
}

}  // namespace

bool use_rates_file(const std::string& path, Job& job, int& code) {
  const auto file = rates_of(path, code);
  if (file) money::use_rates(file->rates, job);
  return file.has_value();
}

void add_rates_command(CLI::App& app, int& code) {
  static Asked asked;
  auto* rates = app.add_subcommand("rates", "the contractor's own prices, hours, fees, markup and tax as a file");
  rates->require_subcommand(1);
  auto* writing = rates->add_subcommand("write", "write the table to fill in (.csv, for a spreadsheet) or the short form (.json)");
  writing->add_option("file", asked.file, "new file; standard output when left out");
  writing->add_option("--from", asked.from, "rates to write in the other form");
  writing->callback([&] { code = write(asked); });
  auto* checking = rates->add_subcommand("check", "read a file of rates and say what is wrong with it");
  checking->add_option("file", asked.file, "CSV or JSON, or - for standard input")->required();
  checking->callback([&] { code = check(asked); });
  auto* importing = rates->add_subcommand("import", "put the rates into a job's document");
  importing->add_option("file", asked.file, "CSV or JSON")->required();
  importing->add_option("job", asked.job, "the job's file")->required();
  importing->add_option("--out", asked.out, "file for the job with its rates; standard output when left out");
  importing->callback([&] { code = import(asked); });
}

}  // namespace awlmark::cli
