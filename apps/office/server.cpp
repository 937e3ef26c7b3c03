#include "office/server.hpp"

#include <httplib.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <memory>

#include "office/office.hpp"
#include "office/pages.hpp"
#include "office/routes.hpp"
#include "office/secrets.hpp"

namespace awlmark::office {
namespace {

constexpr std::size_t kConnections = 8;  // to the database, opened when they are needed
constexpr time_t kPatience_s = 20;       // for a slow line; longer is somebody who holds connections open

httplib::Server* running = nullptr;  // for the signal handler alone

void stop(int) {
  if (running != nullptr) running->stop();
}

thread_local std::chrono::steady_clock::time_point began;

// One JSON object a line on standard error: no bodies, no tokens.
void log_request(const httplib::Request& request, const httplib::Response& response) {
  const auto ms = std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - began).count();
  const Json line = {{"time", time_text()},       {"from", request.remote_addr},
                     {"method", request.method},  {"path", request.path.substr(0, 200)},
                     {"status", response.status}, {"ms", ms}};
  std::fprintf(stderr, "%s\n", line.dump(-1, ' ', false, Json::error_handler_t::replace).c_str());
}

void safe_headers(httplib::Response& response, const std::string& path, bool secure) {
  response.set_header("X-Content-Type-Options", "nosniff");
  response.set_header("Referrer-Policy", "no-referrer");
  response.set_header("X-Frame-Options", "SAMEORIGIN");
  response.set_header("Cross-Origin-Resource-Policy", "same-origin");
  if (secure) response.set_header("Strict-Transport-Security", "max-age=31536000");
  if (path.rfind("/api/", 0) == 0) {
    response.set_header("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'");
    if (!response.has_header("Cache-Control")) response.set_header("Cache-Control", "no-store");
  }
}

void give_page(const PageFile& file, const httplib::Request& request, httplib::Response& response) {
  const std::string takes = request.get_header_value("Accept-Encoding");
  const std::string* bytes = &file.plain;
  if (!file.brotli.empty() && takes.find("br") != std::string::npos) {
    bytes = &file.brotli;
    response.set_header("Content-Encoding", "br");
  } else if (!file.gzip.empty() && takes.find("gzip") != std::string::npos) {
    bytes = &file.gzip;
    response.set_header("Content-Encoding", "gzip");
  }
  response.set_header("Vary", "Accept-Encoding");
  const bool hashed = request.path.rfind("/assets/", 0) == 0;  // files with a hash in their name never change
  response.set_header("Cache-Control", hashed ? "public, max-age=31536000, immutable" : "no-cache");
  // A provider, so that the library does not pack it a second time.
  response.set_content_provider(bytes->size(), file.type, [bytes](std::size_t offset, std::size_t length, httplib::DataSink& sink) {
    return sink.write(bytes->data() + offset, length);
  });
}

std::unique_ptr<httplib::Server> server_of(const ServerOptions& options) {
  if (options.certificate.empty()) return std::make_unique<httplib::Server>();
  auto server = std::make_unique<httplib::SSLServer>([&](SSL_CTX& context) {
    return SSL_CTX_set_min_proto_version(&context, TLS1_2_VERSION) == 1 && SSL_CTX_use_certificate_chain_file(&context, options.certificate.c_str()) == 1 &&
           SSL_CTX_use_PrivateKey_file(&context, options.key.c_str(), SSL_FILETYPE_PEM) == 1 && SSL_CTX_check_private_key(&context) == 1;
  });
  return server;
}

bool own_machine(const std::string& host) { return host == "127.0.0.1" || host == "::1" || host == "localhost"; }

int complain(int code, const std::string& text) {
  std::fprintf(stderr, "%s\n", text.c_str());
  return code;
}

}  // namespace

int serve(const ServerOptions& options) {
  const bool local = own_machine(options.host), secure = !options.certificate.empty();
  if (secure != !options.key.empty()) return complain(2, "--cert and --key go together");
  if (!local && !options.place.empty() && !secure)
    return complain(2, options.host + " is not this machine alone: jobs go over a network only with --cert and --key (docs/office.md)");
  std::map<std::string, PageFile> pages;
  std::unique_ptr<Store> store;
  try {
    pages = read_pages(options.pages);
    if (!options.place.empty())
      store = std::make_unique<Store>(
          open_database(options.place), [place = options.place] { return open_database(place); }, kConnections);
  } catch (const StoreError& error) {
    return complain(1, error.what());
  } catch (const std::exception& error) {
    return complain(2, error.what());
  }
  const auto server = server_of(options);
  if (!server->is_valid()) return complain(2, "the certificate or its key cannot be used");
  server->set_read_timeout(kPatience_s);
  server->set_write_timeout(kPatience_s);
  server->set_keep_alive_timeout(5);
  server->set_payload_max_length(kMostPhotoBytes + 1024);
  server->set_pre_routing_handler([](const httplib::Request&, httplib::Response&) {
    began = std::chrono::steady_clock::now();
    return httplib::Server::HandlerResponse::Unhandled;
  });
  server->set_post_routing_handler([secure](const httplib::Request& request, httplib::Response& response) { safe_headers(response, request.path, secure); });
  const std::string origin = std::string(secure ? "https" : "http") + "://" + options.host + ":" + std::to_string(options.port);
  std::unique_ptr<Office> office;
  std::unique_ptr<Door> door;
  if (store) {
    office = std::make_unique<Office>(*store);
    door.reset(new Door{*store, *office, local, origin, RateLimit(options.requests_in_10s, std::chrono::seconds(10))});
    server->set_logger(log_request);
    add_routes(*server, *door);
  }
  server->Get(R"(/.*)", [&](const httplib::Request& request, httplib::Response& response) {
    const auto found = pages.find(request.path);
    if (found == pages.end()) {
      response.status = 404;
      return;
    }
    give_page(found->second, request, response);
  });
  if (!server->bind_to_port(options.host.c_str(), options.port))
    return complain(1, "port " + std::to_string(options.port) + " on " + options.host + " is taken; choose another with --port");
  running = server.get();
  std::signal(SIGINT, stop);
  std::signal(SIGTERM, stop);
  std::printf("Awlmark is at %s (Ctrl-C stops it)\n", origin.c_str());
  if (store) std::printf("Jobs are kept in %s\n", store->where().c_str());
  std::fflush(stdout);
  server->listen_after_bind();  // returns when the requests under way are answered
  running = nullptr;
  return 0;
}

}  // namespace awlmark::office
