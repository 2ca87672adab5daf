#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "hailwright/core/diagnostic.hpp"
#include "hailwright/core/source.hpp"
#include "hailwright/input/readers.hpp"
#include "input/map_reader.hpp"
#include "input/text_filter.hpp"
#include "input/yaml_cursor.hpp"

namespace hailwright::input {

/// A YAML file of ours, read into its tree.
struct Document {
  std::uint32_t file = 0;
  FileKind kind = FileKind::unknown;
  Node root;
  /// The place to point at for what concerns the whole file: its first key.
  [[nodiscard]] SourceSpan head() const { return root.span; }
};

/// Fetches a text into the set and gives its number: UTF-8, lines that end in LF. `named_at` is the
/// place in another file that names it; without one the command line did. Nothing, and an error,
/// when it cannot be had or is no text.
std::optional<std::uint32_t> fetch(const std::string& path, TextKind kind,
                                   std::optional<SourceSpan> named_at, const Loader& load,
                                   SourceSet& sources, Diagnostics& notes);

/// Fetches a YAML file and reads it as far as its first key, `hailwright: protocol 1` and the
/// like. Nothing, with the errors, when it is no such file or of a version that is not read.
std::optional<Document> open_document(const std::string& path, std::optional<SourceSpan> named_at,
                                      const Loader& load, SourceSet& sources, Diagnostics& notes);

/// The same, of one kind only.
std::optional<Document> open_document(const std::string& path, FileKind kind,
                                      std::optional<SourceSpan> named_at, const Loader& load,
                                      SourceSet& sources, Diagnostics& notes);

/// A path written in a file, as seen from that file's folder. Text only: no file is touched.
std::string path_beside(const std::string& file, const std::string& written);

}  // namespace hailwright::input
