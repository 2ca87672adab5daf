#include "report/caution_items.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace hailwright {

CautionItem caution_item(const Caution& c) {
  // Without a document how it was read says that there is none.
  const bool named = c.source != Caution{}.source;
  return {std::string(c.id), std::string(c.hazard), std::string(c.text),
          named ? fmt::format("{} ({})", c.source, text(c.status)) : std::string(text(c.status))};
}

std::vector<const Caution*> cautions_of(const std::vector<Judged>& judged) {
  std::vector<const Caution*> cautions;
  for (const Judged& j : judged)
    cautions.insert(cautions.end(), j.assessment->cautions.begin(), j.assessment->cautions.end());
  // The order of the table is that of urgency.
  std::sort(cautions.begin(), cautions.end());
  cautions.erase(std::unique(cautions.begin(), cautions.end()), cautions.end());
  return cautions;
}

void append_cautions(Document& out, std::vector<const Caution*> cautions, int level,
                     Audience audience) {
  if (cautions.empty()) return;
  std::sort(cautions.begin(), cautions.end());
  out.blocks.push_back(Heading{level, plain("Cautions"), "cautions"});
  CautionList list;
  for (const Caution* c : cautions) {
    CautionItem& item = list.items.emplace_back(caution_item(*c));
    if (audience == Audience::reader) item.id.clear();
  }
  out.blocks.push_back(std::move(list));
  out.blocks.push_back(Paragraph{plain("Where each of them comes from: hailwright sources.")});
}

}  // namespace hailwright
