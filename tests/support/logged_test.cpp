#include "support/logged_test.hpp"

#include "support/log_answers.hpp"
#include "support/test_builder.hpp"

namespace hailwright::testing {

namespace {

LogUse use_of(const ReadingsAnswer& a) {
  LogUse use;
  use.files = a.files;
  use.stated = a.stated;
  use.shape = a.shape;
  use.question = a.question;
  use.tally = a.tally;
  use.findings = a.findings;
  return use;
}

}  // namespace

LogUse day_log(const Test& test) {
  LogUse use = use_of(day_answer());
  use.question.cut.kind = LogCut::Kind::times;
  for (const LogStretch& s : use.findings.stretches) {
    for (std::size_t i = 0; i < test.record.setups.size(); ++i) {
      if (test.record.setups[i].name == s.name) use.setups.push_back(i);
    }
  }
  return use;
}

LogUse session_log() {
  LogUse use = use_of(pair_answer());
  use.files = {"week.csv"};
  use.question.cut.kind = LogCut::Kind::whole;
  use.findings.stretches.clear();
  return use;
}

Test logged_test() {
  Test test = TestBuilder().build();
  test.record.logs.push_back(day_log(test));
  int left_out = 0;
  for (Reading& r : test.record.readings) {
    if (r.setup == test.record.logs[0].setups.at(0) && left_out < 2) {
      r.skip = "irradiance changed";
      ++left_out;
    }
  }
  LogUse sessions = session_log();
  sessions.question.cut.kind = LogCut::Kind::times;
  sessions.findings.stretches = {sessions.findings.whole, {}};
  sessions.findings.stretches[0].name = "morning";
  sessions.findings.stretches[1].name = "empty";
  test.record.sessions.push_back(std::move(sessions));
  return test;
}

}  // namespace hailwright::testing
