#include "report/panel_picture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

constexpr double right_margin = 36.0, top_margin = 40.0;
constexpr double most_height = 720.0;  ///< of the panel
constexpr double ruler_size = 14.0;    ///< of the figures at the rulers
constexpr double mount_half = 6.0;

/// The smallest of 1, 2 and 5 times a power of ten from 10 mm that is at least this long.
double round_length_m(double least_m) {
  for (const double power : {0.01, 0.1, 1.0}) {
    for (const double factor : {1.0, 2.0, 5.0}) {
      if (factor * power >= least_m - 1e-12) return factor * power;
    }
  }
  return 10.0;
}

double units_per_metre(const Panel& panel, double width) {
  expects(panel.size.has_value(), "a panel with a size");
  return std::min((width - picture_left - right_margin) / panel.size->long_side.si(),
                  most_height / panel.size->short_side.si());
}

}  // namespace

std::string picture_mm(Length length) {
  return svg_number(std::round(length.si() * 1e4) / 10.0);
}

PanelPicture::PanelPicture(const Panel& panel, Svg& svg, double width)
    : panel_(panel), svg_(svg), scale_(units_per_metre(panel, width)),
      bottom_(top_margin + units(panel.size->short_side)),
      end_(picture_left + units(panel.size->long_side)) {}

LabelBox PanelPicture::area() const {
  return {{(picture_left + end_) / 2.0, (top_margin + bottom_) / 2.0},
          end_ - picture_left - 4.0,
          bottom_ - top_margin - 4.0};
}

void PanelPicture::draw_back() {
  draw_panel();
  draw_rulers();
  draw_origin();
  draw_scale_bar();
}

void PanelPicture::draw_front() {
  svg_.leaf("circle", {{"cx", picture_left}, {"cy", bottom_}, {"r", 5.0}});
  for (const Position mount : panel_.mounting_points)
    draw_mount(spot(mount));
}

std::vector<LabelBox> PanelPicture::mount_boxes() const {
  std::vector<LabelBox> boxes;
  for (const Position mount : panel_.mounting_points)
    boxes.push_back({spot(mount), 2.0 * mount_half, 2.0 * mount_half});
  return boxes;
}

std::size_t PanelPicture::legend_lines() const {
  return (symbols().size() + 1) / 2;
}

void PanelPicture::draw_legend(double y, double left) {
  const double sample_x = left + 12.0;
  const double words_x = left + 36.0;
  constexpr double second_column = 430.0;
  const std::vector<Symbol> all = symbols();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const double shift = i % 2 == 0 ? 0.0 : second_column;
    draw_symbol(all[i].kind, {sample_x + shift, y});
    write(words_x + shift, y + 5.0, all[i].words);
    if (i % 2 == 1) y += line_height;
  }
}

void PanelPicture::write(double x, double y, std::string_view content, const char* anchor,
                         double size) {
  svg_.words("text", {{"x", x}, {"y", y}, {"text-anchor", anchor}, {"font-size", size}}, content);
}

void PanelPicture::line(Spot from, Spot to, double width) {
  svg_.leaf("path", {{"d", fmt::format("M{} {}L{} {}", svg_number(from.x), svg_number(from.y),
                                       svg_number(to.x), svg_number(to.y))},
                     {"stroke", "#000"},
                     {"stroke-width", width}});
}

Spot PanelPicture::spot(Position at) const {
  return {picture_left + at.right.si() * scale_, bottom_ - at.up.si() * scale_};
}

std::string PanelPicture::rectangle(const Glass& area) const {
  const Spot low = spot(area.low);
  const Spot high = spot(area.high);
  return fmt::format("M{} {}H{}V{}H{}Z", svg_number(low.x), svg_number(low.y), svg_number(high.x),
                     svg_number(high.y), svg_number(low.x));
}

Glass PanelPicture::outline() const {
  return {{}, {panel_.size->long_side, panel_.size->short_side}};
}

void PanelPicture::draw_panel() {
  write((picture_left + end_) / 2.0, top_margin - 14.0,
        "top edge: the panel from the front, its long side lying", "middle");
  svg_.leaf("path", {{"d", rectangle(outline())}, {"fill", "#fff"}});
  if (const auto field = cell_field(panel_)) draw_cells(*field);
  if (const auto glass = glass_of(panel_); glass && frame_width(panel_).si() > 0.0) {
    svg_.leaf("path", {{"d", rectangle(outline()) + rectangle(*glass)},
                       {"fill", "#d4d4d4"},
                       {"fill-rule", "evenodd"},
                       {"stroke", "#000"},
                       {"stroke-width", 1.0}});
  }
  svg_.leaf(
      "path",
      {{"d", rectangle(outline())}, {"fill", "none"}, {"stroke", "#000"}, {"stroke-width", 2.0}});
  if (panel_.junction_box) draw_box(*panel_.junction_box);
}

void PanelPicture::draw_cells(const CellField& field) {
  std::string path;
  for (int row = 0; row < field.across; ++row) {
    for (int column = 0; column < field.along; ++column)
      path += rectangle(cell_at(field, column, row));
  }
  svg_.leaf("path",
            {{"d", path}, {"fill", "#f2f2f2"}, {"stroke", "#a0a0a0"}, {"stroke-width", 1.0}});
}

void PanelPicture::draw_box(const JunctionBox& box) {
  const Position low{box.at.right - box.width / 2.0, box.at.up - box.height / 2.0};
  const Position high{box.at.right + box.width / 2.0, box.at.up + box.height / 2.0};
  svg_.leaf("path", {{"d", rectangle({nearest_in(outline(), low), nearest_in(outline(), high)})},
                     {"fill", "none"},
                     {"stroke", "#000"},
                     {"stroke-width", 2.0},
                     {"stroke-dasharray", "8 5"}});
}

/// Distances in mm along the lower and the picture_left edge.
void PanelPicture::draw_rulers() {
  constexpr double least_step = 56.0;  // units: room for four digits
  const double step_m = round_length_m(least_step / scale_);
  const auto ticks = [&](double side_m) { return static_cast<int>(side_m / step_m * 2.0 + 1e-9); };
  const auto figure = [&](int half_steps) {
    const int steps = half_steps / 2;
    return svg_number(steps * step_m * 1000.0);
  };
  for (int i = 0; i <= ticks(panel_.size->long_side.si()); ++i) {
    const double x = picture_left + i * step_m / 2.0 * scale_;
    line({x, bottom_ + 3.0}, {x, bottom_ + (i % 2 == 0 ? 12.0 : 8.0)});
    if (i % 2 == 0) write(x, bottom_ + 27.0, figure(i), "middle", ruler_size);
  }
  for (int i = 1; i <= ticks(panel_.size->short_side.si()); ++i) {
    const double y = bottom_ - i * step_m / 2.0 * scale_;
    line({picture_left - 3.0, y}, {picture_left - (i % 2 == 0 ? 12.0 : 8.0), y});
    if (i % 2 == 0) write(picture_left - 16.0, y + 5.0, figure(i), "end", ruler_size);
  }
}

void PanelPicture::draw_origin() {
  const double x = picture_left - 62.0;
  const double y = bottom_ + 50.0;
  line({picture_left - 5.0, bottom_ + 4.0}, {x, y});
  svg_.leaf("path", {{"d", fmt::format("M{0} {2}V{1}H{3}", svg_number(x), svg_number(y),
                                       svg_number(y - 62.0), svg_number(x + 62.0))},
                     {"fill", "none"},
                     {"stroke", "#000"},
                     {"stroke-width", 2.0}});
  svg_.leaf("path", {{"d", fmt::format("M{} {}l-5 11h10z", svg_number(x), svg_number(y - 70.0))}});
  svg_.leaf("path", {{"d", fmt::format("M{} {}l-11 -5v10z", svg_number(x + 70.0), svg_number(y))}});
  write(x + 78.0, y + 5.0, "measure from here: right and up, in mm");
}

void PanelPicture::draw_scale_bar() {
  constexpr double least = 110.0;
  const double length_m = round_length_m(least / scale_);
  const double x = end_ - length_m * scale_;
  const double y = bottom_ + 50.0;
  line({x, y}, {end_, y}, 3.0);
  line({x, y - 5.0}, {x, y + 5.0}, 2.0);
  line({end_, y - 5.0}, {end_, y + 5.0}, 2.0);
  write(x - 8.0, y + 5.0, fmt::format("{} mm", svg_number(length_m * 1000.0)), "end");
}

void PanelPicture::draw_mount(Spot at) {
  svg_.leaf("path", {{"d", fmt::format("M{0} {1}m0 -{2}l{2} {2}l-{2} {2}l-{2} -{2}z",
                                       svg_number(at.x), svg_number(at.y), svg_number(mount_half))},
                     {"fill", "#fff"},
                     {"stroke", "#000"},
                     {"stroke-width", 1.5}});
}

std::vector<PanelPicture::Symbol> PanelPicture::symbols() const {
  std::vector<Symbol> all;
  if (frame_width(panel_).si() > 0.0) {
    all.push_back({'f', fmt::format("frame, {} mm wide{}", picture_mm(frame_width(panel_)),
                                    frame_assumed(panel_) ? " (taken: not in the file)" : "")});
  }
  if (cell_field(panel_)) all.push_back({'c', "cells"});
  if (panel_.junction_box) all.push_back({'j', "junction box, on the back"});
  if (!panel_.mounting_points.empty()) all.push_back({'m', "mounting point"});
  return all;
}

void PanelPicture::draw_symbol(char kind, Spot at) {
  if (kind == 'm') {
    draw_mount(at);
    return;
  }
  const char* fill = kind == 'f' ? "#d4d4d4" : kind == 'c' ? "#f2f2f2" : "none";
  svg_.leaf("rect", {{"x", at.x - 12.0},
                     {"y", at.y - 8.0},
                     {"width", 24.0},
                     {"height", 16.0},
                     {"fill", fill},
                     {"stroke", kind == 'c' ? "#a0a0a0" : "#000"},
                     {"stroke-width", kind == 'j' ? 2.0 : 1.0},
                     {"stroke-dasharray", kind == 'j' ? "8 5" : "none"}});
}

}  // namespace hailwright::detail
