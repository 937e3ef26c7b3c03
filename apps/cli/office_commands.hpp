// serve, invite, backup, restore, verify: the office from the command line.
#pragma once

#include <CLI/CLI.hpp>

namespace awlmark::cli {

void add_office_commands(CLI::App& app, int& code);

}  // namespace awlmark::cli
