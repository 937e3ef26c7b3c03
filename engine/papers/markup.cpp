#include "papers/markup.hpp"

#include <cstdint>

namespace awlmark::papers {
namespace {

constexpr std::uint32_t kReplacement = 0xFFFD;

// One code point from the front of `text`; a broken sequence gives U+FFFD and takes one byte.
std::uint32_t take_code_point(std::string_view text, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::uint32_t first = byte(at);
  if (first < 0x80) return ++at, first;
  const int more = first >= 0xF0 && first < 0xF5 ? 3 : first >= 0xE0 && first < 0xF0 ? 2 : first >= 0xC2 && first < 0xE0 ? 1 : 0;
  if (more == 0 || at + static_cast<std::size_t>(more) >= text.size()) return ++at, kReplacement;
  std::uint32_t code = first & (0x3Fu >> more);
  for (int i = 1; i <= more; ++i) {
    const std::uint32_t next = byte(at + static_cast<std::size_t>(i));
    if ((next & 0xC0) != 0x80) return ++at, kReplacement;
    code = (code << 6) | (next & 0x3F);
  }
  const bool overlong = (more == 2 && code < 0x800) || (more == 3 && code < 0x10000);
  if (overlong || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return ++at, kReplacement;
  at += static_cast<std::size_t>(more) + 1;
  return code;
}

void put_code_point(std::uint32_t code, std::string& out) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0 | (code >> 6)), put(0x80 | (code & 0x3F));
  } else if (code < 0x10000) {
    put(0xE0 | (code >> 12)), put(0x80 | ((code >> 6) & 0x3F)), put(0x80 | (code & 0x3F));
  } else {
    put(0xF0 | (code >> 18)), put(0x80 | ((code >> 12) & 0x3F)), put(0x80 | ((code >> 6) & 0x3F)), put(0x80 | (code & 0x3F));
  }
}

// Not allowed in XML, or able to turn the reading direction of a paper that people sign.
bool dropped(std::uint32_t code) {
  if (code < 0x20) return code != '\n' && code != '\t';
  if (code >= 0x7F && code < 0xA0) return true;
  if (code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069)) return true;
  return code == 0xFEFF || (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size() + 16);
  for (std::size_t at = 0; at < text.size();) {
    const auto code = take_code_point(text, at);
    if (dropped(code)) continue;
    switch (code) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        put_code_point(code, out);
    }
  }
  return out;
}

std::string css_string(std::string_view text) {
  static constexpr std::string_view kHex = "0123456789abcdef";
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const auto code = take_code_point(text, at);
    if (dropped(code)) continue;
    const bool plain = (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z') || (code >= '0' && code <= '9') || code == ' ' || code >= 0xA0;
    if (plain) {
      put_code_point(code, out);
    } else {
      out += {'\\', kHex[(code >> 4) & 15], kHex[code & 15], ' '};
    }
  }
  return out + "\"";
}

std::string shortened(std::string_view text, std::size_t count) {
  std::string out;
  std::size_t taken = 0;
  std::size_t last = 0;
  for (std::size_t at = 0; at < text.size(); ++taken) {
    if (taken == count) {
      out.resize(last);
      put_code_point(0x2026, out);
      return out;
    }
    last = out.size();
    put_code_point(take_code_point(text, at), out);
  }
  return out;
}

void Markup::tag_start(std::string_view tag, Attributes attributes) {
  out_ += '<';
  out_ += tag;
  for (const auto& attribute : attributes) {
    out_ += ' ';
    out_ += attribute.name;
    out_ += "=\"";
    out_ += escaped(attribute.value);
    out_ += '"';
  }
}

Markup& Markup::open(std::string_view tag, Attributes attributes) {
  tag_start(tag, attributes);
  out_ += '>';
  open_.emplace_back(tag);
  return *this;
}

Markup& Markup::close() {
  if (open_.empty()) return *this;
  out_ += "</" + open_.back() + ">";
  // A line end after a block keeps the file readable; inside running text it would add a blank.
  const auto& tag = open_.back();
  if (tag != "span" && tag != "a" && tag != "b" && tag != "em" && tag != "sup" && tag != "tspan" && tag != "text") out_ += '\n';
  open_.pop_back();
  return *this;
}

Markup& Markup::leaf(std::string_view tag, Attributes attributes) {
  tag_start(tag, attributes);
  out_ += "/>";
  return *this;
}

Markup& Markup::text(std::string_view words) {
  out_ += escaped(words);
  return *this;
}

Markup& Markup::element(std::string_view tag, std::string_view words, Attributes attributes) { return open(tag, attributes).text(words).close(); }

Markup& Markup::add(const Markup& other) {
  out_ += other.str();
  return *this;
}

Markup& Markup::style_sheet(std::string_view rules) {
  out_ += "<style>\n";
  out_ += rules;
  out_ += "</style>\n";
  return *this;
}

std::string Markup::str() const {
  std::string out = out_;
  for (auto tag = open_.rbegin(); tag != open_.rend(); ++tag) out += "</" + *tag + ">";
  return out;
}

}  // namespace awlmark::papers
