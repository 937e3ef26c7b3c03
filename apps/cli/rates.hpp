// `awlmark rates`: the contractor's own rates as a file.
#pragma once

#include <CLI/CLI.hpp>

#include "job/job.hpp"

namespace awlmark::cli {

void add_rates_command(CLI::App& app, int& code);
// Puts the file's rates into the job; false, with the problems said and `code` set, where it cannot.
bool use_rates_file(const std::string& path, Job& job, int& code);

}  // namespace awlmark::cli
