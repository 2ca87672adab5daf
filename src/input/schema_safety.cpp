#include "input/schema_mappings.hpp"

#include "hailwright/core/contract.hpp"
#include "hailwright/model/safety_questions.hpp"
#include "input/protocol_safety.hpp"
#include "input/schema_patterns.hpp"
#include "input/schema_values.hpp"

namespace hailwright::input {

namespace {

using enum Need;

SchemaNode answer_to(const SafetyQuestion& question) {
  switch (question.form) {
  case AnswerForm::yes_no:
    return value::yes_no();
  case AnswerForm::word:
    return value::words({question.words.begin(), question.words.end()});
  case AnswerForm::amount:
    return value::amount(question.measure, question.example);
  case AnswerForm::sides:
    return value::matching(pattern::sides(2, 2), {std::string(question.example)});
  case AnswerForm::date:
    return value::date();
  case AnswerForm::text:
    return value::text();
  }
  fail_contract("unknown form of an answer");
}

Mapping block(const KeyList& keys, std::string_view name) {
  Mapping mapping{std::string(keys.where), keys, {}};
  for (const SafetyQuestion& question : safety_questions()) {
    if (question.block == name)
      mapping.rows.push_back({question.key, answer_to(question), optional, question.asks});
  }
  return mapping;
}

Mapping blocks() {
  return {"safety",
          safety_key_lists().front(),
          {
              {"launcher", value::defined("launcher under safety"), optional,
               "How it is let off and looked after, see Launcher"},
              {"people", value::defined("people under safety"), optional,
               "Who stands where, see People"},
              {"ground", value::defined("ground under safety"), optional,
               "What stops a miss, see Ground"},
              {"eyes", value::defined("eyes under safety"), optional, "Eye protection, see Eyes"},
              {"panel", value::defined("panel under safety"), optional,
               "Cover, leads, load, see Panel"},
              {"ice", value::defined("ice under safety"), optional, "How it is handled, see Ice"},
              {"after", value::defined("after under safety"), optional,
               "Where the panel goes, see After"},
              {"agreed", value::defined("agreed under safety"), optional,
               "Who answered, and when, see Agreed"},
          }};
}

}  // namespace

std::vector<Mapping> safety_mappings() {
  std::vector<Mapping> all{blocks()};
  for (std::size_t i = 0; i < safety_blocks().size(); ++i)
    all.push_back(block(safety_key_lists()[i + 1], safety_blocks()[i]));
  return all;
}

}  // namespace hailwright::input
