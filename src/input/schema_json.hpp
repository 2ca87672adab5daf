#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace hailwright::input {

/// A value of JSON whose keys keep the order in which they were set. Only what a schema is made of:
/// texts, whole numbers, truth values, lists, objects.
// NOLINTNEXTLINE(misc-no-recursion): the copy of a tree copies the trees in it
class SchemaNode {
public:
  using Member = std::pair<std::string_view, SchemaNode>;

  // A schema in the code reads as it does in JSON: every value stands for itself.
  SchemaNode(std::string_view text);
  SchemaNode(const char* text) : SchemaNode(std::string_view(text)) {}  // else taken for a bool
  SchemaNode(const std::string& text) : SchemaNode(std::string_view(text)) {}
  SchemaNode(int number);
  SchemaNode(bool flag);

  static SchemaNode list(std::vector<SchemaNode> items);
  static SchemaNode texts(const std::vector<std::string>& items);
  static SchemaNode object(std::initializer_list<Member> members = {});

  /// Adds a member behind the others. Contract: an object without this key.
  SchemaNode& set(std::string_view key, SchemaNode value);
  /// Adds the members of another object.
  SchemaNode& add(const SchemaNode& members);

  [[nodiscard]] bool empty() const { return values_.empty(); }
  /// The member of this key; nullptr where there is none.
  [[nodiscard]] const SchemaNode* find(std::string_view key) const;
  /// The members of an object or the items of a list.
  [[nodiscard]] const std::vector<SchemaNode>& values() const { return values_; }
  /// The text that stands here; empty when it is none.
  [[nodiscard]] const std::string& text() const { return text_; }

  /// Two blanks a level, a line break at the end.
  [[nodiscard]] std::string dump() const;

private:
  enum class Kind { scalar, list, object };
  explicit SchemaNode(Kind kind) : kind_(kind) {}
  [[nodiscard]] std::string on_one_line() const;

  Kind kind_ = Kind::scalar;
  std::string scalar_;  ///< as JSON writes it
  std::string text_;
  std::vector<std::string> keys_;
  std::vector<SchemaNode> values_;
};

}  // namespace hailwright::input
