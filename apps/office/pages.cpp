#include "office/pages.hpp"

#include <brotli/encode.h>
#include <zlib.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace awlmark::office {
namespace fs = std::filesystem;
namespace {

constexpr int kBrotliQuality = 6;  // of 11: the engine module takes a tenth of a second, not ten
constexpr std::size_t kWorthPacking = 1024;

std::string type_of(const std::string& extension) {
  static const std::map<std::string, std::string> types = {{".html", "text/html; charset=utf-8"},
                                                           {".js", "text/javascript"},
                                                           {".mjs", "text/javascript"},
                                                           {".css", "text/css"},
                                                           {".json", "application/json"},
                                                           {".svg", "image/svg+xml"},
                                                           {".png", "image/png"},
                                                           {".ico", "image/x-icon"},
                                                           {".wasm", "application/wasm"},
                                                           {".webmanifest", "application/manifest+json"},
                                                           {".txt", "text/plain; charset=utf-8"},
                                                           {".woff2", "font/woff2"}};
  const auto found = types.find(extension);
  return found == types.end() ? "application/octet-stream" : found->second;
}

std::string gzip(const std::string& plain) {
  z_stream stream{};
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY) != Z_OK) return {};
  std::string out(deflateBound(&stream, plain.size()) + 32, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(plain.data()));
  stream.avail_in = static_cast<uInt>(plain.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const int state = deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return state == Z_STREAM_END ? out : std::string();
}

std::string brotli(const std::string& plain) {
  std::size_t size = BrotliEncoderMaxCompressedSize(plain.size());
  std::string out(size, '\0');
  if (BrotliEncoderCompress(kBrotliQuality, BROTLI_DEFAULT_WINDOW, BROTLI_DEFAULT_MODE, plain.size(), reinterpret_cast<const uint8_t*>(plain.data()), &size,
                            reinterpret_cast<uint8_t*>(out.data())) == BROTLI_FALSE)
    return {};
  out.resize(size);
  return out;
}

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  if (!in) throw std::runtime_error(path.string() + ": cannot be read");
  return out.str();
}

}  // namespace

std::map<std::string, PageFile> read_pages(const std::string& folder) {
  if (!fs::exists(fs::path(folder) / "index.html"))
    throw std::runtime_error(folder + ": holds no built page; build it with ./run, or name the folder with --dir");
  std::map<std::string, PageFile> pages;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file() || entry.is_symlink()) continue;
    PageFile file{type_of(entry.path().extension().string()), read(entry.path()), {}, {}};
    if (file.plain.size() >= kWorthPacking) {
      file.gzip = gzip(file.plain);
      file.brotli = brotli(file.plain);
      if (file.gzip.size() >= file.plain.size()) file.gzip.clear();
      if (file.brotli.size() >= file.plain.size()) file.brotli.clear();
    }
    pages["/" + fs::relative(entry.path(), folder).generic_string()] = std::move(file);
  }
  pages["/"] = pages.at("/index.html");
  return pages;
}

}  // namespace awlmark::office
