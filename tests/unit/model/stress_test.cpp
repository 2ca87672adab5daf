// Every kind of stress is whole: nothing here names one, so that a new one is held to it at once.
#include "hailwright/model/stress.hpp"

#include <algorithm>
#include <set>

#include "support/catch.hpp"
#include "support/stress_examples.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

void check_keys(const std::vector<StressKey>& keys) {
  std::set<std::string_view> seen;
  REQUIRE_FALSE(keys.empty());
  for (const StressKey& key : keys) {
    CAPTURE(key.key);
    CHECK(seen.insert(key.key).second);
    CHECK_FALSE(key.asks.empty());
    CHECK_NOTHROW(stress_value(key, std::string(key.example)));
    if (!key.words.empty()) {
      CHECK(key.words.size() > 1);
      continue;
    }
    CHECK(key.low < key.high);
    CHECK_FALSE(key.range.empty());
  }
}

const StressKey* find_key(const std::vector<StressKey>& keys, std::string_view word) {
  const auto found =
      std::find_if(keys.begin(), keys.end(), [&](const StressKey& key) { return key.key == word; });
  return found == keys.end() ? nullptr : &*found;
}

bool is_possible(const SafetyQuestion& asked, const std::string& answer) {
  switch (asked.form) {
  case AnswerForm::yes_no:
    return answer == "yes" || answer == "no";
  case AnswerForm::word:
    return std::find(asked.words.begin(), asked.words.end(), answer) != asked.words.end();
  case AnswerForm::amount:
    return read_amount(answer, asked.measure).value.has_value();
  default:
    return !answer.empty();
  }
}

}  // namespace

TEST_CASE("stress: every kind says what it is and is found by its word") {
  std::set<std::string_view> words;
  REQUIRE_FALSE(stress_kinds().empty());
  for (const StressKind& kind : stress_kinds()) {
    CAPTURE(kind.word);
    CHECK(words.insert(kind.word).second);
    CHECK(find_stress_kind(kind.word) == &kind);
    CHECK(stress_kind_words().find(kind.word) != std::string::npos);
    CHECK(kind.about.back() == '.');
    CHECK_FALSE(kind.unlike.empty());
    CHECK(kind.refused_from_V <= 120.0);  // extra-low voltage ends there
  }
  CHECK(find_stress_kind("no such stress") == nullptr);
}

TEST_CASE("stress: every key has a range and an example that reads") {
  for (const StressKind& kind : stress_kinds()) {
    CAPTURE(kind.word);
    check_keys(kind.planned);
    check_keys(kind.done);
  }
}

TEST_CASE("stress: every level has a source and stays in the ranges of its keys") {
  std::set<std::string_view> ids;
  for (const Citation& source : stress_sources()) {
    CAPTURE(source.id);
    CHECK(ids.insert(source.id).second);
    CHECK_FALSE(source.title.empty());
    CHECK((source.status == ReadStatus::read) == !source.read_at.empty());
  }
  for (const StressKind& kind : stress_kinds()) {
    CHECK_FALSE(kind.levels.empty());
    for (const StressLevel& level : kind.levels) {
      CAPTURE(kind.word, level.name);
      CHECK(find_stress_level(kind, level.name) == &level);
      CHECK(std::any_of(kind.sources.begin(), kind.sources.end(),
                        [&](const Citation& c) { return c.id == level.source; }));
      CHECK_FALSE(level.values.empty());
      for (const auto& [word, si] : level.values) {
        const StressKey* key = find_key(kind.planned, word);
        CAPTURE(word, si);
        REQUIRE(key != nullptr);
        const double high =
            key->words.empty() ? key->high : static_cast<double>(key->words.size()) - 1.0;
        CHECK((si >= (key->words.empty() ? key->low : 0.0) && si <= high));
      }
    }
    CHECK(find_stress_level(kind, "no such level") == nullptr);
  }
}

TEST_CASE("stress: every question has a caution, a good answer and a bad one") {
  for (const StressKind& kind : stress_kinds()) {
    std::set<std::string_view> keys;
    for (const StressQuestion& question : kind.questions) {
      const SafetyQuestion& asked = question.asked;
      CAPTURE(kind.word, asked.key);
      CHECK(keys.insert(asked.key).second);
      CHECK(find_stress_question(kind, asked.key) == &question);
      CHECK(asked.block == kind.word);
      CHECK_FALSE(asked.asks.empty());
      CHECK_FALSE(question.caution.empty());
      CHECK(is_possible(asked, std::string(asked.example)));
      CHECK_FALSE(question.missing(std::string(asked.example)));
      const auto wanted = question.missing("");
      REQUIRE(wanted);
      CHECK_FALSE(wanted->empty());
      if (question.refused_for.empty()) continue;
      CHECK(is_possible(asked, std::string(question.refused_for)));
      CHECK(question.missing(std::string(question.refused_for)));
    }
    // What every stress asks.
    for (const char* key : {"installed", "leads", "children_away", "afterwards"}) {
      CAPTURE(kind.word, key);
      CHECK(find_stress_question(kind, key) != nullptr);
    }
    CHECK(find_stress_question(kind, "no_such_key") == nullptr);
  }
}

TEST_CASE("stress: every caution is behind a question") {
  for (const StressKind& kind : stress_kinds()) {
    REQUIRE_FALSE(kind.cautions.empty());
    for (const StressCaution& caution : kind.cautions) {
      CAPTURE(kind.word, caution.id);
      CHECK(std::any_of(kind.questions.begin(), kind.questions.end(),
                        [&](const StressQuestion& q) { return q.caution == caution.id; }));
    }
  }
}

TEST_CASE("stress: the examples of every kind can be planned and judged") {
  for (const StressKind& kind : stress_kinds()) {
    CAPTURE(kind.word);
    const StressValues planned = examples_of(kind.planned);
    const StressValues done = examples_of(kind.done);
    const Panel panel = panel_for(kind, planned);
    CHECK_FALSE((kind.unsuited && kind.unsuited(planned, panel)));
    CHECK_FALSE((kind.power_spoilt && kind.power_spoilt(done)));
    CHECK_FALSE(kind.advice(planned, panel).empty());
    const auto reached = kind.reached(planned, done, panel);
    REQUIRE_FALSE(reached.empty());
    for (const StressReached& one : reached) {
      CAPTURE(one.label);
      CHECK_FALSE(one.label.empty());
      CHECK(one.planned > 0.0);
      CHECK(one.tolerance >= 0.0);
      CHECK(one.tolerance < 0.2);
      CHECK(one.done.standard_u.si() >= 0.0);
    }
    CHECK(kind.reached({}, {}, panel).empty());
    CHECK(kind.advice({}, panel).empty());
  }
}

TEST_CASE("stress: leaving out a required key leaves nothing told of what was done") {
  for (const StressKind& kind : stress_kinds()) {
    const StressValues planned = examples_of(kind.planned);
    const Panel panel = panel_for(kind, planned);
    for (const StressKey& key : kind.done) {
      StressValues done = examples_of(kind.done);
      done.erase(std::string(key.key));
      CAPTURE(kind.word, key.key);
      const bool told = !kind.reached(planned, done, panel).empty();
      const bool spoilt = kind.power_spoilt && kind.power_spoilt(done);
      if (key.required) CHECK((!told || spoilt));
    }
  }
}
