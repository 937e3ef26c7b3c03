#include "papers/drawing/drying_chart.hpp"

#include <algorithm>
#include <cmath>

#include "base/length.hpp"
#include "job/dates.hpp"

namespace awlmark::papers {
namespace {

constexpr double kWidth_pt = 480, kHeight_pt = 150, kLeft_pt = 34, kBottom_pt = 24;

std::optional<double> day(const std::string& time) {
  const auto whole = day_of(time.substr(0, 10));
  return whole ? std::optional<double>(static_cast<double>(*whole)) : std::nullopt;
}

}  // namespace

Drawing drying_chart(const drying::DryingLayer& layer, const std::string& name) {
  Canvas canvas(name, "Drying: readings, forecast and limit", {0, 0, kWidth_pt / 72, kHeight_pt / 72}, {12, ""}, {4, 4, 4, 4});
  double first = 1e300, last = -1e300, most = layer.limit_percent + 4;
  for (const auto& reading : layer.readings)
    if (const auto d = day(reading.time)) {
      first = std::min(first, *d);
      last = std::max(last, *d);
      most = std::max(most, reading.corrected_percent + 2);
    }
  for (const auto& point : layer.band)
    if (const auto d = day(point.date)) {
      last = std::max(last, *d);
      most = std::max(most, point.p90_percent + 1);
    }
  if (first > last) return {canvas.svg(), canvas.scale(), {}, {}};
  last = std::max(last, first + 2);
  const double least = std::min(8.0, layer.limit_percent - 6);
  const auto x = [&](double d) { return kLeft_pt + (kWidth_pt - kLeft_pt - 12) * (d - first) / (last - first); };
  const auto y = [&](double percent) { return 10 + (kHeight_pt - 10 - kBottom_pt) * (most - percent) / (most - least); };
  std::vector<PaperPoint> band;
  for (const auto& point : layer.band)
    if (const auto d = day(point.date)) band.push_back({x(*d), y(point.p90_percent)});
  for (auto it = layer.band.rbegin(); it != layer.band.rend(); ++it)
    if (const auto d = day(it->date)) band.push_back({x(*d), y(it->p10_percent)});
  if (band.size() > 2) canvas.shape(band, "dnew");
  std::vector<PaperPoint> middle;
  for (const auto& point : layer.band)
    if (const auto d = day(point.date)) middle.push_back({x(*d), y(point.p50_percent)});
  if (middle.size() > 1) canvas.shape(middle, "dl", false);
  canvas.line({kLeft_pt, y(layer.limit_percent)}, {kWidth_pt - 8, y(layer.limit_percent)}, "dl dedge drip");
  canvas.words_at({kLeft_pt + 40, y(layer.limit_percent) + 8}, "limit " + format_number(layer.limit_percent, 0) + " %", kLeastType_pt, "db");
  canvas.line({kLeft_pt, y(most)}, {kLeft_pt, y(least)}, "dl");
  canvas.line({kLeft_pt, y(least)}, {kWidth_pt - 8, y(least)}, "dl");
  for (double percent = std::ceil(least / 4) * 4; percent < most; percent += 4) canvas.words_at({kLeft_pt - 14, y(percent)}, format_number(percent, 0));
  const double step = std::max(1.0, std::ceil((last - first) / 6));
  for (double d = first; d <= last + 0.5; d += step)
    canvas.words_at({std::min(x(d), kWidth_pt - 22), kHeight_pt - 8}, awlmark::date_of(static_cast<long>(d)).substr(5));
  for (const auto& reading : layer.readings)
    if (const auto d = day(reading.time)) canvas.circle({x(*d), y(reading.corrected_percent)}, 3, "sfull");
  return {canvas.svg(), canvas.scale(), canvas.space().labels(), canvas.notes()};
}

}  // namespace awlmark::papers
