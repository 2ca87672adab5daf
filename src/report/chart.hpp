#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/document.hpp"
#include "report/aim_map_labels.hpp"
#include "report/chart_labels.hpp"
#include "report/chart_scale.hpp"
#include "report/chart_text.hpp"
#include "report/svg.hpp"

namespace hailwright::detail {

// What all charts are drawn with: ink on white, 1000 units wide as the pictures of panels are.
// Sizes in units of the picture [ours]: printed 170 mm wide, 15 units of text are 7 points.
constexpr double chart_width = 1000.0;
constexpr double chart_text_size = 15.0;
constexpr double tick_text_size = 14.0;
constexpr double chart_line = 24.0;  ///< from one line of words to the next

// Black, and two greys: of what is faint (4.5 : 1 on white or more), and of the grid.
constexpr const char* ink = "#000";
constexpr const char* faint_ink = "#707070";
constexpr const char* grid_ink = "#dcdcdc";

/// The rectangle of an axis' values; `top` is the smaller number.
struct Frame {
  double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return bottom - top; }
};

struct WordsLook {
  const char* anchor = "start";  ///< "start", "middle", "end"
  double size = chart_text_size;
  Weight weight = Weight::usual;
  const char* ink = detail::ink;
  bool upright = false;  ///< turned to be read from the right side, about its spot
};

struct LineLook {
  double width = 1.0;
  const char* dash = "none";  ///< as stroke-dasharray: "6 4"
  const char* ink = detail::ink;
};

enum class MarkShape { disc, diamond, triangle, cross, ring };

/// A mark; `cross` and `ring` (with four ticks that point at its
/// middle, as a place has on the map of hits) are lines and never filled.
struct MarkLook {
  MarkShape shape = MarkShape::disc;
  bool filled = true;
  double half = 6.0;  ///< half of its size
  const char* ink = detail::ink;
};

/// A chart from its first to its last element. Everything is drawn on top of what came before.
class Chart {
public:
  /// Opens the picture: id, title and description of the figure, white ground.
  Chart(const Figure& figure, double height, double width = chart_width);

  /// For shapes that are not here.
  Svg& svg() { return svg_; }
  /// A text; its baseline is at `at.y`, its left end, middle or right end at `at.x`. Turned
  /// upright, the same before it is turned about that spot.
  void write(Spot at, std::string_view words, const WordsLook& look = {});
  void line(Spot from, Spot to, const LineLook& look = {});
  void box(const Frame& frame, const char* fill, const LineLook& outline);
  void mark(Spot at, const MarkLook& look = {});
  /// Many marks of one look as a single element, so that thousands stay small.
  void marks(const std::vector<Spot>& at, const MarkLook& look);
  /// Bars with caps from `low` to `high` along an axis, at `across` on the other one. An end that
  /// lies beyond the axis is drawn at its edge as an arrow.
  void whisker_across(const Scale& x, double low, double high, double y, double cap = 7.0,
                      const LineLook& look = {2.0});
  /// The same along either axis as a white band, `half` of its width on each side, for marks to
  /// stand in.
  void band_across(const Scale& x, double low, double high, double y, double half,
                   const LineLook& look = {1.5});
  void band_up(const Scale& y, double low, double high, double x, double half,
               const LineLook& look = {1.5});

  /// The axis below a frame: grid upwards, figures, title with its unit. Takes 52 units of height.
  void axis_below(const Frame& frame, const Scale& x, std::string_view title);
  /// A strip with the marks of an axis at its lower edge, as those of a ruler.
  void ruler(const Frame& strip, const Scale& x);
  /// Figures and title below a strip. Takes 52 units of height.
  void ruler_figures(const Frame& strip, const Scale& x, std::string_view title);

  /// The axis left of a frame: grid to the right, figures, title with its unit above. Takes 84
  /// units of width, and 26 of height above.
  void axis_left(const Frame& frame, const Scale& y, std::string_view title);
  /// Lines around a frame, drawn after its grid.
  void outline(const Frame& frame);
  /// Words of items below a frame, as `labels_along` placed them; rows 17 units high.
  void labels_below(double y, const AxisLabels& labels, const std::vector<double>& at,
                    const std::vector<std::string>& words, double size = tick_text_size);

  /// The picture as a whole. Nothing can be drawn after it.
  [[nodiscard]] std::string finish();

private:
  /// A stretch along an axis at `across` on the other one, `half` wide on each side.
  struct Bar {
    Ends values;
    double across = 0.0, half = 0.0;
    bool level = false;  ///< along the axis below
  };
  void band(const Scale& scale, const Bar& bar, const LineLook& look);
  void arrows_beyond(const Scale& scale, const Bar& bar, const LineLook& look);
  Svg svg_;
};

/// What an axis takes beside its frame.
constexpr double below_axis = 52.0;
constexpr double left_of_axis = 84.0;
constexpr double above_axis = 26.0;
/// Height of a row of `AxisLabels`.
constexpr double label_row = 17.0;

/// A line from one spot to another cut to a frame; nothing where it lies outside.
struct Stretch {
  Spot from, to;
};
std::optional<Stretch> clipped(const Stretch& stretch, const Frame& frame);

}  // namespace hailwright::detail
