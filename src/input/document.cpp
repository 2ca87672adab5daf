#include "input/document.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "core/quoted.hpp"
#include "input/open_answers.hpp"

namespace hailwright::input {

namespace {

constexpr int version = 1;
constexpr std::string_view header_hint =
    "begin the file with  hailwright: protocol 1  or  panel 1  or  record 1  or  columns 1  or  "
    "specimens 1";

std::string_view word(FileKind kind) {
  switch (kind) {
  case FileKind::protocol:
    return "protocol";
  case FileKind::panel:
    return "panel";
  case FileKind::record:
    return "record";
  case FileKind::columns:
    return "columns";
  case FileKind::specimens:
    return "specimens";
  case FileKind::unknown:
    return "file of another kind";
  }
  return "file of another kind";
}

std::string_view described(FileKind kind) {
  if (kind == FileKind::specimens) return "file of specimens";
  return kind == FileKind::columns ? "column map" : word(kind);
}

std::optional<FileKind> kind_of(const std::string& text, const Node& value, Diagnostics& notes) {
  const std::vector<std::string> words = words_of(text);
  const std::vector<std::string> kinds{"protocol", "panel", "record", "columns", "specimens"};
  const auto found = words.empty() ? kinds.end() : std::find(kinds.begin(), kinds.end(), words[0]);
  if (found == kinds.end()) {
    report_unknown("K07", value.span,
                   fmt::format("{} is no kind of file", hailwright::detail::quoted(text)),
                   words.empty() ? "" : words[0], kinds, notes);
    return std::nullopt;
  }
  const std::string known = fmt::format("{} {}", *found, version);
  const TextResult<int> number = read_count(words.size() == 2 ? words[1] : "");
  if (!number.value) {
    notes.error("K08", value.span,
                fmt::format("{} names no version", hailwright::detail::quoted(text)),
                {fmt::format("write  hailwright: {}", known)});
    return std::nullopt;
  }
  if (*number.value != version) {
    const bool newer = *number.value > version;
    notes.error(
        "K08", value.span,
        fmt::format("{} {} is not read: this program reads {}", *found, *number.value, known),
        {newer ? "the file was written for a newer version of hailwright: use that one"
               : fmt::format("write  hailwright: {}", known)});
    return std::nullopt;
  }
  constexpr std::array values{FileKind::protocol, FileKind::panel, FileKind::record,
                              FileKind::columns, FileKind::specimens};
  return values.at(static_cast<std::size_t>(found - kinds.begin()));
}

Related named_here(SourceSpan place) {
  return {place, "the file is named here"};
}

/// Reads the key `hailwright`, which must be the first.
std::optional<FileKind> read_header(const Node& root, std::optional<SourceSpan> named_at,
                                    Diagnostics& notes) {
  if (root.kind == NodeKind::broken) return std::nullopt;  // told when it was read
  const auto report_no_head = [&](std::string message) {
    Diagnostic& error =
        notes.error("K09", root.span, std::move(message), {std::string(header_hint)});
    if (named_at) error.related.push_back(named_here(*named_at));
  };
  if (root.kind != NodeKind::map) {
    report_no_head("this is no protocol, panel, record, column map or file of specimens");
    return std::nullopt;
  }
  const auto found = std::find_if(root.entries.begin(), root.entries.end(),
                                  [](const Entry& entry) { return entry.key == "hailwright"; });
  if (found == root.entries.end()) {
    report_no_head("the file does not say what it is");
    return std::nullopt;
  }
  if (found != root.entries.begin()) {
    notes.error("K10", found->key_span, "'hailwright' must be the first key of the file",
                {"move this line to the top"});
  }
  const std::optional<std::string> text = read_text(found->value, "'hailwright'", notes);
  if (!text) return std::nullopt;
  return kind_of(*text, found->value, notes);
}

/// The beginning of a path that nobody can overlook the rest of.
std::string shortened(const std::string& path) {
  constexpr std::size_t longest = 200;
  return path.size() <= longest ? path : path.substr(0, longest) + "...";
}

SourceSpan place_of(const std::string& path, std::optional<SourceSpan> named_at,
                    SourceSet& sources) {
  if (named_at) return *named_at;
  return {sources.add(path, ""), 0, 0, 0};
}

}  // namespace

std::optional<std::uint32_t> fetch(const std::string& path, TextKind kind,
                                   std::optional<SourceSpan> named_at, const Loader& load,
                                   SourceSet& sources, Diagnostics& notes) {
  const std::size_t largest = kind == TextKind::table ? largest_table : largest_yaml;
  Loaded loaded = load(path, largest);
  if (loaded.text && loaded.text->size() > largest) {
    loaded.text = std::nullopt;
    loaded.problem = fmt::format("is larger than {} MiB", largest >> 20U);
    loaded.hint = "name the right file: nothing that a person writes is so large";
  }
  if (!loaded.text) {
    const std::string message = named_at
                                    ? fmt::format("the file {} {}", shortened(path), loaded.problem)
                                    : fmt::format("the file {}", loaded.problem);
    notes.error("F01", place_of(path, named_at, sources), message,
                loaded.hint.empty() ? std::vector<std::string>{}
                                    : std::vector<std::string>{loaded.hint});
    return std::nullopt;
  }
  const std::uint32_t file = sources.add(path, plain_line_ends(std::move(*loaded.text)));
  if (!check_bytes(file, sources.text(file), kind, notes)) return std::nullopt;
  return file;
}

std::optional<Document> open_document(const std::string& path, std::optional<SourceSpan> named_at,
                                      const Loader& load, SourceSet& sources, Diagnostics& notes) {
  const auto file = fetch(path, TextKind::yaml, named_at, load, sources, notes);
  if (!file) return std::nullopt;
  const std::string& text = sources.text(*file);
  std::optional<Node> root = read_yaml(*file, text, notes);
  if (!root) return std::nullopt;
  const std::optional<FileKind> kind = read_header(*root, named_at, notes);
  if (!kind) return std::nullopt;
  Document document{*file, *kind, std::move(*root)};
  report_open_answers(document, notes);
  return document;
}

std::optional<Document> open_document(const std::string& path, FileKind kind,
                                      std::optional<SourceSpan> named_at, const Loader& load,
                                      SourceSet& sources, Diagnostics& notes) {
  std::optional<Document> document = open_document(path, named_at, load, sources, notes);
  if (!document || document->kind == kind) return document;
  Diagnostic& error = notes.error(
      "K11", document->head(),
      fmt::format("this is a {}, a {} was expected", described(document->kind), described(kind)),
      {fmt::format("name the file that begins with  hailwright: {} {}", word(kind), version)});
  if (named_at) error.related.push_back(named_here(*named_at));
  return std::nullopt;
}

std::string path_beside(const std::string& file, const std::string& written) {
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  return (folder / written).lexically_normal().generic_string();
}

}  // namespace hailwright::input
