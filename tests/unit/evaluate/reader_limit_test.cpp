#include "hailwright/evaluate/reader_limit.hpp"

#include <array>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"
#include "support/test_builder.hpp"

using namespace hailwright;
using hailwright::testing::read_record;
using hailwright::testing::TestBuilder;

namespace {

Answer beyond(const Assessment& a, Ratio limit) {
  const ReaderLimit reader = answer_reader_limit(a, limit);
  REQUIRE(reader.power.size() == a.power.size());
  REQUIRE(reader.later_power.size() == a.later_power.size());
  return reader.power.at(0).beyond;
}

}  // namespace

TEST_CASE("reader limit: by the interval, as the protocol's limit") {
  const Test test = TestBuilder().loss(0.08).build();
  const Assessment a = assess(test);
  const PowerResult& p = a.power.at(0);
  REQUIRE(p.usable());
  const double low = p.estimate.low().si();
  const double high = p.estimate.high().si();
  REQUIRE(low > 0.0);
  CHECK(beyond(a, Ratio::from_si(low - 1e-9)) == Answer::yes);
  CHECK(beyond(a, Ratio::from_si(low + 1e-9)) == Answer::undecided);
  CHECK(beyond(a, Ratio::from_si(high - 1e-9)) == Answer::undecided);
  CHECK(beyond(a, Ratio::from_si(high + 1e-9)) == Answer::no);
}

TEST_CASE("reader limit: the protocol's own limit gives the protocol's own answer") {
  for (const double loss : {0.0, 0.04, 0.05, 0.06, 0.2}) {
    const Test test = TestBuilder().loss(loss).build();
    const Assessment a = assess(test);
    CAPTURE(loss);
    CHECK(beyond(a, test.protocol.decide.limit) == a.power.at(0).answers.beyond);
  }
}

TEST_CASE("reader limit: it leaves verdict and answers as they were") {
  const Test test = TestBuilder().loss(0.02).build();
  const Assessment a = assess(test);
  const Word before = a.verdicts.at(0).word;
  CHECK(beyond(a, percent(0.5)) == Answer::yes);
  CHECK(a.verdicts.at(0).word == before);
  CHECK(a.power.at(0).answers.beyond == Answer::no);
}

TEST_CASE("reader limit: nothing is answered where the comparison does not count") {
  for (const char* path :
       {"protocols/demo/flexible-power-rose.yaml", "protocols/demo/rigid-undecided.yaml"}) {
    const Test test = read_record(path);
    CAPTURE(path);
    CHECK(beyond(assess(test), percent(20)) == Answer::undecided);
  }
}

TEST_CASE("reader limit: random trials that answer otherwise leave it undecided") {
  const Test test = TestBuilder().loss(0.03).build();
  CheckPlan plan;
  plan.trials = 20'000;
  Assessment a = assess(test, plan);
  REQUIRE(a.power.at(0).check);
  CHECK(beyond(a, percent(20)) == Answer::no);
  a.power[0].check->high = percent(21);
  CHECK(beyond(a, percent(20)) == Answer::undecided);
}

TEST_CASE("reader limit: the estimate alone never answers it") {
  TestBuilder b;
  b.loss(0.05).test.protocol.decide.simple = true;
  const Test test = b.build();
  const Assessment a = assess(test);
  REQUIRE(a.power.at(0).answers.beyond != Answer::undecided);
  CHECK(beyond(a, test.protocol.decide.limit) == Answer::undecided);
}

TEST_CASE("reader limit: of a later stage too") {
  const Assessment none = assess(TestBuilder().build());
  CHECK(answer_reader_limit(none, percent(1)).later_power.empty());
  Assessment later = none;
  later.later_power = {later.power.at(0)};
  CHECK(answer_reader_limit(later, percent(50)).later_power.at(0).beyond == Answer::no);
}

TEST_CASE("reader limit: a limit of nothing or of all is none") {
  const Assessment none;
  CHECK_THROWS_AS(answer_reader_limit(none, Ratio{}), BugError);
  CHECK_THROWS_AS(answer_reader_limit(none, Ratio::from_si(1.0)), BugError);
  CHECK(answer_reader_limit(none, percent(99)).limit == percent(99));
}
