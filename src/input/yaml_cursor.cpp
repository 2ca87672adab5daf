#include "input/yaml_cursor.hpp"

#include <fmt/format.h>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <array>
#include <map>
#include <sstream>
#include <utility>

#include "core/utf8.hpp"
#include "hailwright/core/contract.hpp"
#include "input/yaml_mishap.hpp"
#include "input/yaml_scalar.hpp"

namespace hailwright::input {

namespace {

constexpr std::size_t most_errors = 100;

/// Thrown to leave the parser once going on makes no sense; the reason is reported already.
struct GiveUp {};

/// Whether the bracket that a text begins with is closed somewhere.
bool closes(std::string_view text) {
  int depth = 0;
  for (const char c : text) {
    if (c == '{' || c == '[') ++depth;
    if (c == '}' || c == ']') --depth;
    if (depth == 0) return true;
  }
  return false;
}

/// The first character that steers a terminal or the text around it, but for line breaks and tabs.
std::optional<char32_t> steering_in(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const hailwright::detail::Utf8Character c = hailwright::detail::utf8_at(text, at);
    const bool layout = c.code == U'\n' || c.code == U'\t';
    if (c.size != 0 && !layout && hailwright::detail::steers(c.code)) return c.code;
    at += std::max<std::size_t>(c.size, 1);
  }
  return std::nullopt;
}

/// White space of Unicode and characters that leave no mark (from memory, as are their numbers):
/// none of them alone is a title or a name.
bool leaves_no_mark(char32_t code) {
  struct Block {
    char32_t first, last;
  };
  constexpr std::array blocks{
      Block{0x09, 0x0D},     Block{0x20, 0x20},     Block{0x85, 0x85},     Block{0xA0, 0xA0},
      Block{0xAD, 0xAD},     Block{0x034F, 0x034F}, Block{0x061C, 0x061C}, Block{0x115F, 0x1160},
      Block{0x1680, 0x1680}, Block{0x180B, 0x180F}, Block{0x2000, 0x200F}, Block{0x2028, 0x202F},
      Block{0x205F, 0x206F}, Block{0x2800, 0x2800}, Block{0x3000, 0x3000}, Block{0x3164, 0x3164},
      Block{0xFE00, 0xFE0F}, Block{0xFEFF, 0xFEFF}, Block{0xFFA0, 0xFFA0}, Block{0xE0000, 0xE0FFF}};
  return std::any_of(blocks.begin(), blocks.end(), [code](const Block& block) {
    return code >= block.first && code <= block.last;
  });
}

/// An empty text, or one that would print as one.
bool shows_nothing(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const hailwright::detail::Utf8Character c = hailwright::detail::utf8_at(text, at);
    if (c.size == 0 || !leaves_no_mark(c.code)) return false;
    at += c.size;
  }
  return true;
}

class TreeBuilder : public YAML::EventHandler {
public:
  TreeBuilder(const Places& places, Diagnostics& notes) : places_(places), notes_(notes) {}

  std::optional<Node> take_root() { return std::exchange(root_, std::nullopt); }
  [[nodiscard]] bool quote_left_open() const { return quote_left_open_; }
  [[nodiscard]] std::optional<std::size_t> open_bracket() const {
    const auto frame =
        std::find_if(open_.rbegin(), open_.rend(), [](const Frame& f) { return f.flow; });
    return frame == open_.rend() ? std::nullopt : std::optional(frame->offset);
  }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ == 0) return;
    error("Y11", places_.at(offset(mark), 3), "a second document begins here",
          "one file holds one protocol, panel or record: delete this line or split the file");
    throw GiveUp();
  }
  void OnDocumentEnd() override {}

  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    refuse_anchor(offset(mark), anchor);
    if (expects_key()) {
      error("Y14", places_.at(offset(mark), 1), "a key is missing before this colon",
            "write the key, or delete the line");
      begin_value_of(broken(offset(mark)), false);
      return;
    }
    report_no_value(offset(mark));
    place(broken(offset(mark)));
  }

  void OnAlias(const YAML::Mark& mark, YAML::anchor_t /*anchor*/) override {
    const std::size_t at = offset(mark);
    error("Y09", places_.at(at, token_size(at)), "aliases (*name) are not read",
          "write the value out here, or put the text in quotes");
    Node node = broken(at);
    if (expects_key()) {
      begin_value_of(std::move(node), false);
    } else {
      place(std::move(node));
    }
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    const std::size_t at = offset(mark);
    const bool usable = !refuse_anchor(at, anchor) && !refuse_tag(at, tag);
    Node node = usable ? scalar(at, value) : broken(at);
    if (expects_key()) {
      begin_value_of(std::move(node), usable);
      return;
    }
    if (node.kind == NodeKind::text && shows_nothing(node.text)) {
      report_no_value(at);
      node.kind = NodeKind::broken;
    }
    place(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value style) override {
    begin(NodeKind::list, offset(mark), tag, anchor, style);
  }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value style) override {
    begin(NodeKind::map, offset(mark), tag, anchor, style);
  }
  void OnSequenceEnd() override { end(); }
  void OnMapEnd() override { end(); }

private:
  struct Frame {
    Node node;
    std::size_t offset = 0;
    bool flow = false;
    bool is_key = false;  ///< a list or map where a key is due: read over and dropped
    // Of a map:
    bool key_given = false;
    bool keep = true;  ///< the value that comes next
    std::string key;
    SourceSpan key_span;
    std::size_t key_end = 0;
    std::map<std::string, SourceSpan> seen;
  };

  static std::size_t offset(const YAML::Mark& mark) {
    return static_cast<std::size_t>(std::max(mark.pos, 0));
  }

  void error(std::string_view code, SourceSpan where, std::string message, std::string hint) {
    notes_.error(code, where, std::move(message), {std::move(hint)});
    if (++errors_ >= most_errors) throw GiveUp();
  }

  Node broken(std::size_t at) const {
    Node node;
    node.span = places_.at(at, 1);
    return node;
  }

  [[nodiscard]] std::size_t token_size(std::size_t at) const {
    const std::string_view rest = places_.rest_of_line(at);
    return std::min(rest.find_first_of(" ,]}:"), rest.size());
  }

  [[nodiscard]] bool expects_key() const {
    return !open_.empty() && open_.back().node.kind == NodeKind::map && !open_.back().key_given;
  }

  bool refuse_anchor(std::size_t at, YAML::anchor_t anchor) {
    if (anchor == 0) return false;
    error("Y09", places_.at(at, token_size(at)), "anchors (&name) are not read",
          "delete the anchor, or put the text in quotes");
    return true;
  }

  bool refuse_tag(std::size_t at, const std::string& tag) {
    const bool written = places_.rest_of_line(at).substr(0, 1) == "!";
    if (!written && (tag.empty() || tag == "?" || tag == "!")) return false;
    error("Y10", places_.at(at, token_size(at)), "tags (!name) are not read",
          "delete the tag, or put the text in quotes");
    return true;
  }

  void report_no_value(std::size_t at) {
    if (open_.empty()) {
      error("Y05", places_.at(at, 1), "the file holds nothing", "begin with the key hailwright");
      return;
    }
    Frame& frame = open_.back();
    if (frame.node.kind == NodeKind::list) {
      const std::size_t sign = places_.text().find_last_of("-,[", at == 0 ? 0 : at - 1);
      error("K04", places_.at(sign == std::string_view::npos ? at : sign, 1),
            "an entry of this list has no value", "write the value, or delete the entry");
      return;
    }
    if (!frame.keep) return;
    const std::string_view after =
        places_.text().substr(std::min(frame.key_end, places_.text().size()));
    const std::size_t next = after.find_first_not_of(' ');
    if (next == std::string_view::npos || after[next] != ':') {
      frame.keep = false;
      error("Y06", frame.key_span, fmt::format("no colon follows '{}'", frame.key),
            frame.flow ? "a comma ends a text inside { }: put the whole text in quotes"
                       : "write  key: value,  or indent the line so that it continues the text "
                         "above it");
      return;
    }
    error("K04", frame.key_span, fmt::format("'{}' has no value", frame.key),
          "write the value after the colon, or delete the key");
  }

  Node scalar(std::size_t at, const std::string& value) {
    if (++nodes_ > most_nodes) too_many(at);
    WrittenText written = written_text(places_, at, value);
    key_end_ = written.end;
    refuse_steering(written.node);
    if (written.quote_open) {
      quote_left_open_ = true;
      error("Y15", places_.at(at, 1), "this quote is not closed on its line",
            "close it; a text of several lines goes into a block that begins with |");
    }
    return std::move(written.node);
  }

  /// Escapes in double quotes can make what a text of a file does not have: see check_bytes.
  void refuse_steering(Node& node) {
    const std::optional<char32_t> code = steering_in(node.text);
    if (!code) return;
    error(
        "Y01", node.span,
        fmt::format("this text makes a control character (U+{:04X})", static_cast<unsigned>(*code)),
        "delete the escape that makes it: a backslash and what follows");
    node.kind = NodeKind::broken;
  }

  [[noreturn]] void too_many(std::size_t at) {
    notes_.error("Y12", places_.at(at, 1), fmt::format("more than {} entries", most_nodes),
                 {"a file of this kind has some hundred at most"});
    throw GiveUp();
  }

  void begin_value_of(Node key, bool usable) {
    Frame& frame = open_.back();
    frame.key_given = true;
    frame.keep = usable && key.kind == NodeKind::text;
    frame.key = std::move(key.text);
    frame.key_span = key.span;
    frame.key_end = key_end_;
    if (!frame.keep) return;
    if (frame.key == "<<") {
      frame.keep = false;
      error("Y16", frame.key_span, "merge keys (<<) are not read", "write the entries out here");
      return;
    }
    const auto [first, fresh] = frame.seen.emplace(frame.key, frame.key_span);
    if (fresh) return;
    frame.keep = false;
    notes_
        .error("K03", frame.key_span, fmt::format("'{}' stands here a second time", frame.key),
               {"keep one of the two"})
        .related.push_back({first->second, "first given here"});
    if (++errors_ >= most_errors) throw GiveUp();
  }

  void begin(NodeKind kind, std::size_t at, const std::string& tag, YAML::anchor_t anchor,
             YAML::EmitterStyle::value style) {
    if (++nodes_ > most_nodes) too_many(at);
    if (open_.size() >= deepest_nesting) {
      notes_.error("Y12", places_.at(at, 1), "the entries are nested too deeply",
                   {"compare with the example on the format page: four levels are enough"});
      throw GiveUp();
    }
    refuse_anchor(at, anchor);
    refuse_tag(at, tag);
    Frame frame;
    frame.is_key = expects_key();
    if (frame.is_key) refuse_key(at);
    frame.node.kind = kind;
    frame.node.span = places_.at(at, 1);
    frame.offset = at;
    frame.flow = style == YAML::EmitterStyle::Flow;
    open_.push_back(std::move(frame));
  }

  /// The parser takes a bracket that never closes for the beginning of a key.
  void refuse_key(std::size_t at) {
    const std::string_view rest = places_.text().substr(at);
    if (rest.starts_with('{') || rest.starts_with('[')) {
      if (!closes(rest)) {
        notes_.add(not_closed(at, places_.at(at, 1), places_.text()));
        throw GiveUp();
      }
    }
    error("Y14", places_.at(at, 1), "a list or a mapping cannot be a key",
          "a key is a plain word; put a text that begins with { or [ in quotes");
  }

  void end() {
    Frame frame = std::move(open_.back());
    open_.pop_back();
    if (frame.node.kind == NodeKind::map && !frame.flow && !frame.node.entries.empty()) {
      frame.node.span = frame.node.entries.front().key_span;
    }
    if (frame.is_key) {
      begin_value_of(broken(frame.offset), false);
      return;
    }
    place(std::move(frame.node));
  }

  /// Puts a finished node where it belongs.
  void place(Node node) {
    if (open_.empty()) {
      root_ = std::move(node);
      return;
    }
    Frame& frame = open_.back();
    if (frame.node.kind == NodeKind::list) {
      frame.node.items.push_back(std::move(node));
      return;
    }
    frame.key_given = false;
    if (!frame.keep) return;
    frame.node.entries.push_back({std::move(frame.key), frame.key_span, std::move(node)});
  }

  const Places& places_;
  Diagnostics& notes_;
  std::vector<Frame> open_;
  std::optional<Node> root_;
  std::size_t nodes_ = 0;
  std::size_t errors_ = 0;
  std::size_t key_end_ = 0;
  int documents_ = 0;
  bool quote_left_open_ = false;
};

}  // namespace

std::optional<Node> read_yaml(std::uint32_t file, const std::string& text, Diagnostics& notes) {
  const Places places(file, text);
  TreeBuilder builder(places, notes);
  try {
    std::istringstream stream(text);
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const GiveUp&) {
    return std::nullopt;
  } catch (const YAML::Exception& failure) {
    // After an open quote the parser stumbles over the rest; the quote is the news.
    if (!builder.quote_left_open()) {
      const auto at = static_cast<std::size_t>(std::max(failure.mark.pos, 0));
      notes.add(explain({at, failure.msg, builder.open_bracket()}, file, text));
    }
    return std::nullopt;
  }
  if (builder.quote_left_open()) return std::nullopt;
  std::optional<Node> root = builder.take_root();
  if (!root) {
    notes.error("Y05", {file, 0, 0, 0}, "the file is empty",
                {"the format pages in docs have one to begin from"});
  }
  return root;
}

SourceSpan span_in(const Node& node, std::size_t offset, std::size_t length) {
  expects(node.kind == NodeKind::text, "only a text has characters");
  if (node.text_column == 0) return node.span;
  return {node.span.file, node.span.line, node.text_column + static_cast<int>(offset),
          std::max(1, static_cast<int>(length))};
}

bool has_gaps(const Node& node) {
  std::vector<const Node*> left{&node};
  while (!left.empty()) {
    const Node& next = *left.back();
    left.pop_back();
    if (next.kind == NodeKind::broken) return true;
    for (const Node& item : next.items)
      left.push_back(&item);
    for (const Entry& entry : next.entries)
      left.push_back(&entry.value);
  }
  return false;
}

std::string_view name(NodeKind kind) {
  switch (kind) {
  case NodeKind::text:
    return "a text";
  case NodeKind::list:
    return "a list";
  case NodeKind::map:
    return "a mapping (key: value)";
  case NodeKind::broken:
    return "nothing";
  }
  return "nothing";
}

}  // namespace hailwright::input
