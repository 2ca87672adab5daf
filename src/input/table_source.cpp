#include "input/table_source.hpp"

#include <fmt/format.h>

namespace hailwright::input {

std::optional<TableSource> read_table_source(const Entry& entry, const std::string& path,
                                             const Loader& load, SourceSet& sources,
                                             Diagnostics& notes) {
  const auto text = read_text(entry.value, fmt::format("'{}'", entry.key), notes);
  if (!text) return std::nullopt;
  if (entry.value.style == TextStyle::literal) {
    return TableSource{entry.value.span.file, entry.value.block_line, entry.value.block_column,
                       *text};
  }
  if (text->find('\n') != std::string::npos) {
    notes.error("K15", entry.value.span, "a table that stands here begins with |",
                {fmt::format("write  {}: |  and the rows below, indented", entry.key)});
    return std::nullopt;
  }
  const auto file =
      fetch(path_beside(path, *text), TextKind::table, entry.value.span, load, sources, notes);
  if (!file) return std::nullopt;
  return TableSource{*file, 1, 1, sources.text(*file)};
}

}  // namespace hailwright::input
