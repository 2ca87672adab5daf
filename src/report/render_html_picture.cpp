#include "report/render_html_picture.hpp"

#include "hailwright/core/contract.hpp"
#include "hailwright/core/digest.hpp"
#include "report/render_html_text.hpp"

namespace hailwright::detail {

namespace {

std::string_view told(std::string_view title, std::string_view description) {
  return is_blank(description) ? title : description;
}

std::string captioned(const std::string& picture, std::string_view title) {
  return '\n' + picture + '\n' + html_element("figcaption", html_escaped(title)) + '\n';
}

}  // namespace

std::vector<std::string> ids_in(std::string_view svg) {
  constexpr std::string_view mark = " id=\"";
  std::vector<std::string> ids;
  for (std::size_t at = svg.find(mark); at != std::string_view::npos; at = svg.find(mark, at)) {
    at += mark.size();
    ids.emplace_back(svg.substr(at, svg.find('"', at) - at));
  }
  return ids;
}

std::string html_drawing(const Figure& figure) {
  expects(!figure.title.empty(), "a figure with a title");
  expects(is_plain_name(figure.id), "a figure's id of letters, digits and -");
  expects(std::string_view(figure.svg).starts_with("<svg"), "a figure's picture is an svg");
  // The drawing tells its title and description itself; the box is a stop for the keyboard where
  // it scrolls, and says no more than what it is.
  const std::string box = html_element("div", figure.svg,
                                       "class=\"picture\" role=\"group\" tabindex=\"0\" "
                                       "aria-label=\"Picture\"");
  return captioned(box, figure.title);
}

std::string html_photograph(const Photo& photo) {
  expects(!photo.title.empty(), "a photograph with a title");
  expects(photo.media_type == "image/jpeg" || photo.media_type == "image/png",
          "a photograph in JPEG or PNG");
  expects(!photo.bytes.empty() && photo.width > 0 && photo.height > 0, "a photograph with pixels");
  const std::string image = "<img src=\"data:" + photo.media_type + ";base64," +
                            base64(photo.bytes) + "\" width=\"" + std::to_string(photo.width) +
                            "\" height=\"" + std::to_string(photo.height) + "\" alt=\"" +
                            html_escaped(told(photo.title, photo.description)) + "\" />";
  return captioned(image, photo.title);
}

}  // namespace hailwright::detail
