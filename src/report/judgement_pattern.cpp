#include "report/judgement_pattern.hpp"

#include "report/judgement_done.hpp"
#include "report/pattern_sentences.hpp"

namespace hailwright {

Facts pattern_facts(const Test& /*test*/, const Assessment& assessment,
                    const SourceSet& /*sources*/) {
  Facts facts;
  if (!assessment.pattern) return facts;
  const LossPattern& pattern = *assessment.pattern;
  std::vector<std::string> changes;
  for (const CurveChange& change : pattern.changes)
    changes.push_back(change_sentence(change));
  changes.emplace_back("brought to 1000 W/m2 and 25 degC");
  add_fact(facts, "change of the curve", std::move(changes));
  std::vector<std::string> found{pattern_sentence(pattern)};
  for (std::string& remark : pattern_remarks(pattern))
    found.push_back(std::move(remark));
  add_fact(facts, "pattern", std::move(found));
  add_fact(facts, "maximum power", curve_power_sentences(pattern, assessment));
  add_fact(facts, "voltage alone", kept_voltage_sentences(pattern));
  add_fact(facts, "not weighed", left_out_sentences(pattern));
  add_fact(facts, "rests on", pattern_basis(pattern));
  return facts;
}

}  // namespace hailwright
