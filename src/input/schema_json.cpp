#include "input/schema_json.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "hailwright/core/contract.hpp"

namespace hailwright::input {

namespace {

constexpr std::size_t blanks_a_level = 2;
constexpr std::size_t longest_line = 80;  ///< of a list, without what stands before it

/// RFC 8259, section 7. A no-break space would be invisible and is written by its number.
std::string json_text(std::string_view text) {
  constexpr std::string_view no_break = "\u00A0";
  constexpr std::string_view narrow_no_break = "\u202F";
  std::string out = "\"";
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view rest = text.substr(i);
    const char c = text[i];
    if (c == '"' || c == '\\') {
      out += {'\\', c};
    } else if (static_cast<unsigned char>(c) < 0x20U) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else if (rest.starts_with(no_break)) {
      out += "\\u00a0";
      i += no_break.size() - 1;
    } else if (rest.starts_with(narrow_no_break)) {
      out += "\\u202f";
      i += narrow_no_break.size() - 1;
    } else {
      out += c;
    }
  }
  return out + '"';
}

}  // namespace

SchemaNode::SchemaNode(std::string_view text) : scalar_(json_text(text)), text_(text) {}

SchemaNode::SchemaNode(int number) : scalar_(std::to_string(number)) {}

SchemaNode::SchemaNode(bool flag) : scalar_(flag ? "true" : "false") {}

SchemaNode SchemaNode::list(std::vector<SchemaNode> items) {
  SchemaNode node(Kind::list);
  node.values_ = std::move(items);
  return node;
}

SchemaNode SchemaNode::texts(const std::vector<std::string>& items) {
  return list({items.begin(), items.end()});
}

SchemaNode SchemaNode::object(std::initializer_list<Member> members) {
  SchemaNode node(Kind::object);
  for (const auto& [key, value] : members)
    node.set(key, value);
  return node;
}

SchemaNode& SchemaNode::set(std::string_view key, SchemaNode value) {
  expects(kind_ == Kind::object, "only an object has members");
  expects(find(key) == nullptr, "a key stands once in an object");
  keys_.emplace_back(key);
  values_.push_back(std::move(value));
  return *this;
}

SchemaNode& SchemaNode::add(const SchemaNode& members) {
  for (std::size_t i = 0; i < members.keys_.size(); ++i)
    set(members.keys_[i], members.values_[i]);
  return *this;
}

const SchemaNode* SchemaNode::find(std::string_view key) const {
  const auto found = std::find(keys_.begin(), keys_.end(), key);
  return found == keys_.end() ? nullptr : &values_[static_cast<std::size_t>(found - keys_.begin())];
}

// Without recursion, so that no depth of a schema is the depth of the stack.
std::string SchemaNode::dump() const {
  struct Open {
    const SchemaNode* node;
    std::size_t next;  ///< of its values, to be written
  };
  std::string out;
  std::vector<Open> open;
  const auto begin = [&](const SchemaNode& node) {
    const std::string line = node.on_one_line();
    out += line.empty() ? node.kind_ == Kind::list ? "[" : "{" : line;
    if (line.empty()) open.push_back({&node, 0});
  };
  const auto break_line = [&](std::size_t depth) {
    out += '\n' + std::string(depth * blanks_a_level, ' ');
  };
  begin(*this);
  while (!open.empty()) {
    const SchemaNode& node = *open.back().node;
    const std::size_t i = open.back().next++;
    if (i == node.values_.size()) {
      open.pop_back();
      break_line(open.size());
      out += node.kind_ == Kind::list ? ']' : '}';
      continue;
    }
    if (i > 0) out += ',';
    break_line(open.size());
    if (node.kind_ == Kind::object) out += json_text(node.keys_[i]) + ": ";
    begin(node.values_[i]);
  }
  return out + '\n';
}

/// A value that has no parts, or a list of short ones; empty when it takes several lines.
std::string SchemaNode::on_one_line() const {
  if (kind_ == Kind::scalar) return scalar_;
  if (kind_ == Kind::object) return values_.empty() ? "{}" : "";
  std::string line = "[";
  for (const SchemaNode& item : values_) {
    if (item.kind_ != Kind::scalar) return {};
    line += (line.size() == 1 ? "" : ", ") + item.scalar_;
  }
  line += ']';
  return line.size() <= longest_line ? line : std::string();
}

}  // namespace hailwright::input
