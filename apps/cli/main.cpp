// awlmark: the whole job from a file to papers, and single questions.
//
// Exit codes: 0 answered; 1 the machine failed (a file that cannot be written, a port that is
// taken); 2 bad input or usage, with every problem on standard error and nothing on standard output.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <string>

#include "assess/assess.hpp"
#include "base/doc.hpp"
#include "files.hpp"
#include "merge.hpp"
#include "office_commands.hpp"
#include "papers/papers.hpp"
#include "price/change.hpp"
#include "price/csv.hpp"
#include "progress.hpp"
#include "rates.hpp"
#include "reckon/reckon.hpp"
#include "show.hpp"

namespace awlmark::cli {
namespace {

constexpr int kAnswered = 0;
constexpr int kFailed = 1;
constexpr int kBadInput = 2;
constexpr std::size_t kMaxBytes = doc::Limits{}.max_bytes;

void put(const std::string& text) { std::fwrite(text.data(), 1, text.size(), stdout); }

int complain(const std::string& where, const Problems& problems) {
  const auto count = problems.size();
  std::fprintf(stderr, "%s: %zu problem%s\n", where.c_str(), count, count == 1 ? "" : "s");
  for (const auto& problem : problems) std::fprintf(stderr, "  %s\n", describe(problem).c_str());
  return kBadInput;
}

struct JobArguments {
  std::string path;
  AssessOptions options;
  bool json = false;
  std::string rates;  // a file of rates, in place of the job's own

  void add_to(CLI::App& command) {
    command.add_option("job", path, "the job's file, or - for standard input")->required();
    command.add_option("--rates", rates, "a file of the contractor's rates, before those of the job");
    command.add_option("--seed", options.seed, "seed of the draws")->capture_default_str();
    command.add_option("--cell", options.cell_in, "size of a cell of the field, inches")->check(CLI::Range(1.0, 12.0))->capture_default_str();
    command.add_option("--draws", options.draws, "posterior draws")->check(CLI::Range(100, 20000))->capture_default_str();
  }
  void add_json_to(CLI::App& command) { command.add_flag("--json", json, "findings as JSON instead of text"); }
};

// Reads the job and says what is wrong with it; warnings go to standard error and stop nothing.
Outcome<Job> load(const JobArguments& arguments, int& code) {
  Outcome<Job> job;
  const auto text = read_file(arguments.path, kMaxBytes);
  if (!text) {
    code = complain(arguments.path, text.problems);
    return job;
  }
  job = read_job(*text.value);
  if (!job) code = complain(arguments.path, job.problems);
  if (job && !arguments.rates.empty() && !use_rates_file(arguments.rates, *job.value, code)) job.value.reset();
  return job;
}

template <class Reckon>
Findings with_progress(AssessOptions options, Reckon reckon_findings) {
  Progress progress;
  options.on_stage = [&](std::string_view stage) { progress.stage(stage); };
  return reckon_findings(options);
}

int run_survey(const JobArguments& arguments) {
  int code = kAnswered;
  const auto job = load(arguments, code);
  if (!job) return code;
  const auto findings = with_progress(arguments.options, [&](const AssessOptions& options) { return survey_only(*job.value, options); });
  if (arguments.json) {
    // The survey part alone, in the same place as in the whole findings.
    put(to_json(findings).dump(2) + "\n");
    return kAnswered;
  }
  put(survey_text(*job.value, findings) + due_text(*findings.hazards));
  return kAnswered;
}

// How the findings are shown: one screen, whole stages, JSON, a table for a spreadsheet, a calendar.
struct Shown {
  std::vector<std::string> stages;
  std::string csv;
  bool calendar = false;
};

int run_assess(const JobArguments& arguments, const Shown& shown) {
  int code = kAnswered;
  const auto job = load(arguments, code);
  if (!job) return code;
  const auto findings = with_progress(arguments.options, [&](const AssessOptions& options) { return assess(*job.value, options); });
  if (arguments.json) {
    put(to_json(findings).dump(2) + "\n");
  } else if (!shown.csv.empty()) {
    put(shown.csv == "price" ? price::price_csv(*findings.price) : price::take_off_csv(*findings.takeoff));
  } else if (shown.calendar) {
    const auto text = work::calendar_file(*job.value, *findings.work);
    if (text.empty()) return complain(arguments.path, {{"work.start", "is not there, so the work has no dates", "give the first day: 2026-05-11"}});
    put(text);
  } else if (!shown.stages.empty()) {
    const bool all = std::find(shown.stages.begin(), shown.stages.end(), "all") != shown.stages.end();
    for (const auto& stage : stage_names())
      if (all || std::find(shown.stages.begin(), shown.stages.end(), stage) != shown.stages.end()) put(stage_text(stage, *job.value, findings));
  } else {
    put(assess_text(*job.value, findings));
  }
  return kAnswered;
}

int run_papers(const JobArguments& arguments, const std::string& folder, const papers::Options& wanted) {
  int code = kAnswered;
  const auto job = load(arguments, code);
  if (!job) return code;
  const auto findings = with_progress(arguments.options, [&](const AssessOptions& options) { return assess(*job.value, options); });
  if (const auto problems = make_folder(folder); !problems.empty()) {
    complain(folder, problems);
    return kFailed;
  }
  const auto written = papers::all_papers(*job.value, findings, wanted);
  if (written.empty()) {
    complain(arguments.path, {{"", "has nothing for the paper '" + wanted.only + "'", "give the job what that paper is about"}});
    return kBadInput;
  }
  for (const auto& paper : written) {
    if (const auto problems = write_file(folder + "/" + paper.file, paper.html); !problems.empty()) {
      complain(folder, problems);
      return kFailed;
    }
    std::printf("%s/%s  %s\n", folder.c_str(), paper.file.c_str(), paper.title.c_str());
  }
  return kAnswered;
}

int run_reckon(const std::string& topic, const std::string& in, bool help) {
  if (topic.empty()) {
    std::string list = "Single questions: awlmark reckon TOPIC < question.json\n\n";
    for (const auto& info : reckon::topics()) list += "  " + info.id + std::string(info.id.size() < 16 ? 16 - info.id.size() : 1, ' ') + info.asks + "\n";
    put(list + "\nawlmark reckon TOPIC --help tells a topic's keys, units and sources.\n");
    return kAnswered;
  }
  Outcome<std::string> answer;
  if (help) {
    answer = reckon::help(topic);
  } else {
    const auto known = reckon::help(topic);  // an unknown topic is said before standard input is waited for
    if (!known) return complain(topic, known.problems);
    const auto text = read_file(in.empty() ? "-" : in, kMaxBytes);
    if (!text) return complain(topic, text.problems);
    answer = reckon::reckon(topic, *text.value);
  }
  if (!answer) return complain(topic, answer.problems);
  put(*answer.value);
  if (answer.value->empty() || answer.value->back() != '\n') put("\n");
  return kAnswered;
}

int run_change(const std::string& before_path, const std::string& after_path, const AssessOptions& options, bool json) {
  JobArguments before, after;
  before.path = before_path, after.path = after_path;
  int code = kAnswered;
  const auto then = load(before, code), now = load(after, code);
  if (!then || !now) return code;
  const auto a = with_progress(options, [&](const AssessOptions& o) { return assess(*then.value, o); });
  const auto b = with_progress(options, [&](const AssessOptions& o) { return assess(*now.value, o); });
  const auto order = price::change_order({*then.value, *a.floor, *a.work, *a.price}, {*now.value, *b.floor, *b.work, *b.price});
  put(json ? doc::write(order).dump(2) + "\n" : change_text(order));
  return kAnswered;
}

int run_new(const std::string& path) {
  if (path.empty()) {
    put(new_job_text());
    return kAnswered;
  }
  if (read_file(path, kMaxBytes)) return complain(path, {{"", "is there already", "name a new file; nothing was written"}});
  if (const auto problems = write_file(path, new_job_text()); !problems.empty()) {
    complain(path, problems);
    return kFailed;
  }
  std::printf("%s: fill it in where a note stands, then: awlmark survey %s\n", path.c_str(), path.c_str());
  return kAnswered;
}

int run_check(const JobArguments& arguments) {
  int code = kAnswered;
  const auto job = load(arguments, code);
  if (!job) return code;
  for (const auto& warning : job.warnings) std::printf("  %s\n", describe(warning).c_str());
  std::printf("%s: can be worked, %zu warning%s\n", arguments.path.c_str(), job.warnings.size(), job.warnings.size() == 1 ? "" : "s");
  return kAnswered;
}

int run(int argc, char** argv) {
  CLI::App app{"Awlmark: how far the rot goes, where to cut, what the floor carries, and the papers for it"};
  app.set_version_flag("--version", AWLMARK_VERSION);
  app.require_subcommand(1);
  app.footer(
      "Exit codes: 0 answered, 1 the machine failed, 2 bad input or usage (problems on standard error, nothing on standard output), 3 merged with conflicts.");
  int code = kAnswered;

  JobArguments survey, whole, paper, checked;
  auto* survey_command = app.add_subcommand("survey", "how far it goes, how sure that is, where to open next");
  survey.add_to(*survey_command);
  survey.add_json_to(*survey_command);
  survey_command->callback([&] { code = run_survey(survey); });

  auto* assess_command = app.add_subcommand("assess", "the answer on one screen, or whole stages: survey, hazards, cut-back, floor, take-off, work, price");
  whole.add_to(*assess_command);
  whole.add_json_to(*assess_command);
  Shown shown;
  auto stages = stage_names();
  stages.push_back("all");
  assess_command->add_option("--stages", shown.stages, "whole stages instead of one screen, by commas")->delimiter(',')->check(CLI::IsMember(stages));
  assess_command->add_option("--csv", shown.csv, "take_off or price as CSV")->check(CLI::IsMember({"take_off", "price"}));
  assess_command->add_flag("--calendar", shown.calendar, "the schedule as an iCalendar file");
  assess_command->callback([&] { code = run_assess(whole, shown); });

  std::string folder;
  auto* papers_command = app.add_subcommand("papers", "write the papers as print-ready HTML");
  paper.add_to(*papers_command);
  papers_command->add_option("--out", folder, "folder for the papers")->required();
  papers::Options paper_options;
  papers_command->add_option("--only", paper_options.only, "one paper by its name")->check(CLI::IsMember(papers::paper_names()));
  papers_command->add_option("--paper", paper_options.paper, "letter or a4")->check(CLI::IsMember({"letter", "a4"}))->capture_default_str();
  papers_command->callback([&] { code = run_papers(paper, folder, paper_options); });

  auto* check_command = app.add_subcommand("check", "read a job and say what is wrong or doubtful with it");
  checked.add_to(*check_command);
  check_command->callback([&] { code = run_check(checked); });

  std::string topic, in;
  bool topic_help = false;
  auto* reckon_command = app.add_subcommand("reckon", "answer one question without a job; alone it lists the topics");
  reckon_command->set_help_flag();
  reckon_command->add_flag("-h,--help", topic_help, "the topic's keys, units and sources");
  reckon_command->add_option("topic", topic, "what to reckon");
  reckon_command->add_option("--in", in, "file with the question; standard input when left out");
  reckon_command->callback([&] { code = run_reckon(topic, in, topic_help); });

  std::string which = "job";
  bool written = false;
  auto* schema_command = app.add_subcommand("schema", "JSON Schema 2020-12 of the job document or of the findings");
  schema_command->add_option("which", which, "job or findings")->check(CLI::IsMember({"job", "findings"}))->capture_default_str();
  schema_command->add_flag("--written", written, "the form that Awlmark writes (lengths as numbers only)");
  schema_command->callback([&] { put((which == "job" ? job_schema(written) : findings_schema()).dump(2) + "\n"); });

  std::string change_before, change_after;
  AssessOptions change_options;
  bool change_json = false;
  auto* change_command = app.add_subcommand("change", "a change order from two states of a job: found, added, taken away, money, days");
  change_command->add_option("before", change_before, "the job as signed")->required();
  change_command->add_option("after", change_after, "the job as it is now")->required();
  change_command->add_option("--seed", change_options.seed, "seed of the draws")->capture_default_str();
  change_command->add_option("--draws", change_options.draws, "posterior draws")->check(CLI::Range(100, 20000))->capture_default_str();
  change_command->add_flag("--json", change_json, "as JSON instead of text");
  change_command->callback([&] { code = run_change(change_before, change_after, change_options, change_json); });

  std::string new_path;
  auto* new_command = app.add_subcommand("new", "write a starting job, with a note where a person must look");
  new_command->add_option("file", new_path, "new file; standard output when left out");
  new_command->callback([&] { code = run_new(new_path); });

  std::vector<std::string> versions;
  MergeArguments merging;
  auto* merge_command = app.add_subcommand("merge", "merge two edits of one job: BASE OURS THEIRS, or OURS THEIRS without a common ancestor");
  merge_command->add_option("files", versions, "the last common document (may be left out), ours, theirs")->required()->expected(2, 3);
  merge_command->add_option("--out", merging.out, "file for the merged document; standard output when left out");
  merge_command->add_flag("--json", merging.json, "merged document, conflicts and renamed ids as JSON");
  merge_command->callback([&] {
    merging.theirs = versions.back();
    merging.ours = versions[versions.size() - 2];
    if (versions.size() == 3) merging.base = versions.front();
    code = merge_files(merging);
  });

  add_rates_command(app, code);
  add_office_commands(app, code);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int cli_code = app.exit(error, std::cout, std::cerr);
    return cli_code == 0 ? kAnswered : kBadInput;
  }
  return code;
}

}  // namespace
}  // namespace awlmark::cli

int main(int argc, char** argv) {
  try {
    return awlmark::cli::run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "awlmark: a fault of the program, not of the job: %s\n", error.what());
    return 1;
  }
}
