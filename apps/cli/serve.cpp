#include "serve.hpp"

#include <httplib.h>

#include <csignal>
#include <cstdio>
#include <filesystem>

namespace awlmark::cli {
namespace {

httplib::Server* running = nullptr;  // for the signal handler alone

void stop(int) {
  if (running != nullptr) running->stop();
}

// Files with a hash in their name never change; the rest is asked for anew.
void cache_rules(const httplib::Request& request, httplib::Response& response) {
  const bool hashed = request.path.rfind("/assets/", 0) == 0;
  response.set_header("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
}

}  // namespace

int serve(const std::string& folder, const std::string& host, int port) {
  if (!std::filesystem::exists(folder + "/index.html")) {
    std::fprintf(stderr, "%s: holds no built page; build it with ./run, or name the folder with --dir\n", folder.c_str());
    return 2;
  }
  httplib::Server server;
  server.set_file_extension_and_mimetype_mapping("wasm", "application/wasm");
  server.set_file_extension_and_mimetype_mapping("mjs", "text/javascript");
  server.set_file_extension_and_mimetype_mapping("webmanifest", "application/manifest+json");
  if (!server.set_mount_point("/", folder)) return 1;
  server.set_post_routing_handler(cache_rules);
  if (!server.bind_to_port(host.c_str(), port)) {
    std::fprintf(stderr, "port %d on %s is taken; choose another with --port\n", port, host.c_str());
    return 1;
  }
  running = &server;
  std::signal(SIGINT, stop);
  std::signal(SIGTERM, stop);
  std::printf("Awlmark is at http://%s:%d (Ctrl-C stops it)\n", host.c_str(), port);
  std::fflush(stdout);
  server.listen_after_bind();
  running = nullptr;
  return 0;
}

}  // namespace awlmark::cli
