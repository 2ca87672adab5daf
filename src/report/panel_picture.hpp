#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/model/panel.hpp"
#include "hailwright/model/panel_geometry.hpp"
#include "report/aim_map_labels.hpp"
#include "report/svg.hpp"

namespace hailwright::detail {

// Sizes in units of the picture [ours]: printed 170 mm wide, 15 units of text are 7 points.
constexpr double picture_width = 1000.0;
constexpr double picture_left = 84.0;  ///< of the panel
constexpr double text_size = 15.0;
constexpr double line_height = 26.0;

/// A panel from the front, to scale, in black and grey on white: what every picture of it shows
/// below its marks. Origin at the lower left corner. Contract: the panel has a size.
class PanelPicture {
public:
  /// Writes into `svg`; both must outlive it. A narrower picture has larger words beside its panel.
  PanelPicture(const Panel& panel, Svg& svg, double width = picture_width);

  [[nodiscard]] Spot spot(Position at) const;
  [[nodiscard]] double units(Length length) const { return length.si() * scale_; }
  /// The panel's outline less a little: where labels may stand.
  [[nodiscard]] LabelBox area() const;
  /// Height of the first line below the panel, its rulers and its scale bar.
  [[nodiscard]] double legend_top() const { return bottom_ + 92.0; }

  /// Cells, frame, outline and junction box; rulers, origin and scale bar around them.
  void draw_back();
  /// Mounting points and origin: above the marks, which would hide them.
  void draw_front();
  /// What labels keep off.
  [[nodiscard]] std::vector<LabelBox> mount_boxes() const;

  /// The lines of the legend that explain the panel.
  [[nodiscard]] std::size_t legend_lines() const;
  /// @param left  of its signs
  void draw_legend(double y, double left = picture_left);

  void write(double x, double y, std::string_view content, const char* anchor = "start",
             double size = text_size);
  void line(Spot from, Spot to, double width = 1.0);

private:
  struct Symbol {
    char kind;  ///< f(rame), c(ells), j(unction box), m(ounting point)
    std::string words;
  };
  [[nodiscard]] std::vector<Symbol> symbols() const;
  [[nodiscard]] std::string rectangle(const Glass& area) const;
  [[nodiscard]] Glass outline() const;
  void draw_panel();
  void draw_cells(const CellField& field);
  void draw_box(const JunctionBox& box);
  void draw_rulers();
  void draw_origin();
  void draw_scale_bar();
  void draw_mount(Spot at);
  void draw_symbol(char kind, Spot at);

  const Panel& panel_;
  Svg& svg_;
  double scale_;         ///< units of the picture per metre
  double bottom_, end_;  ///< lower and right edge of the panel in the picture
};

/// A length of a panel as a picture writes it: "24.5", without unit.
std::string picture_mm(Length length);

}  // namespace hailwright::detail
