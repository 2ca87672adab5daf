#include "report/side_by_side.hpp"

#include "hailwright/report/pictures.hpp"

namespace hailwright {

std::vector<Figure> side_by_side_pictures(std::span<const Judged> judged) {
  std::vector<Figure> figures;
  if (judged.size() < 2) return figures;
  for (const auto& picture : {detail::side_by_side_losses, detail::side_by_side_energies}) {
    if (std::optional<Figure> figure = picture(judged)) figures.push_back(std::move(*figure));
  }
  return figures;
}

}  // namespace hailwright
