#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "hailwright/report/document.hpp"

namespace hailwright::detail {

/// The values of all `id` attributes of a drawing, in order.
std::vector<std::string> ids_in(std::string_view svg);

/// What stands inside the <figure> of a drawing: on a narrow screen it scrolls rather than shrink
/// until its words cannot be read, also by keyboard. It is told by the title and description inside
/// the drawing, once.
/// Contract: a title; an id of letters, digits and -; an svg that begins with "<svg".
std::string html_drawing(const Figure& figure);

/// The same of a photograph, whose bytes are in the page.
/// Contract: a title; bytes of a JPEG or PNG image with width and height.
std::string html_photograph(const Photo& photo);

}  // namespace hailwright::detail
