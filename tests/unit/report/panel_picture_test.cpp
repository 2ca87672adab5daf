#include "report/panel_picture.hpp"

#include "hailwright/core/contract.hpp"
#include "support/aim_examples.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;
using namespace hailwright::testing;

namespace {

std::string drawn(const Panel& panel) {
  Svg svg;
  PanelPicture picture(panel, svg);
  picture.draw_back();
  picture.draw_front();
  picture.draw_legend(picture.legend_top());
  return svg.str();
}

}  // namespace

TEST_CASE("panel_picture: to scale, right and up from the lower left corner") {
  const Panel panel = framed_36_cells();
  Svg svg;
  const PanelPicture picture(panel, svg);
  const Spot origin = picture.spot(mm(0, 0));
  const Spot across = picture.spot(mm(1020, 510));
  CHECK(across.x > origin.x);
  CHECK(across.y < origin.y);
  // 1020 and 510 mm: twice as long as high.
  CHECK_THAT(across.x - origin.x, WithinRel(2.0 * (origin.y - across.y), 1e-12));
  CHECK_THAT(picture.units(1020.0_mm), WithinRel(across.x - origin.x, 1e-12));
  CHECK(picture_mm(24.5_mm) == "24.5");
  CHECK(picture_mm(1020.0_mm) == "1020");
}

TEST_CASE("panel_picture: fits whatever the shape of the panel") {
  for (const double short_mm : {40.0, 300.0, 1020.0}) {
    Panel panel = framed_36_cells();
    panel.size->short_side = Length::from_si(short_mm / 1000.0);
    Svg svg;
    const PanelPicture picture(panel, svg);
    const LabelBox area = picture.area();
    CAPTURE(short_mm);
    CHECK(area.middle.x + area.width / 2.0 <= picture_width);
    CHECK(picture.legend_top() <= 900.0);
  }
}

TEST_CASE("panel_picture: what is not there is neither drawn nor explained") {
  const std::string framed = drawn(framed_36_cells());
  CHECK_THAT(framed, Contains("frame, 12 mm wide (taken: not in the file)"));
  CHECK_THAT(framed, Contains("mounting point") && Contains("junction box, on the back"));
  CHECK_THAT(framed, Contains("measure from here: right and up, in mm") && Contains("200 mm") &&
                         Contains("top edge"));
  CHECK_THAT(drawn(framed_32_cells()), Contains("frame, 15 mm wide<"));
  const std::string flexible = drawn(flexible_32_cells());
  CHECK_THAT(flexible, !Contains("frame,") && !Contains("mounting point"));
  Panel bare;
  bare.build = Build::frameless_glass;
  bare.size = Outline{1.0_m, 0.5_m, std::nullopt};
  CHECK_THAT(drawn(bare), !Contains("cells") && !Contains("junction"));
  bare.size.reset();
  Svg svg;
  CHECK_THROWS_AS(PanelPicture(bare, svg), BugError);
}
