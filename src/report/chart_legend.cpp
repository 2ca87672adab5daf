#include "report/chart_legend.hpp"

namespace hailwright::detail {

namespace {

constexpr double sign_room = 38.0;
constexpr double air_at_right = 12.0;
constexpr double wrapped_line = 19.0;  ///< from a line to the next one of the same entry

double height_of(const std::vector<std::string>& lines) {
  return chart_line + wrapped_line * (static_cast<double>(lines.size()) - 1.0);
}

}  // namespace

Legend::Legend(std::vector<LegendEntry> entries, double left, double right)
    : entries_(std::move(entries)), left_(left) {
  for (const LegendEntry& entry : entries_) {
    const double words_at = left_ + (entry.sign ? sign_room : 0.0);
    lines_.push_back(wrapped_to(entry.words, right - air_at_right - words_at, chart_text_size));
  }
}

double Legend::height() const {
  double sum = 0.0;
  for (const auto& lines : lines_)
    sum += height_of(lines);
  return sum;
}

void Legend::draw(Chart& chart, double y) const {
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    const LegendEntry& entry = entries_[i];
    if (entry.sign) entry.sign(chart, {left_ + 14.0, y + chart_line / 2.0});
    double baseline = y + chart_line / 2.0 + 5.0;
    for (const std::string& line : lines_[i]) {
      chart.write({left_ + (entry.sign ? sign_room : 0.0), baseline}, line);
      baseline += wrapped_line;
    }
    y += height_of(lines_[i]);
  }
}

}  // namespace hailwright::detail
