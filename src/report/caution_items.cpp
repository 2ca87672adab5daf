#include "report/caution_items.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hailwright {

void append_cautions(Document& out, std::vector<const Caution*> cautions) {
  if (cautions.empty()) return;
  // Cautions of several records are one list in the order of the table, which is that of urgency.
  std::sort(cautions.begin(), cautions.end());
  out.blocks.push_back(Heading{1, plain("Cautions")});
  CautionList list;
  for (const Caution* c : cautions) {
    list.items.push_back({std::string(c->id), std::string(c->hazard), std::string(c->text),
                          fmt::format("{} ({})", c->source, text(c->status))});
  }
  out.blocks.push_back(std::move(list));
  out.blocks.push_back(Paragraph{plain("Where each of them comes from: hailwright sources.")});
}

}  // namespace hailwright
