#include "report/chart_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace hailwright::detail {

namespace {

// Sizes in units of the picture [ours].
constexpr double frame_left = 36.0;
constexpr double frame_right = 964.0;
constexpr double facts_left = 330.0;
constexpr double words_line = 18.0;
constexpr double below_words = 8.0;
constexpr double row_air = 14.0;

std::vector<std::string> wrapped(const std::vector<std::string>& facts) {
  std::vector<std::string> lines;
  for (const std::string& fact : facts) {
    for (std::string& line : wrapped_to(fact, frame_right - facts_left, tick_text_size))
      lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace

ChartRows::ChartRows(std::vector<RowWords> rows, double strip_height, double above_first)
    : rows_(std::move(rows)), strip_height_(strip_height) {
  double y = 0.0;
  for (const RowWords& row : rows_) {
    lines_.push_back(wrapped(row.facts));
    const auto lines = static_cast<double>(std::max<std::size_t>(1, lines_.back().size()));
    tops_.push_back(y);
    y += words_line * lines + below_words + (strips_.empty() ? above_first : 0.0);
    strips_.push_back(y);
    y += strip_height + row_air;
  }
}

Frame ChartRows::frame(double top) const {
  const double bottom = strips_.empty() ? 0.0 : strips_.back() + strip_height_;
  return {frame_left, frame_right, top, top + bottom};
}

Frame ChartRows::strip(const Frame& frame, std::size_t row) const {
  const double top = frame.top + strips_.at(row);
  return {frame.left, frame.right, top, top + strip_height_};
}

Frame ChartRows::last_strip(const Frame& frame) const {
  return strip(frame, strips_.size() - 1);
}

void ChartRows::draw(Chart& chart, const Frame& frame) const {
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    double y = frame.top + tops_[i] + words_line - 4.0;
    chart.write(
        {frame.left, y},
        shortened_to(rows_[i].name, facts_left - frame.left - 16.0, chart_text_size, Weight::bold),
        {"start", chart_text_size, Weight::bold});
    for (const std::string& line : lines_[i]) {
      chart.write({facts_left, y}, line, {"start", tick_text_size});
      y += words_line;
    }
  }
}

std::string rows_description(const std::vector<RowWords>& rows) {
  std::vector<std::string> sentences;
  for (const RowWords& row : rows)
    sentences.push_back(fmt::format("{}: {}.", row.name, fmt::join(row.facts, "; ")));
  return fmt::format("{}", fmt::join(sentences, " "));
}

}  // namespace hailwright::detail
