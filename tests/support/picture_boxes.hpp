#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "report/aim_map_labels.hpp"

namespace hailwright::testing {

/// A text of a picture with the room that it takes in the widest usual font.
struct PictureText {
  std::string words;
  detail::LabelBox box;
};

/// The texts of an svg that was drawn by `detail::Chart` or in its manner: x and y, or turned
/// upright by "translate(x y) rotate(-90)"; without title and description.
std::vector<PictureText> picture_texts(std::string_view svg);

/// Width and height of the picture.
detail::Spot picture_size(std::string_view svg);

/// Checks that no text lies on another one and that all are inside the picture; each is named in
/// the failure.
void check_texts_apart(std::string_view svg);

/// Where the parts of the paths of this colour begin ("M12 3.5"), all of them if none is named.
std::vector<detail::Spot> path_starts(std::string_view svg, std::string_view stroke = {});

}  // namespace hailwright::testing
