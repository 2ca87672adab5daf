#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hailwright::detail {

/// A text for an element or an attribute in double quotes: & < > " are escaped, and what could
/// steer or reorder the text around it comes out as '?' (`printable`).
std::string svg_escaped(std::string_view text);

/// A coordinate to two decimals without zeros at its end, "-0" never: "12.5", "880". The same
/// number gives the same text everywhere. Contract: finite.
std::string svg_number(double value);

/// Name and value of an attribute; the value is escaped when written.
struct SvgAttribute {
  SvgAttribute(std::string_view attribute, std::string_view words)
      : name(attribute), value(words) {}
  SvgAttribute(std::string_view attribute, const char* words) : name(attribute), value(words) {}
  SvgAttribute(std::string_view attribute, std::string words)
      : name(attribute), value(std::move(words)) {}
  SvgAttribute(std::string_view attribute, double number)
      : name(attribute), value(svg_number(number)) {}
  std::string name;
  std::string value;
};
using SvgAttributes = std::initializer_list<SvgAttribute>;

/// Writes elements one below the other, indented, so that two pictures can be compared as text.
class Svg {
public:
  void open(std::string_view element, SvgAttributes attributes = {});
  void close();
  /// An element without content.
  void leaf(std::string_view element, SvgAttributes attributes);
  /// An element whose content is text.
  void words(std::string_view element, SvgAttributes attributes, std::string_view content);
  /// The picture. Contract: every element is closed.
  [[nodiscard]] std::string str() const;

private:
  void begin(std::string_view element, SvgAttributes attributes);
  std::string text_;
  std::vector<std::string> open_;
};

}  // namespace hailwright::detail
