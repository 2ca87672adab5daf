#include "report/chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/core/contract.hpp"

namespace hailwright::detail {

namespace {

std::string at_text(Spot at) {
  return svg_number(at.x) + ' ' + svg_number(at.y);
}

std::string disc_path(Spot at, double half) {
  return fmt::format("M{}a{h} {h} 0 1 1 {d} 0a{h} {h} 0 1 1 -{d} 0z", at_text({at.x - half, at.y}),
                     fmt::arg("h", svg_number(half)), fmt::arg("d", svg_number(2.0 * half)));
}

/// The shape around a spot as a path of its own, to be joined to others.
std::string mark_path(Spot at, MarkShape shape, double half) {
  const std::string h = svg_number(half);
  const std::string d = svg_number(2.0 * half);
  const auto from = [&](double dx, double dy) { return 'M' + at_text({at.x + dx, at.y + dy}); };
  switch (shape) {
  case MarkShape::disc:
    return disc_path(at, half);
  case MarkShape::diamond:
    return fmt::format("{}l{h} {h}l-{h} {h}l-{h} -{h}z", from(0.0, -half), fmt::arg("h", h));
  case MarkShape::triangle:
    return fmt::format("{}l{h} {d}h-{d}z", from(0.0, -half), fmt::arg("h", h), fmt::arg("d", d));
  case MarkShape::cross:
    return fmt::format("{}l{d} {d}{}l{d} -{d}", from(-half, -half), from(-half, half),
                       fmt::arg("d", d));
  case MarkShape::ring: {
    const double out = half + 3.0;
    return disc_path(at, half) + fmt::format("{}h6{}h-6{}v6{}v-6", from(-out, 0.0), from(out, 0.0),
                                             from(0.0, -out), from(0.0, out));
  }
  }
  fail_contract("unknown shape of a mark");
}

bool of_lines(MarkShape shape) {
  return shape == MarkShape::cross || shape == MarkShape::ring;
}

/// As many figures as an axis has room for without one touching the next.
std::vector<Tick> fitting_ticks(const Scale& scale, bool level) {
  constexpr int many = 12;
  constexpr double between = 14.0;
  const double length = std::abs(scale.to() - scale.from());
  for (int most = std::clamp(static_cast<int>(length / 40.0), 2, many); most > 2; --most) {
    std::vector<Tick> all = ticks(scale, most);
    double end = -length;
    bool fit = true;
    for (const Tick& t : all) {
      if (t.label.empty()) continue;
      const double half = level ? text_units(t.label, tick_text_size) / 2.0 : tick_text_size / 2.0;
      const double middle = std::abs(scale.at(t.value) - scale.from());
      fit = fit && middle - half >= end + between;
      end = middle + half;
    }
    if (fit) return all;
  }
  return ticks(scale, 2);
}

}  // namespace

Chart::Chart(const Figure& figure, double height, double width) {
  svg_.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                    {"viewBox", fmt::format("0 0 {} {}", svg_number(width), svg_number(height))},
                    {"role", "img"},
                    {"aria-labelledby", fmt::format("{0}-title {0}-desc", figure.id)},
                    {"font-family", "sans-serif"},
                    {"font-size", chart_text_size},
                    {"fill", ink},
                    {"stroke", "none"}});
  svg_.words("title", {{"id", figure.id + "-title"}}, figure.title);
  svg_.words("desc", {{"id", figure.id + "-desc"}}, figure.description);
  svg_.leaf("rect", {{"width", width}, {"height", height}, {"fill", "#fff"}});
}

void Chart::write(Spot at, std::string_view words, const WordsLook& look) {
  const char* weight = look.weight == Weight::bold ? "bold" : "normal";
  if (look.upright) {
    svg_.words("text",
               {{"transform", fmt::format("translate({}) rotate(-90)", at_text(at))},
                {"text-anchor", look.anchor},
                {"font-size", look.size},
                {"font-weight", weight},
                {"fill", look.ink}},
               words);
    return;
  }
  svg_.words("text",
             {{"x", at.x},
              {"y", at.y},
              {"text-anchor", look.anchor},
              {"font-size", look.size},
              {"font-weight", weight},
              {"fill", look.ink}},
             words);
}

void Chart::line(Spot from, Spot to, const LineLook& look) {
  svg_.leaf("path", {{"d", 'M' + at_text(from) + 'L' + at_text(to)},
                     {"stroke", look.ink},
                     {"stroke-width", look.width},
                     {"stroke-dasharray", look.dash}});
}

void Chart::box(const Frame& frame, const char* fill, const LineLook& outline) {
  svg_.leaf("rect", {{"x", frame.left},
                     {"y", frame.top},
                     {"width", frame.width()},
                     {"height", frame.height()},
                     {"fill", fill},
                     {"stroke", outline.width > 0.0 ? outline.ink : "none"},
                     {"stroke-width", outline.width},
                     {"stroke-dasharray", outline.dash}});
}

void Chart::mark(Spot at, const MarkLook& look) {
  marks({at}, look);
}

void Chart::marks(const std::vector<Spot>& at, const MarkLook& look) {
  if (at.empty()) return;
  std::string path;
  for (const Spot spot : at)
    path += mark_path(spot, look.shape, look.half);
  const bool lines = of_lines(look.shape);
  svg_.leaf("path", {{"d", path},
                     {"fill", lines         ? "none"
                              : look.filled ? look.ink
                                            : "#fff"},
                     {"stroke", look.ink},
                     {"stroke-width", lines ? 2.0 : 1.5}});
}

void Chart::whisker_across(const Scale& x, double low, double high, double y, double cap,
                           const LineLook& look) {
  line({x.clipped(low), y}, {x.clipped(high), y}, look);
  for (const double value : {low, high}) {
    const double at = x.at(value);
    if (x.values().holds(value)) line({at, y - cap}, {at, y + cap}, {look.width, "none", look.ink});
  }
  arrows_beyond(x, {{low, high}, y, cap, true}, look);
}

void Chart::band_across(const Scale& x, double low, double high, double y, double half,
                        const LineLook& look) {
  band(x, {{low, high}, y, half, true}, look);
}

void Chart::band_up(const Scale& y, double low, double high, double x, double half,
                    const LineLook& look) {
  band(y, {{low, high}, x, half, false}, look);
}

namespace {

Spot beside(bool level, double along, double across) {
  return level ? Spot{along, across} : Spot{across, along};
}

}  // namespace

void Chart::band(const Scale& scale, const Bar& bar, const LineLook& look) {
  const double low = scale.clipped(bar.values.low);
  const double high = scale.clipped(bar.values.high);
  const auto corner = [&](double along, double off) {
    return at_text(beside(bar.level, along, bar.across + off));
  };
  svg_.leaf("path",
            {{"d", fmt::format("M{}L{}L{}L{}z", corner(low, -bar.half), corner(high, -bar.half),
                               corner(high, bar.half), corner(low, bar.half))},
             {"fill", "#fff"},
             {"stroke", look.ink},
             {"stroke-width", look.width},
             {"stroke-dasharray", look.dash}});
  arrows_beyond(scale, bar, look);
}

void Chart::arrows_beyond(const Scale& scale, const Bar& bar, const LineLook& look) {
  const double rising = scale.to() > scale.from() ? 1.0 : -1.0;
  for (const double value : {bar.values.low, bar.values.high}) {
    if (scale.values().holds(value)) continue;
    const double tip = scale.clipped(value);
    const double foot = tip + (value < scale.values().low ? rising : -rising) * bar.half;
    const auto spot = [&](double along, double off) {
      return at_text(beside(bar.level, along, bar.across + off));
    };
    svg_.leaf("path", {{"d", fmt::format("M{}L{}L{}z", spot(tip, 0.0), spot(foot, -bar.half),
                                         spot(foot, bar.half))},
                       {"fill", look.ink}});
  }
}

void Chart::axis_below(const Frame& frame, const Scale& x, std::string_view title) {
  for (const Tick& tick : fitting_ticks(x, true)) {
    const double at = x.at(tick.value);
    line({at, frame.top}, {at, frame.bottom}, {1.0, "none", grid_ink});
    line({at, frame.bottom}, {at, frame.bottom + (tick.label.empty() ? 3.0 : 6.0)});
    if (!tick.label.empty())
      write({at, frame.bottom + 20.0}, tick.label, {"middle", tick_text_size});
  }
  write({(frame.left + frame.right) / 2.0, frame.bottom + 44.0}, title, {"middle"});
}

void Chart::ruler(const Frame& strip, const Scale& x) {
  for (const Tick& tick : fitting_ticks(x, true)) {
    const double at = x.at(tick.value);
    line({at, strip.bottom - (tick.label.empty() ? 4.0 : 8.0)}, {at, strip.bottom});
  }
  box(strip, "none", {1.5});
}

void Chart::ruler_figures(const Frame& strip, const Scale& x, std::string_view title) {
  for (const Tick& tick : fitting_ticks(x, true)) {
    if (!tick.label.empty())
      write({x.at(tick.value), strip.bottom + 20.0}, tick.label, {"middle", tick_text_size});
  }
  write({(strip.left + strip.right) / 2.0, strip.bottom + 44.0}, title, {"middle"});
}

void Chart::axis_left(const Frame& frame, const Scale& y, std::string_view title) {
  for (const Tick& tick : fitting_ticks(y, false)) {
    const double at = y.at(tick.value);
    line({frame.left, at}, {frame.right, at}, {1.0, "none", grid_ink});
    line({frame.left - (tick.label.empty() ? 3.0 : 6.0), at}, {frame.left, at});
    if (!tick.label.empty())
      write({frame.left - 10.0, at + 5.0}, tick.label, {"end", tick_text_size});
  }
  write({frame.left - left_of_axis + 8.0, frame.top - 14.0}, title);
}

void Chart::outline(const Frame& frame) {
  box(frame, "none", {1.0});
}

void Chart::labels_below(double y, const AxisLabels& labels, const std::vector<double>& at,
                         const std::vector<std::string>& words, double size) {
  expects(at.size() == words.size(), "a label for every item");
  for (const AxisLabels::Label& label : labels.labels) {
    if (labels.upright) {
      write({label.x + size / 3.0, y + size / 2.0}, words.at(label.item),
            {"end", size, Weight::usual, ink, true});
    } else {
      write({label.x, y + label_row * label.row + size}, words.at(label.item), {"middle", size});
    }
  }
}

std::string Chart::finish() {
  svg_.close();
  return svg_.str();
}

std::optional<Stretch> clipped(const Stretch& stretch, const Frame& frame) {
  // Liang and Barsky: the part of 0..1 along the line that is inside each of the four edges.
  const double dx = stretch.to.x - stretch.from.x;
  const double dy = stretch.to.y - stretch.from.y;
  Ends part{0.0, 1.0};
  const auto keep = [&](double step, double room) {
    if (step == 0.0) return room >= 0.0;
    const double at = room / step;
    if (step < 0.0) {
      part.low = std::max(part.low, at);
    } else {
      part.high = std::min(part.high, at);
    }
    return part.low <= part.high;
  };
  const Spot from = stretch.from;
  if (!keep(-dx, from.x - frame.left) || !keep(dx, frame.right - from.x) ||
      !keep(-dy, from.y - frame.top) || !keep(dy, frame.bottom - from.y)) {
    return std::nullopt;
  }
  const auto spot = [&](double t) { return Spot{from.x + t * dx, from.y + t * dy}; };
  return Stretch{spot(part.low), spot(part.high)};
}

}  // namespace hailwright::detail
