#include "report/judgement_bracket.hpp"

#include <fmt/format.h>

#include "hailwright/core/quantity_text.hpp"
#include "report/judgement_looks.hpp"
#include "report/sentences.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

std::string joules(Energy energy) {
  return significant(energy.si(), 3) + " J";
}

/// "throw 3 of large".
std::string throw_text(const BracketHit& hit, const Test& test) {
  const Shot& shot = test.record.shots.at(hit.shot);
  return fmt::format("throw {} of {}", shot.number, test.protocol.series.at(shot.series).name);
}

std::string borne_sentence(const DamageBracket& b, const Test& test) {
  if (!b.borne) return "no hit of known energy was followed by a look without a new major defect";
  return fmt::format("the hardest hit followed by a look ({}) without a new major defect: {}, at "
                     "least {} (95 %)",
                     look_moment(test.record.looks.at(b.borne->look), test),
                     throw_text(*b.borne, test), joules(b.borne->bound));
}

std::string damaged_sentence(const DamageBracket& b, const Test& test) {
  if (!b.damage_seen) return "no look found a new major defect: the upper end is open";
  if (!b.damaged_by) {
    return "a new major defect was found, but the energy of a hit before it is not known: the "
           "upper "
           "end is open";
  }
  const std::string energy = fmt::format("at most {} (95 %)", joules(b.damaged_by->bound));
  const std::string look = look_moment(test.record.looks.at(b.damaged_by->look), test);
  if (b.hits_between == 0) {
    return fmt::format("a new major defect was found {} without a further hit since the look "
                       "before; the hardest of all hits was {}, {}",
                       look, throw_text(*b.damaged_by, test), energy);
  }
  if (b.hits_between == 1) {
    return fmt::format(
        "a new major defect was found {}, with one hit since the look before: {}, {}", look,
        throw_text(*b.damaged_by, test), energy);
  }
  return fmt::format("a new major defect was found {}, with {} since the look before that no look "
                     "tells apart; the hardest was {}, {}",
                     look, counted(b.hits_between, "hit"), throw_text(*b.damaged_by, test), energy);
}

std::string warning_sentence(const DamageBracket& b) {
  std::string text = "one panel gives a bracket only";
  if (b.damage_seen) {
    text +=
        ": where energies rise on one panel, earlier hits may have weakened it, and where a hit "
        "lands counts too";
  }
  if (b.overlapping())
    text += "; here a hit of as much energy or more had been followed by a clean look before";
  return text;
}

}  // namespace

std::vector<std::string> bracket_sentences(const Test& test, const Assessment& assessment) {
  if (!assessment.bracket) return {};
  const DamageBracket& b = *assessment.bracket;
  if (!b.borne && !b.damage_seen) return {};
  std::vector<std::string> sentences{borne_sentence(b, test), damaged_sentence(b, test)};
  if (b.maybe_before)
    sentences.emplace_back(
        "nobody looked before the first shot: what was found may have been there");
  sentences.push_back(warning_sentence(b));
  return sentences;
}

Facts bracket_facts(const Test& test, const Assessment& assessment, const SourceSet& /*sources*/) {
  Facts facts;
  Fact fact{"bracket", {}};
  for (std::string& sentence : bracket_sentences(test, assessment))
    fact.lines.push_back(plain(std::move(sentence)));
  if (!fact.lines.empty()) facts.items.push_back(std::move(fact));
  return facts;
}

}  // namespace hailwright
