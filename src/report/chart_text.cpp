#include "report/chart_text.hpp"

#include <algorithm>
#include <array>

#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

constexpr char32_t first_printable = U' ';
constexpr char32_t last_printable = U'~';
constexpr double narrow_em = 1.0, wide_em = 1.25;
constexpr double bold_factor = 1.25;

// Thousandths of an em, from the blank to the tilde.
constexpr std::array<int, last_printable - first_printable + 1> widths{
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361,  318, 337, 637, 637, 637,
    637, 637, 637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 557, 1016, 685, 687, 723, 771, 667,
    611, 778, 752, 295, 500, 667, 558, 863, 749, 788, 667, 788, 723, 667,  611, 732, 685, 989, 686,
    667, 686, 391, 337, 391, 838, 557, 500, 613, 635, 550, 635, 616, 353,  635, 634, 278, 278, 580,
    278, 975, 634, 612, 635, 635, 412, 521, 393, 634, 592, 818, 592, 592,  525, 637, 337, 637, 838};

double width_em(char32_t code) {
  if (first_printable <= code && code <= last_printable) {
    return widths.at(code - first_printable) / 1000.0;
  }
  const int columns = character_width(code);
  return columns == 0 ? 0.0 : columns == 1 ? narrow_em : wide_em;
}

}  // namespace

double text_units(std::string_view text, double size, Weight weight) {
  double em = 0.0;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    em += width_em(c.code);
    at += c.length;
  }
  return em * size * (weight == Weight::bold ? bold_factor : 1.0);
}

std::string shortened_to(std::string_view text, double most, double size, Weight weight) {
  std::string clean = one_line(text);
  if (text_units(clean, size, weight) <= most) return clean;
  const std::string dots = "...";
  std::string out;
  for (std::size_t at = 0; at < clean.size();) {
    const std::size_t length = character_at(clean, at).length;
    const std::string next = out + clean.substr(at, length);
    if (text_units(next + dots, size, weight) > most) break;
    out = next;
    at += length;
  }
  out.erase(out.find_last_not_of(' ') + 1);
  return out + dots;
}

std::vector<std::string> wrapped_to(std::string_view text, double most, double size) {
  const std::string clean = one_line(text);
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < clean.size();) {
    const std::size_t end = std::min(clean.find(' ', at), clean.size());
    const std::string word = shortened_to(clean.substr(at, end - at), most, size);
    if (lines.empty() || text_units(lines.back() + ' ' + word, size) > most) {
      lines.push_back(word);
    } else {
      lines.back() += ' ' + word;
    }
    at = end + 1;
  }
  return lines;
}

}  // namespace hailwright::detail
