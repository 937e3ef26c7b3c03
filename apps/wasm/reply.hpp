// What both modules say alike: replies, refused keys, and a fault turned into a reply.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/doc.hpp"

namespace awlmark::api {

std::string reply_ok(const doc::Json& value, const Problems& warnings = {});
std::string reply_not_ok(const Problems& problems, const Problems& warnings = {});
void refuse_unknown_keys(const doc::Json& request, const std::vector<std::string>& known, Problems& problems);

// A fault of the program becomes a reply too. Only std::bad_alloc passes: a reply needs memory, and
// exports.cpp has one ready.
std::string guarded(const std::function<std::string()>& answer);

}  // namespace awlmark::api
