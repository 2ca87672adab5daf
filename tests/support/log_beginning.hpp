#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"

namespace hailwright::test {

/// The beginning of a log as text, with what is said about it.
struct LogBeginning {
  explicit LogBeginning(std::string content)
      : text(std::move(content)), file(sources.add_unkept("log.csv")) {}

  [[nodiscard]] std::string messages() const { return render_diagnostics(notes, sources); }
  /// "L02 5:1" of the only message; all messages when there are several.
  [[nodiscard]] std::string only() const {
    if (notes.items().size() != 1) return messages();
    const Diagnostic& note = notes.items().front();
    return std::string(note.code) + ' ' + std::to_string(note.where.line) + ':' +
           std::to_string(note.where.column);
  }

  std::string text;
  SourceSet sources;
  Diagnostics notes;
  std::uint32_t file;
};

}  // namespace hailwright::test
