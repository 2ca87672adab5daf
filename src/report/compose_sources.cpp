#include <fmt/format.h>

#include "hailwright/evaluate/defaults.hpp"
#include "hailwright/model/findings.hpp"
#include "hailwright/model/stress.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/safety/cautions.hpp"
#include "hailwright/safety/yardsticks.hpp"
#include "hailwright/tables/hailstones.hpp"
#include "report/method_sources.hpp"

namespace hailwright {

namespace {

template <class Range>
void append_sources(Document& out, const char* title, const Range& citations) {
  out.blocks.push_back(Heading{2, plain(title)});
  Facts facts;
  for (const Citation& c : citations) {
    Fact fact{std::string(c.id), {plain(std::string(c.title))}};
    fact.lines.push_back(plain(c.read_at.empty()
                                   ? std::string(text(c.status))
                                   : fmt::format("{}: {}", text(c.status), c.read_at)));
    if (!c.note.empty()) fact.lines.push_back(plain(std::string(c.note)));
    facts.items.push_back(std::move(fact));
  }
  out.blocks.push_back(std::move(facts));
}

}  // namespace

Document compose_sources() {
  Document out;
  out.title = "Sources";
  out.blocks.push_back(Paragraph{plain("Every source that a number of this program rests on, and "
                                       "how it was read. \"read\" means the "
                                       "page named was read; it is often a secondary one. Paid "
                                       "standards were not read themselves.")});
  append_sources(out, "Hail-test grades", impact_grade_sources());
  append_sources(out, "Falling hailstones and ice", hailstone_sources());
  append_sources(out, "Things seen on a panel", finding_sources());
  append_sources(out, "Injury and eyewear yardsticks", yardstick_sources());
  append_sources(out, "Stresses other than hail", stress_sources());
  append_sources(out, "Cautions", caution_sources());
  append_sources(out, "Methods", method_sources());
  out.blocks.push_back(Heading{2, plain("Values taken when nothing is stated")});
  Facts facts;
  for (const DefaultRow& row : default_rows()) {
    facts.items.push_back({std::string(row.what),
                           {plain(fmt::format("{} ({})", row.taken, text(row.status))),
                            plain(std::string(row.why))}});
  }
  out.blocks.push_back(std::move(facts));
  return out;
}

}  // namespace hailwright
