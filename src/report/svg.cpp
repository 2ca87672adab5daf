#include "report/svg.hpp"

#include <cmath>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/quantity_text.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

std::string svg_escaped(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) {
    switch (c) {
    case '&':
      out += "&amp;";
      break;
    case '<':
      out += "&lt;";
      break;
    case '>':
      out += "&gt;";
      break;
    case '"':
      out += "&quot;";
      break;
    default:
      out += c;
    }
  }
  return out;
}

std::string svg_number(double value) {
  expects(std::isfinite(value), "a finite coordinate");
  std::string text = fixed(value, 2);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text;
}

void Svg::begin(std::string_view element, SvgAttributes attributes) {
  text_.append(2 * open_.size(), ' ');
  text_ += '<';
  text_ += element;
  for (const SvgAttribute& attribute : attributes)
    text_ += ' ' + attribute.name + "=\"" + svg_escaped(attribute.value) + '"';
}

void Svg::open(std::string_view element, SvgAttributes attributes) {
  begin(element, attributes);
  text_ += ">\n";
  open_.emplace_back(element);
}

void Svg::close() {
  expects(!open_.empty(), "an open element");
  const std::string element = open_.back();
  open_.pop_back();
  text_.append(2 * open_.size(), ' ');
  text_ += "</" + element + ">\n";
}

void Svg::leaf(std::string_view element, SvgAttributes attributes) {
  begin(element, attributes);
  text_ += "/>\n";
}

void Svg::words(std::string_view element, SvgAttributes attributes, std::string_view content) {
  begin(element, attributes);
  text_ += '>' + svg_escaped(content) + "</" + std::string(element) + ">\n";
}

std::string Svg::str() const {
  expects(open_.empty(), "every element is closed");
  return text_;
}

}  // namespace hailwright::detail
