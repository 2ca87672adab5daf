#include "report/log_use_sentences.hpp"

#include "report/readings_sentences.hpp"
#include "support/catch.hpp"
#include "support/log_answers.hpp"
#include "support/logged_test.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;

namespace {

struct Told {
  Test test = logged_test();
  Assessment a;
  std::vector<ReadingsAnswer> answers;

  Told() { again(); }
  void again() {
    a = assess(test);
    answers = session_answers(test, a);
  }
  LogUse& log() { return test.record.logs[0]; }
  [[nodiscard]] std::vector<NamedStretch> sessions() const { return told_stretches(answers.at(0)); }
  /// Why "morning" has no normalised power, or what it is.
  [[nodiscard]] std::string normalised() const {
    return normalised_sentences(sessions().at(0), answers.at(0)).at(0);
  }
};

}  // namespace

TEST_CASE("log use: how set-ups were cut and what became of their readings") {
  Told t;
  std::size_t all = 0;
  for (const Reading& r : t.test.record.readings)
    all += r.setup == t.log().setups[0] || r.setup == t.log().setups[1] ? 1 : 0;
  CHECK(setups_sentence(t.log(), t.test.record) ==
        "2 set-ups with 1382 rows, cut by the times in the record: " + std::to_string(all - 2) +
            " readings count, 2 are left out (irradiance changed: 2)");
  for (Reading& r : t.test.record.readings)
    r.skip.clear();
  t.log().question.cut.kind = LogCut::Kind::plateaus;
  CHECK(setups_sentence(t.log(), t.test.record) ==
        "2 set-ups with 1382 rows, cut where the load went on and off: " + std::to_string(all) +
            " readings count, none is left out");
  t.log().question.cut.kind = LogCut::Kind::markers;
  CHECK_THAT(setups_sentence(t.log(), t.test.record), Contains("by the markers in the log"));
  CHECK_THAT(std::string(put_up_sentence()), Contains("cannot tell"));
}

TEST_CASE("log use: rows that could not be used are told, and that all could") {
  Told t;
  CHECK_THAT(tally_sentence(t.log().tally),
             Contains("35401 rows used") && Contains("2 rows could not be read, 1 stands before"));
  t.log().tally.unreadable = t.log().tally.out_of_order = 0;
  CHECK_THAT(tally_sentence(t.log().tally),
             EndsWith("every row could be read and stands in order"));
}

TEST_CASE("log use: gaps inside set-ups alone") {
  Told t;
  // The gap of `day_findings` lies between the two stretches.
  REQUIRE(t.log().findings.whole.gaps == 1);
  CHECK(setup_gaps_sentence(t.log()) == "no step in time inside a set-up is longer than 10 s");
  t.log().findings.stretches[0].gaps = 1;
  t.log().findings.stretches[0].in_gaps_s = 22.0;
  CHECK(setup_gaps_sentence(t.log()) ==
        "1 step in time inside the set-ups longer than 10 s, 22 s together");
}

TEST_CASE("log use: a session with its energy and its mean power") {
  Told t;
  const StretchNumbers& n = t.sessions().at(0).numbers;
  CHECK(session_sentence(t.sessions().at(0), t.answers[0]) ==
        "2026-06-14 06:00:00 to 16:00:00 (UTC+02:00): " + number_text(*n.energy, "Wh") +
            ", on average " + number_text(*n.mean_power, "W"));
  CHECK(session_sentence(t.sessions().at(1), t.answers[0]) == "no rows in the log");
  CHECK(normalised_sentences(t.sessions().at(1), t.answers[0]).empty());
  CHECK(session_remarks(t.sessions().at(1), t.answers[0]).empty());
  CHECK(session_details(t.sessions().at(1)).empty());
}

TEST_CASE("log use: a session without two powers near each other has no energy") {
  Told t;
  LogStretch& s = t.test.record.sessions[0].findings.stretches[0];
  s.mean_power.reset();
  s.bridged_s = 0.0;
  t.again();
  CHECK_THAT(session_sentence(t.sessions().at(0), t.answers[0]),
             EndsWith("no energy: no two powers follow each other within 10 s"));
  t.test.record.sessions[0].findings.stretches[0].power.count = 0;
  t.test.record.sessions[0].findings.stretches[0].steady.reset();
  t.again();
  CHECK_THAT(session_sentence(t.sessions().at(0), t.answers[0]),
             EndsWith("no energy: no row has a power"));
}

TEST_CASE("log use: the normalised power of a session, or why there is none") {
  Told t;
  CHECK_THAT(t.normalised(), StartsWith("at 1000 W/m2 and 25 degC ") && Contains("(95 %)") &&
                                 Contains("readings worth"));
  LogUse& use = t.test.record.sessions[0];
  for (LogStretch& s : use.findings.stretches)
    s.normalised.reset();
  t.again();
  CHECK_THAT(t.normalised(), StartsWith("no normalised power: no row counts of 200 W/m2 and more"));
  use.question.rules.normalise.reset();
  t.again();
  CHECK_THAT(t.normalised(), Contains("temperature coefficient"));
  std::erase_if(use.shape.used, [](const LogColumn& c) { return c.role == LogRole::temperature; });
  t.again();
  CHECK(t.normalised() == "no normalised power: the log has no temperature of the panel");
  std::erase_if(use.shape.used, [](const LogColumn& c) { return c.role == LogRole::irradiance; });
  t.again();
  CHECK(t.normalised() == "no normalised power: the log has no irradiance");
}

TEST_CASE("log use: what must be said of a session and what may be") {
  const Told t;
  const auto remarks = session_remarks(t.sessions().at(0), t.answers[0]);
  REQUIRE(remarks.size() == 3);
  CHECK_THAT(remarks[0], StartsWith("second panel over first 0.98"));
  CHECK_THAT(remarks[1], Contains("no energy is counted there"));
  CHECK_THAT(remarks[2], Contains("the load or its tracker sets it"));
  const auto details = session_details(t.sessions().at(0));
  REQUIRE(details.size() == 3);
  CHECK_THAT(details[0], Contains("windows of a minute"));
  CHECK_THAT(details[1], Contains("the steady rule removed"));
  CHECK_THAT(details[2], Contains("the counter gives"));
}

// Found by review: "has no round in which both panels were read" where all were left out.
TEST_CASE("log use: set-ups of which no reading counts are told with the reason") {
  Told t;
  CHECK(emptied_setups_sentence(t.test.record).empty());
  int all = 0;
  for (Reading& r : t.test.record.readings) {
    if (r.setup != t.log().setups[1]) continue;
    r.skip = "irradiance changed";
    ++all;
  }
  CHECK_THAT(emptied_setups_sentence(t.test.record),
             StartsWith("no reading of set-up 'before 2' counts: all " + std::to_string(all) +
                        " of their logs are left out (irradiance changed: " + std::to_string(all) +
                        "). Where the steady rule") &&
                 Contains("steady: {window"));
}

TEST_CASE("log use: the steady rule and whose limits it has") {
  Told t;
  LogQuestion& question = t.log().question;
  CHECK_THAT(steady_sentence(question),
             StartsWith("steady rule: windows of 1 min") && Contains("this tool's own"));
  question.rules.steady->window = Time::from_si(30.0);
  CHECK_THAT(steady_sentence(question), Contains("windows of 30 s") && Contains("tool's own"));
  question.rules.steady->ramp = percent(3);
  CHECK_THAT(steady_sentence(question), Contains("by at most 3 %") && !Contains("tool's own"));
  question.rules.steady.reset();
  CHECK_THAT(steady_sentence(question), Contains("none; no row"));
}

TEST_CASE("log use: a session without rows says when it was looked for") {
  Told t;
  t.test.record.sessions[0].question.cut.spans = {
      {"empty", morning_us, morning_us + 3'600'000'000LL, {}}};
  t.again();
  CHECK_THAT(session_sentence(t.sessions().at(1), t.answers[0]),
             StartsWith("no rows from 2026-06-14 06:00:00 to 07:00:00 (UTC+02:00)"));
}
