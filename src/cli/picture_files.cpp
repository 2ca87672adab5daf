#include "cli/picture_files.hpp"

#include <algorithm>
#include <variant>

namespace hailwright::cli {

void add_pictures(std::vector<OutputFile>& files, const Document& document) {
  const auto add = [&files](const Figure& figure) {
    const std::string name = figure.id + ".svg";
    const bool there = std::any_of(files.begin(), files.end(),
                                   [&](const OutputFile& file) { return file.name == name; });
    if (!figure.svg.empty() && !there) files.push_back({name, figure.svg});
  };
  for (const Block& block : document.blocks) {
    if (const auto* figure = std::get_if<Figure>(&block)) add(*figure);
    if (const auto* opening = std::get_if<Opening>(&block)) add(opening->picture);
  }
}

}  // namespace hailwright::cli
