#include "honesty/tables.hpp"

#include <fmt/format.h>

namespace hailwright::honesty {

namespace {

const char* heading(Part part) {
  switch (part) {
  case Part::promised:
    return "What is promised";
  case Part::further:
    return "Further ways to compare, held to the same limits";
  case Part::broken:
    return "What breaks it";
  case Part::shown:
    return "Beside it";
  }
  return "";
}

std::string per_cent(Share share) {
  return fmt::format("{:.2f} ({:.2f})", 100.0 * share.value(), 100.0 * share.standard_error());
}

}  // namespace

std::string table_head(Part part) {
  return fmt::format(
      "\n### {}\n\n"
      "| comparison | K | errors | coverage | at no loss | at 2.5 % | at 5 % | false \"real\" "
      "| false \"within\" | false \"beyond\" | undecided at 2.5 % | normal |\n"
      "|---|--:|---|--:|--:|--:|--:|--:|--:|--:|--:|--:|\n",
      heading(part));
}

std::string table_row(const Cell& cell, const CellResult& r) {
  const auto covered = [](const Tally& t) {
    return fmt::format("{:.2f}", 100.0 * t.share(t.covered).value());
  };
  return fmt::format(
      "| {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {:.1f} | {:.0f} |\n", cell.comparison,
      cell.design.count, cell.world, per_cent(r.coverage()), covered(r.at_none), covered(r.at_half),
      covered(r.at_limit), per_cent(r.false_real()), per_cent(r.false_within()),
      per_cent(r.false_beyond()), 100.0 * r.at_half.share(r.at_half.undecided).value(),
      100.0 * r.normal_share());
}

}  // namespace hailwright::honesty
