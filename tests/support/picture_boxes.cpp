#include "support/picture_boxes.hpp"

#include <cmath>
#include <cstdlib>
#include <regex>
#include <utility>

#include "report/chart_text.hpp"
#include "support/catch.hpp"
#include "support/markup.hpp"

namespace hailwright::testing {

namespace {

using detail::LabelBox;
using detail::Spot;
using Attributes = std::map<std::string, std::string>;

std::string value_of(const Attributes& attributes, const std::string& name,
                     const std::string& missing) {
  const auto found = attributes.find(name);
  return found == attributes.end() ? missing : found->second;
}

Spot two_numbers(const std::string& text) {
  char* rest = nullptr;
  const double first = std::strtod(text.c_str(), &rest);
  return {first, std::strtod(rest, nullptr)};
}

/// Capitals and figures reach 0.73 em above the baseline, descenders 0.24 em below it (DejaVu
/// Sans).
LabelBox box_of(const Attributes& a, double width, double size) {
  const std::string anchor = value_of(a, "text-anchor", "start");
  const double shift = anchor == "middle" ? 0.0 : anchor == "end" ? -width / 2.0 : width / 2.0;
  const double lift = (0.73 - 0.24) / 2.0 * size;
  const double height = (0.73 + 0.24) * size;
  const std::string turn = value_of(a, "transform", "");
  if (turn.empty()) {
    const Spot at{std::stod(a.at("x")), std::stod(a.at("y"))};
    return {{at.x + shift, at.y - lift}, width, height};
  }
  const Spot at = two_numbers(turn.substr(turn.find('(') + 1));
  return {{at.x - lift, at.y - shift}, height, width};
}

bool overlap(const LabelBox& a, const LabelBox& b) {
  return std::abs(a.middle.x - b.middle.x) < (a.width + b.width) / 2.0 &&
         std::abs(a.middle.y - b.middle.y) < (a.height + b.height) / 2.0;
}

}  // namespace

std::vector<PictureText> picture_texts(std::string_view svg) {
  std::vector<PictureText> texts;
  for (const markup::Element& e : markup::read(svg)) {
    if (e.name != "text") continue;
    const double size = std::stod(value_of(e.attributes, "font-size", "15"));
    const bool bold = value_of(e.attributes, "font-weight", "normal") == "bold";
    const double width =
        detail::text_units(e.text, size, bold ? detail::Weight::bold : detail::Weight::usual);
    texts.push_back({e.text, box_of(e.attributes, width, size)});
  }
  return texts;
}

Spot picture_size(std::string_view svg) {
  const std::string box = markup::read(svg).front().attributes.at("viewBox");
  REQUIRE(box.starts_with("0 0 "));
  return two_numbers(box.substr(4));
}

void check_texts_apart(std::string_view svg) {
  const std::vector<PictureText> texts = picture_texts(svg);
  const Spot size = picture_size(svg);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const LabelBox& box = texts[i].box;
    CAPTURE(texts[i].words, box.middle.x, box.middle.y, box.width);
    CHECK(box.middle.x - box.width / 2.0 >= 0.0);
    CHECK(box.middle.x + box.width / 2.0 <= size.x);
    CHECK(box.middle.y - box.height / 2.0 >= 0.0);
    CHECK(box.middle.y + box.height / 2.0 <= size.y);
    for (std::size_t k = i + 1; k < texts.size(); ++k) {
      CAPTURE(texts[k].words, texts[k].box.middle.x, texts[k].box.middle.y);
      CHECK_FALSE(overlap(box, texts[k].box));
    }
  }
}

std::vector<Spot> path_starts(std::string_view svg, std::string_view stroke) {
  static const std::regex start("M(-?[0-9.]+) (-?[0-9.]+)");
  std::vector<Spot> starts;
  for (const markup::Element& e : markup::read(svg)) {
    if (e.name != "path" || (!stroke.empty() && value_of(e.attributes, "stroke", "") != stroke))
      continue;
    const std::string& d = e.attributes.at("d");
    for (std::sregex_iterator i(d.begin(), d.end(), start), end; i != end; ++i)
      starts.push_back({std::stod((*i)[1].str()), std::stod((*i)[2].str())});
  }
  return starts;
}

}  // namespace hailwright::testing
