#include "evaluate/assess_logs.hpp"

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/logged_test.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

double share(const LogResults& r) {
  return r.stretches.at(0).energy->estimate.standard_u.si() /
         r.stretches.at(0).energy->estimate.value.si();
}

Stated<Power> gain(double relative) {
  Stated<Power> error;
  error.shape = Shape::normal;
  error.relative = Ratio::from_si(relative);
  return error;
}

}  // namespace

TEST_CASE("assess logs: each log and session has its numbers and judges nothing") {
  Test test = logged_test();
  const Assessment with = assess(test);
  REQUIRE(with.logs.size() == 1);
  REQUIRE(with.sessions.size() == 1);
  CHECK(with.logs[0].stretches.size() == 2);
  CHECK_THAT(with.sessions[0].stretches.at(0).energy->estimate.value.si(),
             WithinRel(62.5 * 35400.0, 1e-12));
  CHECK_FALSE(with.sessions[0].stretches.at(1).energy.has_value());
  test.record.logs.clear();
  test.record.sessions.clear();
  const Assessment without = assess(test);
  CHECK(without.logs.empty());
  CHECK(without.verdicts.at(0).word == with.verdicts.at(0).word);
  CHECK(without.power.at(0).estimate.lambda == with.power.at(0).estimate.lambda);
  CHECK(without.assumed.size() == with.assumed.size());
}

TEST_CASE("assess logs: where the rows were not normalised there is no normalised power") {
  Test test = logged_test();
  CHECK(assess(test).sessions[0].stretches.at(0).normalised.has_value());
  for (LogStretch& s : test.record.sessions[0].findings.stretches)
    s.normalised.reset();
  CHECK_FALSE(assess(test).sessions[0].stretches.at(0).normalised.has_value());
}

TEST_CASE("assess logs: set-ups after the shots have the instruments described for then") {
  Test test = logged_test();
  test.protocol.tools.meter.error = gain(0.01);
  test.record.tools_after = Tools{};
  test.record.tools_after->meter.origin.line = 9;
  test.record.tools_after->meter.error = gain(0.03);
  CHECK_THAT(share(weigh_logs(test.record.logs, test).at(0)), WithinRel(0.01, 1e-9));
  CHECK_THAT(share(weigh_logs(test.record.sessions, test).at(0)), WithinRel(0.01, 1e-9));
  for (Setup& s : test.record.setups)
    s.stage = {StageKind::after, 0};
  CHECK_THAT(share(weigh_logs(test.record.logs, test).at(0)), WithinRel(0.03, 1e-9));
  CHECK_THAT(share(weigh_logs(test.record.sessions, test).at(0)), WithinRel(0.01, 1e-9));
}

TEST_CASE("assess logs: a baseline is read before the shots") {
  Test test = logged_test();
  test.protocol.tools.meter.error = gain(0.01);
  test.record.tools_after = Tools{};
  test.record.tools_after->meter.origin.line = 9;
  test.record.tools_after->meter.error = gain(0.03);
  for (Setup& s : test.record.setups)
    s.stage = {StageKind::baseline, 0};
  CHECK_THAT(share(weigh_logs(test.record.logs, test).at(0)), WithinRel(0.01, 1e-9));
}

TEST_CASE("assess logs: the second panel of a log is the control, where there is one") {
  Test test = logged_test();
  for (LogUse& use : test.record.sessions) {
    for (LogStretch& s : use.findings.stretches) {
      s.power_beside = s.power;
      s.normalised_beside = s.normalised;
    }
  }
  test.record.control = test.record.panel;
  CHECK(weigh_logs(test.record.sessions, test).at(0).stretches.at(0).normalised_beside);
  test.record.control.reset();
  CHECK_FALSE(weigh_logs(test.record.sessions, test).at(0).stretches.at(0).normalised_beside);
}
