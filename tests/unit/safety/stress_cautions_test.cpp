#include <algorithm>
#include <set>

#include "hailwright/safety/stress_gate.hpp"
#include "safety/caution_lists.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("stress cautions: those of all kinds are among the cautions, in their words") {
  std::size_t count = 0;
  for (const StressKind& kind : stress_kinds()) {
    for (const StressCaution& own : kind.cautions) {
      CAPTURE(own.id);
      ++count;
      const Caution& shown = caution(own.id);
      CHECK(shown.text == own.text);
      CHECK(shown.source == own.source);
      CHECK(shown.status == own.status);
      CHECK(shown.group == (own.people ? CautionGroup::people : CautionGroup::panel));
      CHECK(kind_of_caution(own.id) == &kind);
    }
  }
  CHECK(stress_cautions().size() == count);
  for (const Caution& usual : usual_cautions())
    CHECK(kind_of_caution(usual.id) == nullptr);
}

TEST_CASE("stress cautions: every question of a kind names a caution that there is") {
  for (const StressKind& kind : stress_kinds()) {
    const auto ids = cautions_of_stress(kind);
    CHECK(std::set<std::string_view>(ids.begin(), ids.end()).size() == ids.size());
    for (const std::string_view id : ids) {
      CAPTURE(kind.word, id);
      CHECK_NOTHROW(caution(id));
    }
    for (const StressQuestion& question : kind.questions)
      CHECK(std::find(ids.begin(), ids.end(), question.caution) != ids.end());
  }
}
