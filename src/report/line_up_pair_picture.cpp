#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "report/chart.hpp"
#include "report/chart_legend.hpp"
#include "report/chart_rows.hpp"
#include "report/line_up_picture.hpp"
#include "report/line_up_rows.hpp"

namespace hailwright::detail {

namespace {

// Sizes in units of the picture [ours].
constexpr double left = 36.0, right = 964.0, top = 10.0;
constexpr double cell_gap = 6.0;  ///< between neighbouring cells
constexpr double sign_ring = 8.0;
// Each with each: a stair of cells with the names at its edge.
constexpr double stair_row = 66.0, widest_cell = 150.0, name_room = 200.0;
constexpr double first_row_less = 36.0;  ///< as high as its name alone
constexpr double pair_words_line = 16.0;
// Of larger groups: two columns of cells.
constexpr double list_row = 32.0, list_head = 46.0;
constexpr double above_column = 430.0, first_column = 700.0, list_cell = 250.0;

using Pair = std::pair<std::size_t, std::size_t>;

/// What is known of the pairs of a group, by their places in its order.
class PairDifferences {
public:
  explicit PairDifferences(const LineUpGroup& group) {
    std::map<std::size_t, std::size_t> place;  // in the order, by entry
    for (std::size_t i = 0; i < group.ranks.size(); ++i)
      place[group.ranks[i].entry] = i;
    for (const LineUpDifference& d : group.differences)
      found_[std::minmax(place.at(d.better), place.at(d.worse))] = &d;
  }
  /// Nothing where the two were not held against each other.
  [[nodiscard]] const LineUpDifference* of(std::size_t a, std::size_t b) const {
    const auto found = found_.find(std::minmax(a, b));
    return found == found_.end() ? nullptr : found->second;
  }

private:
  std::map<Pair, const LineUpDifference*> found_;
};

void circle(Chart& chart, Spot at) {
  chart.svg().leaf("circle", {{"cx", at.x},
                              {"cy", at.y},
                              {"r", sign_ring},
                              {"fill", "none"},
                              {"stroke", ink},
                              {"stroke-width", 2.0}});
}

/// Two rings apart with a line between them, or two that lie over each other.
void draw_sign(Chart& chart, Spot at, bool shown) {
  const double half = shown ? sign_ring + 4.0 : sign_ring / 2.0;
  circle(chart, {at.x - half, at.y});
  circle(chart, {at.x + half, at.y});
  if (shown) chart.line({at.x, at.y - sign_ring}, {at.x, at.y + sign_ring}, {2.0});
}

LineLook cell_look(bool shown) {
  return shown ? LineLook{2.5} : LineLook{1.0, "4 4"};
}

std::string outcome(bool shown) {
  return shown ? "told apart" : "not told apart";
}

// Each with each

double cell_width(std::size_t panels) {
  const double columns = std::max(1.0, static_cast<double>(panels) - 1.0);
  return std::min(widest_cell, (right - left - name_room) / columns);
}

Frame stair_cell(std::size_t row, std::size_t column, double width) {
  const double x = left + width * static_cast<double>(column);
  const double y = top + stair_row * static_cast<double>(row) - first_row_less;
  return {x, x + width - cell_gap, y, y + stair_row - cell_gap};
}

void draw_cell(Chart& chart, const Frame& cell, bool shown) {
  chart.box(cell, "none", cell_look(shown));
  const double middle = (cell.left + cell.right) / 2.0;
  const auto lines = wrapped_to(outcome(shown), cell.width() - 6.0, tick_text_size);
  const double words_high = pair_words_line * static_cast<double>(lines.size());
  const double sign_at = cell.top + (cell.height() - words_high) / 2.0;
  draw_sign(chart, {middle, sign_at}, shown);
  double y = sign_at + sign_ring + pair_words_line;
  for (const std::string& line : lines) {
    chart.write({middle, y}, line, {"middle", tick_text_size});
    y += pair_words_line;
  }
}

void draw_name(Chart& chart, const Frame& cell, double baseline, const std::string& name) {
  chart.write({cell.left + 2.0, baseline},
              shortened_to(name, right - cell.left - 2.0, chart_text_size, Weight::bold),
              {"start", chart_text_size, Weight::bold});
}

void draw_stair(Chart& chart, const PairDifferences& pairs, const std::vector<std::string>& names) {
  const double width = cell_width(names.size());
  for (std::size_t row = 0; row < names.size(); ++row) {
    for (std::size_t column = 0; column < row; ++column) {
      const LineUpDifference* d = pairs.of(column, row);
      if (d != nullptr) draw_cell(chart, stair_cell(row, column, width), d->shown);
    }
    const Frame cell = stair_cell(row, row, width);
    // The first has no cells beside it: close above its own column.
    const double baseline = row == 0 ? cell.bottom - 4.0 : (cell.top + cell.bottom) / 2.0 + 5.0;
    draw_name(chart, cell, baseline, names[row]);
  }
}

// Neighbours and the best

void draw_list_cell(Chart& chart, double x, double y, const LineUpDifference* d) {
  if (d == nullptr) return;
  const Frame cell{x, x + list_cell, y, y + list_row - cell_gap};
  const double middle = (cell.top + cell.bottom) / 2.0;
  chart.box(cell, "none", cell_look(d->shown));
  draw_sign(chart, {x + 40.0, middle}, d->shown);
  chart.write({x + 80.0, middle + 5.0}, outcome(d->shown), {"start", tick_text_size});
}

void draw_list(Chart& chart, const PairDifferences& pairs, const LineUpRows& shown,
               const std::vector<std::string>& names) {
  chart.write({above_column, top + 18.0}, "and the one before it");
  chart.write({first_column, top + 18.0}, "and the first in the order");
  double y = top + list_head - 12.0;
  for (std::size_t i = 0; i < shown.rows.size(); ++i) {
    if (shown.gap() && i == shown.gap_before) {
      chart.write({left, y + 18.0}, fmt::format("{} between, not drawn", shown.left_out));
      chart.line({above_column, y + 13.0}, {first_column + list_cell, y + 13.0}, {1.5, "2 8"});
      y += list_row;
    }
    const std::size_t row = shown.rows[i];
    chart.write({left, y + 18.0},
                shortened_to(names[i], above_column - left - 16.0, chart_text_size, Weight::bold),
                {"start", chart_text_size, Weight::bold});
    if (row > 0) {
      draw_list_cell(chart, above_column, y, pairs.of(row - 1, row));
      draw_list_cell(chart, first_column, y, pairs.of(0, row));
    }
    y += list_row;
  }
}

// Both

double drawn_height(const LineUpGroup& group, const LineUpRows& shown) {
  const auto rows = static_cast<double>(shown.rows.size() + (shown.gap() ? 1 : 0));
  return top +
         (group.each_with_each ? stair_row * rows - first_row_less : list_head + list_row * rows);
}

LegendEntry sign_entry(bool shown, const char* words) {
  return {[shown](Chart& chart, Spot at) {
            const double half = shown ? 8.0 : 3.5;
            for (const double x : {at.x - half, at.x + half}) {
              chart.svg().leaf("circle", {{"cx", x},
                                          {"cy", at.y},
                                          {"r", 5.0},
                                          {"fill", "none"},
                                          {"stroke", ink},
                                          {"stroke-width", 1.5}});
            }
            if (shown) chart.line({at.x, at.y - 6.0}, {at.x, at.y + 6.0}, {1.5});
          },
          words};
}

std::vector<LegendEntry> legend_of(bool each_with_each) {
  std::vector<LegendEntry> entries{
      sign_entry(true,
                 "told apart: the difference was shown, all pairs of the group reckoned with"),
      sign_entry(false,
                 "not told apart: a difference was not shown, which is not the same as none")};
  if (each_with_each) {
    entries.push_back(
        {{},
         "the cell of two panels lies straight below the upper name and left of the lower one"});
  } else {
    entries.push_back({{},
                       "more than 12 panels: held against each other were neighbours in the order, "
                       "and each with the first; reckoned with all pairs"});
  }
  return entries;
}

std::vector<std::string> names_of(const LineUpView& view, const LineUpGroup& group,
                                  const LineUpRows& shown) {
  std::vector<std::string> names;
  for (const std::size_t row : shown.rows)
    names.push_back((*view.entries)[group.ranks[row].entry].title);
  return names;
}

/// "Rigid A and Flex D" of all pairs that came out so, of the rows that are shown.
std::vector<std::string> pairs_named(const PairDifferences& pairs, const LineUpRows& shown,
                                     const std::vector<std::string>& names, bool wanted) {
  std::vector<std::string> named;
  for (std::size_t a = 0; a < names.size(); ++a) {
    for (std::size_t b = a + 1; b < names.size(); ++b) {
      const LineUpDifference* d = pairs.of(shown.rows[a], shown.rows[b]);
      if (d != nullptr && d->shown == wanted)
        named.push_back(fmt::format("{} and {}", names[a], names[b]));
    }
  }
  return named;
}

std::string description_of(const PairDifferences& pairs, const LineUpRows& shown,
                           const std::vector<std::string>& names) {
  std::vector<std::string> sentences;
  for (const bool wanted : {true, false}) {
    const auto named = pairs_named(pairs, shown, names, wanted);
    sentences.push_back(
        fmt::format("{}: {}.", wanted ? "Told apart" : "Not told apart",
                    named.empty() ? "none" : fmt::format("{}", fmt::join(named, "; "))));
  }
  if (shown.gap())
    sentences.push_back(fmt::format("{} panels between are not drawn.", shown.left_out));
  return fmt::format("{}", fmt::join(sentences, " "));
}

}  // namespace

Figure pair_picture(const LineUpView& view, const LineUpGroup& group, const std::string& suffix) {
  const PairDifferences pairs(group);
  const LineUpRows shown = rows_shown(group);
  const std::vector<std::string> names = names_of(view, group, shown);
  Figure figure;
  figure.id = "pairs" + suffix;
  figure.title = fmt::format("Which of {} panels were told apart", group.ranks.size());
  figure.description = description_of(pairs, shown, names);
  const double below = drawn_height(group, shown) + 6.0;
  const Legend legend(legend_of(group.each_with_each), rows_left);
  Chart chart(figure, below + legend.height() + 6.0);
  if (group.each_with_each) {
    draw_stair(chart, pairs, names);
  } else {
    draw_list(chart, pairs, shown, names);
  }
  legend.draw(chart, below);
  figure.svg = chart.finish();
  return figure;
}

}  // namespace hailwright::detail
