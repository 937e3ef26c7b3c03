// Requests under /api: who may ask what, and the answers. Internal to the office.
#pragma once

#include <httplib.h>

#include <functional>
#include <string>

#include "office/limits.hpp"
#include "office/office.hpp"

namespace awlmark::office {

struct Door {
  Store& store;
  Office& office;
  bool local = true;       // bound to this machine alone: who comes without a token is its owner
  std::string own_origin;  // "http://127.0.0.1:8154"; local only
  RateLimit requests{600, std::chrono::seconds(10)};
  RateLimit pairing{10, std::chrono::seconds(60)};
  RateLimit pairing_of_all{60, std::chrono::seconds(600)};
};

inline constexpr std::size_t kMostPhotoBytes = 20u << 20;

// Whether the request comes from our own page or from no page: the Host is ours (a name that was bent to
// this machine is refused) and so is the Origin, where there is one.
bool comes_from_us(const Door& door, const httplib::Request& request);

void add_routes(httplib::Server& server, Door& door);

}  // namespace awlmark::office
