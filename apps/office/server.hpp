// The office over HTTP: the page, and the jobs under /api. docs/office.md lists the requests.
#pragma once

#include <string>

namespace awlmark::office {

struct ServerOptions {
  std::string pages;  // folder of the built page
  std::string place;  // SQLite file or connection string; empty: the page alone
  std::string host = "127.0.0.1";
  int port = 8154;
  std::string certificate;  // PEM; needed on any address but this machine's own
  std::string key;
  int requests_in_10s = 600;  // from one address; more where many phones share one behind a router or proxy
};

// Serves until SIGINT or SIGTERM. Exit code: 0 stopped, 1 the machine failed, 2 bad usage.
int serve(const ServerOptions& options);

}  // namespace awlmark::office
