// What the loss looks like: changes of the curve's figures, and which pattern they fit.
#include "report/judgement_pattern.hpp"
#include "report/pattern_picture.hpp"
#include "report/report_sections.hpp"

namespace hailwright {

void append_pattern(Document& out, const ReportPart& part) {
  Facts facts = pattern_facts(part.test, part.assessment, part.sources);
  if (facts.items.empty()) return;
  part.section(out, "What the loss looks like", "pattern");
  out.blocks.push_back(Paragraph{plain("Nothing is judged by it.")});
  out.blocks.push_back(pattern_picture(*part.assessment.pattern, part.record.title, part.suffix));
  out.blocks.push_back(std::move(facts));
  part.append_table(out, "curves");
}

}  // namespace hailwright
