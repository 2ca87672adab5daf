#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hailwright/core/diagnostic.hpp"

namespace hailwright::input {

/// `broken` stands for something already reported (an alias, an empty value): readers pass over it
/// in silence.
enum class NodeKind { text, list, map, broken };

enum class TextStyle {
  plain,
  quoted,
  literal,  ///< `|` block: lines stay lines
  folded    ///< `>` block
};

struct Entry;

/// One item of a file, with the place where it stands. Texts stay texts: nothing is guessed to be
/// a number, a date or a truth value.
struct Node {
  NodeKind kind = NodeKind::broken;
  SourceSpan span;   ///< as written, with quotes; of a map or list its first character or key
  std::string text;  ///< of a text
  TextStyle style = TextStyle::plain;
  /// Column of the first character of `text` when it stands in the file character by character on
  /// one line; 0 when it does not (escapes, several lines).
  int text_column = 0;
  int block_line = 0;          ///< of a literal block: line of its first character
  int block_column = 0;        ///< of a literal block: column of its first character
  std::vector<Node> items;     ///< of a list
  std::vector<Entry> entries;  ///< of a map, in the order written, each key once
};

struct Entry {
  std::string key;
  SourceSpan key_span;
  Node value;
};

/// Limits of what is read: nothing that a person writes comes near them.
inline constexpr std::size_t deepest_nesting = 32;
inline constexpr std::size_t most_nodes = 100000;

/// Reads the subset of YAML that the formats use into a tree. Refuses, each at its place: anchors,
/// aliases, tags, merge keys, further documents, duplicate keys, empty values, keys that are no
/// text, quotes that do not close on their line, and anything the parser refuses.
/// Empty when the text has no usable tree; a tree may come back beside errors, so that the reader
/// can go on and find more. `text` has passed `check_bytes`.
std::optional<Node> read_yaml(std::uint32_t file, const std::string& text, Diagnostics& notes);

/// The place of some characters of a text node; the whole node where they cannot be told apart.
SourceSpan span_in(const Node& node, std::size_t offset, std::size_t length);

/// Whether something in it is `broken`: what it says is not known in full.
bool has_gaps(const Node& node);

/// "a text", "a list", "a mapping (key: value)": for messages.
std::string_view name(NodeKind kind);

}  // namespace hailwright::input
