#include "report/caution_items.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hailwright {

CautionItem caution_item(const Caution& c) {
  return {std::string(c.id), std::string(c.hazard), std::string(c.text),
          fmt::format("{} ({})", c.source, text(c.status))};
}

void append_cautions(Document& out, std::vector<const Caution*> cautions) {
  if (cautions.empty()) return;
  // Cautions of several records are one list in the order of the table, which is that of urgency.
  std::sort(cautions.begin(), cautions.end());
  out.blocks.push_back(Heading{1, plain("Cautions")});
  CautionList list;
  for (const Caution* c : cautions) {
    list.items.push_back(caution_item(*c));
  }
  out.blocks.push_back(std::move(list));
  out.blocks.push_back(Paragraph{plain("Where each of them comes from: hailwright sources.")});
}

}  // namespace hailwright
