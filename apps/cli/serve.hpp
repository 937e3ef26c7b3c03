// Serves the built page as static files on this machine.
#pragma once

#include <string>

namespace awlmark::cli {

// Blocks until it is stopped. Returns an exit code: 0, or 1 when the port cannot be had.
int serve(const std::string& folder, const std::string& host, int port);

}  // namespace awlmark::cli
