#include "report/chart_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace hailwright::detail {

namespace {

// Sizes in units of the picture [ours].
constexpr double frame_left = 384.0;
constexpr double frame_right = 976.0;
constexpr double words_width = frame_left - rows_left - 16.0;
constexpr double words_line = 18.0;
constexpr double row_air = 20.0;

std::vector<std::string> wrapped(const std::vector<std::string>& facts) {
  std::vector<std::string> lines;
  for (const std::string& fact : facts) {
    for (std::string& line : wrapped_to(fact, words_width, tick_text_size))
      lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace

ChartRows::ChartRows(std::vector<RowWords> rows, double least_height)
    : rows_(std::move(rows)), tops_{0.0} {
  for (const RowWords& row : rows_) {
    lines_.push_back(wrapped(row.facts));
    const double words = words_line * (1.0 + static_cast<double>(lines_.back().size())) + row_air;
    tops_.push_back(tops_.back() + std::max(least_height, words));
  }
}

Frame ChartRows::frame(double top) const {
  return {frame_left, frame_right, top, top + tops_.back()};
}

double ChartRows::top(const Frame& frame, std::size_t row) const {
  return frame.top + tops_.at(row);
}

void ChartRows::draw(Chart& chart, const Frame& frame) const {
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    if (i > 0) chart.line({rows_left, top(frame, i)}, {frame.right, top(frame, i)});
    write(chart, i, top(frame, i));
  }
}

void ChartRows::write(Chart& chart, std::size_t row, double top) const {
  double y = top + words_line;
  chart.write({rows_left, y},
              shortened_to(rows_[row].name, words_width, chart_text_size, Weight::bold),
              {"start", chart_text_size, Weight::bold});
  for (const std::string& line : lines_[row]) {
    y += words_line;
    chart.write({rows_left, y}, line, {"start", tick_text_size});
  }
}

std::string rows_description(const std::vector<RowWords>& rows) {
  std::vector<std::string> sentences;
  for (const RowWords& row : rows)
    sentences.push_back(fmt::format("{}: {}.", row.name, fmt::join(row.facts, "; ")));
  return fmt::format("{}", fmt::join(sentences, " "));
}

}  // namespace hailwright::detail
