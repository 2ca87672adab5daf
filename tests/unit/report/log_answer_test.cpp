#include "report/log_answer.hpp"

#include "support/catch.hpp"
#include "support/logged_test.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("log answer: what a record holds of a log is what is said of logs") {
  const Test test = logged_test();
  const Assessment a = assess(test);
  const std::vector<ReadingsAnswer> logs = log_answers(test, a);
  REQUIRE(logs.size() == 1);
  CHECK(logs[0].files == std::vector<std::string>{"day.csv"});
  CHECK(logs[0].place == LogPlace::before);
  CHECK(logs[0].tally.rows == 35401);
  CHECK(logs[0].findings.stretches.size() == logs[0].results.stretches.size());
  const std::vector<ReadingsAnswer> sessions = session_answers(test, a);
  REQUIRE(sessions.size() == 1);
  CHECK(sessions[0].place == LogPlace::sessions);
}

TEST_CASE("log answer: a log with set-ups after the shots says so") {
  Test test = logged_test();
  for (Setup& s : test.record.setups)
    s.stage = {StageKind::after, 0};
  CHECK(log_answers(test, assess(test)).at(0).place == LogPlace::after);
}

TEST_CASE("log answer: a log that was not cut is one session named after its file") {
  Test test = logged_test();
  const auto cut = session_answers(test, assess(test));
  REQUIRE(told_stretches(cut.at(0)).size() == 2);
  CHECK(told_stretches(cut.at(0))[0].name == "morning");
  test.record.sessions = {session_log()};
  const auto whole = session_answers(test, assess(test));
  const auto told = told_stretches(whole.at(0));
  REQUIRE(told.size() == 1);
  CHECK(told[0].name == "week.csv");
  CHECK(told[0].stretch.rows == 35401);
}
