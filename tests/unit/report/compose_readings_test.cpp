#include "hailwright/report/compose_readings.hpp"

#include <algorithm>
#include <string_view>
#include <variant>

#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::string console(const ReadingsAnswer& a) {
  return render_console(compose_readings(a), {80, false, true});
}

/// As one line, so that it matters not where it is wrapped.
std::string said(const ReadingsAnswer& a) {
  std::string text = words(compose_readings(a));
  text.erase(std::remove(text.begin(), text.end(), '\\'), text.end());
  return text;
}

/// Claims that no output makes (docs/measurement.md, M18).
constexpr std::string_view never_said[]{"passed",       "certified",  "undamaged",
                                        "no damage",    "unaffected", "safe distance",
                                        "within error", "hail-proof"};

}  // namespace

TEST_CASE("compose_readings: the sentence first and then what must not be overlooked") {
  const Document d = compose_readings(day_answer());
  CHECK(d.title == "Readings of day.csv");
  REQUIRE(std::holds_alternative<Opening>(d.blocks.front()));
  const Opening& o = std::get<Opening>(d.blocks.front());
  CHECK_THAT(o.sentence.front().text, Contains("615 Wh"));
  CHECK_FALSE(o.picture.svg.empty());
  CHECK_FALSE(o.picture.sketch.empty());
  CHECK_THAT(o.cautions.front().front().text, Contains("Panel makes voltage"));
  CHECK_THAT(said(day_answer()), Contains("2 rows could not be read, 1 stands before") &&
                                     Contains("1.7 % of the time: no energy is counted there") &&
                                     Contains("no maximum power was read there"));
}

// Found by review: a page that is published told in which folders of a machine the log lay.
TEST_CASE("compose_readings: a file by its whole path is shown by its name") {
  ReadingsAnswer a = day_answer();
  a.files = {"/far/somebody/logs/day.csv"};
  for (const std::string& page : {said(a), render_html(compose_readings(a))}) {
    CHECK_THAT(page, !Contains("somebody") && Contains("day.csv"));
  }
  a.files = {"logs/day.csv"};
  CHECK_THAT(said(a), Contains("logs/day.csv"));
}

TEST_CASE("compose_readings: each number has its interval and each rule its words") {
  CHECK_THAT(said(day_answer()),
             Contains("30900 readings worth 470 independent ones") &&
                 Contains("at 1000 W/m2 and 25 degC") &&
                 Contains("the steady rule removed 4201 of 35401 rows (12 %)") &&
                 Contains("The log cannot tell whether the panel was put up anew") &&
                 Contains("0.640 % less than the integral of the power") &&
                 Contains("more rows do not make it smaller") &&
                 Contains("what the power did between is not in its uncertainty") &&
                 Contains("sun meter, gain") && Contains("reads within 10 %") &&
                 Contains("12.73 ± 0.72"));
}

TEST_CASE("compose_readings: two panels side by side with their clocks") {
  const std::string text = said(pair_answer());
  CHECK_THAT(text, Contains("Side by side") && Contains("0.981 of the first") &&
                       Contains("7.02 s behind the first's") && Contains("second.csv") &&
                       Contains("a meter of its own is taken for each panel"));
  CHECK_THAT(said(day_answer()), !Contains("Side by side"));
  ReadingsAnswer stated = pair_answer();
  stated.offset.reset();
  CHECK_THAT(said(stated), Contains("7.02 s were added to the second log's stamps, as stated; no "
                                    "offset was looked for"));
}

TEST_CASE("compose_readings: messages stand with their places and many are counted") {
  ReadingsAnswer a = day_answer();
  CHECK_THAT(said(a), Contains("is no number (day.csv, line 812)"));
  for (int i = 0; i < 30; ++i)
    a.notes.warning("L11", {9, 1, 1, 1}, "of another file");
  CHECK_THAT(said(a), Contains("and 11 more") && !Contains("of another file ("));
  a.notes = {};
  a.notes.warning("L23", {1, 900, 1, 0}, "1 gap");  // stands with what was read
  CHECK_THAT(said(a), !Contains("Remarks on the reading"));
}

TEST_CASE("compose_readings: a log without rows or without energy says so") {
  ReadingsAnswer a = day_answer();
  a.findings = {};
  a.results = {};
  CHECK_THAT(console(a), Contains("day.csv: no row could be used.") &&
                             Contains("2 rows could not be read") && !Contains("Figure") &&
                             !Contains("before:"));
  a = day_answer();
  a.results.whole.energy.reset();
  CHECK_THAT(said(a), Contains("but no energy"));
}

TEST_CASE("compose_readings: few readings are told for the log and its stretches") {
  ReadingsAnswer a = day_answer();
  a.findings.whole.normalised = series_of(12, 95.0, 1.0, 0.0, 1.0);
  a.findings.stretches[0].normalised = series_of(60, 95.0, 1.0, 0.98, 4.0);
  weigh_again(a, {});
  CHECK_THAT(said(a), Contains("12 readings are too few") && Contains("rather too narrow"));
}

TEST_CASE("compose_readings: of thousands of stretches the first are told") {
  ReadingsAnswer a = day_answer();
  a.findings.stretches.resize(4096, a.findings.stretches[0]);
  weigh_again(a, {});
  const std::string text = said(a);
  CHECK_THAT(text, Contains("4096 stretches") && Contains("The first 60 of them are told here"));
  CHECK(render_html(compose_readings(a)).size() < 3'000'000);
}

TEST_CASE("compose_readings: labels of files come out as text in every format") {
  ReadingsAnswer a = day_answer();
  a.files = {"<i>&*_x\x1b[31m.csv"};
  a.findings.stretches[0].name = "=cmd|<b>\xE2\x80\xAE";
  a.shape.used[1].header = "P \"[W]\"\t<script>";
  const Document d = compose_readings(a);
  const std::string html = render_html(d);
  CHECK_THAT(html, Contains("&lt;i&gt;&amp;*_x?[31m.csv") && !Contains("<i>") &&
                       !Contains("<script>") && !Contains("\xE2\x80\xAE"));
  CHECK_THAT(render_markdown(d), Contains("\\<i\\>") && !Contains("\x1b"));
  CHECK_THAT(console(a),
             Contains("<i>&*_x?[31m.csv") && !Contains("\x1b") && !Contains("\xE2\x80\xAE"));
  // What is pasted into a record reads back to the very name.
  CHECK_THAT(console(a), Contains("log: \"<i>&*_x\\x1B[31m.csv\""));
}

TEST_CASE("compose_readings: no line of the console is too wide and nothing is claimed") {
  for (const ReadingsAnswer& a : {day_answer(), pair_answer()}) {
    const std::string text = console(a);
    for (const std::string_view claim : never_said) {
      CAPTURE(claim);
      CHECK_THAT(text, !Contains(std::string(claim)));
    }
    CHECK_THAT(text, Contains("▃") && Contains("1┤"));
    CHECK_THAT(render_console(compose_readings(a), {80, false, false}), !Contains("▃"));
    CHECK_THAT(text, Contains("Cautions") && Contains("pv_energised"));
  }
}
