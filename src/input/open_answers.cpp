#include "input/open_answers.hpp"

#include <fmt/format.h>

#include <string_view>
#include <vector>

#include "hailwright/model/safety_questions.hpp"

namespace hailwright::input {

namespace {

/// A value and the key that it belongs to.
struct Value {
  Node* node;
  std::string_view key;
};

void close_one(const Value& value, Diagnostics& notes) {
  Node& node = *value.node;
  if (node.kind != NodeKind::text || node.text != answer_to_come) return;
  notes.error("K18", node.span, fmt::format("'{}' is not filled in yet", value.key),
              {fmt::format("write your answer in place of {}; the remark beside or above it says "
                           "what is meant",
                           answer_to_come)});
  node.kind = NodeKind::broken;
}

}  // namespace

void report_open_answers(Document& document, Diagnostics& notes) {
  std::vector<Value> left;
  for (Entry& entry : document.root.entries) {
    const bool has_reader = document.kind == FileKind::protocol && entry.key == "safety";
    if (!has_reader) left.push_back({&entry.value, entry.key});
  }
  while (!left.empty()) {
    const Value value = left.back();
    left.pop_back();
    close_one(value, notes);
    for (Node& item : value.node->items)
      left.push_back({&item, value.key});
    for (Entry& entry : value.node->entries)
      left.push_back({&entry.value, entry.key});
  }
}

}  // namespace hailwright::input
