#include "input/record_siblings.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/quoted.hpp"

namespace hailwright::input {

std::vector<Sibling> read_siblings(const MapReader& record, Diagnostics& notes) {
  std::vector<Sibling> siblings;
  const std::vector<Node>* items = record.list("siblings");
  if (items == nullptr) return siblings;
  if (items->empty()) {
    notes.error("K14", record.find("siblings")->value.span, "'siblings' is an empty list",
                {"name at least one unstruck unit, as in  siblings: [{label: D}]"});
  }
  for (const Node& item : *items) {
    const MapReader map(item, sibling_keys, item.span, notes);
    const Entry* label = map.require("label", "write what the tables call it, as in  label: D");
    const std::string text = map.text("label");
    if (!text.empty()) siblings.push_back({label->value.span, text});
  }
  return siblings;
}

bool check_labels_differ(const std::vector<PanelLabel>& labels, Diagnostics& notes) {
  bool differ = true;
  for (auto label = labels.begin(); label != labels.end(); ++label) {
    const auto same = std::find_if(labels.begin(), label, [&](const PanelLabel& earlier) {
      return earlier.text == label->text;
    });
    if (same == label || label->text.empty()) continue;
    differ = false;
    notes
        .error("C11", label->origin,
               fmt::format("two panels are called {}", hailwright::detail::quoted(label->text)),
               {"give each the label that the column  panel  of the tables has for it"})
        .related.push_back({same->origin, "the other one"});
  }
  return differ;
}

}  // namespace hailwright::input
