// Stresses other than hail: the word of each, what was done, what changed.
#include "report/judgement_stress.hpp"
#include "report/report_sections.hpp"

namespace hailwright {

void append_stresses(Document& out, const ReportPart& part) {
  Facts facts = stress_facts(part.test, part.assessment);
  if (facts.items.empty()) return;
  part.section(out, "Other stresses", "stresses");
  out.blocks.push_back(std::move(facts));
  part.append_table(out, "stresses");
}

}  // namespace hailwright
