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
  bool of_stress = false;  ///< below `stresses` of a protocol, whose entries have a `safety` too
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
    const bool of_protocol = document.kind == FileKind::protocol;
    if (of_protocol && entry.key == "safety") continue;
    left.push_back({&entry.value, entry.key, of_protocol && entry.key == "stresses"});
  }
  while (!left.empty()) {
    const Value value = left.back();
    left.pop_back();
    close_one(value, notes);
    for (Node& item : value.node->items)
      left.push_back({&item, value.key, value.of_stress});
    for (Entry& entry : value.node->entries) {
      if (value.of_stress && entry.key == "safety") continue;
      left.push_back({&entry.value, entry.key, value.of_stress});
    }
  }
}

}  // namespace hailwright::input
