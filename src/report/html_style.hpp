#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace hailwright::detail {

/// The colours of a page, each "#rrggbb". A tone is never told by its colour alone.
struct Palette {
  std::string_view paper;   ///< ground of the page
  std::string_view tint;    ///< ground of cautions, lines to copy and heads of tables
  std::string_view ink;     ///< text
  std::string_view quiet;   ///< sources, captions; outlines of what is filled in or ticked
  std::string_view rule;    ///< lines that only part things
  std::string_view accent;  ///< lines under links, the focus
  std::string_view good;    ///< of Tone::good, ::bad and ::open
  std::string_view bad;
  std::string_view open;
  std::string_view picture;  ///< ground of pictures, light in both: they are drawn for it
  std::string_view picture_ink;
};

/// For a light screen, a dark one, and paper.
const Palette& light_palette();
const Palette& dark_palette();
const Palette& paper_palette();

/// What stands on what.
struct ColourPair {
  std::string_view what;
  std::string_view fore;
  std::string_view ground;
  bool is_text;  ///< else an outline that must be made out
};
/// Every pair that the style sheet uses, but for rules that only part things.
std::vector<ColourPair> colour_pairs(const Palette& palette);

/// The style sheet of a page. `running_title` is printed at the head of every sheet of paper but
/// the first, where the browser can; any text, it is escaped and, beyond 80 characters, shortened
/// after a word.
std::string html_style(std::string_view running_title);

}  // namespace hailwright::detail
