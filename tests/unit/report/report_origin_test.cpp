#include <algorithm>
#include <regex>

#include "report/json_values.hpp"
#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/report_case.hpp"

using namespace hailwright;
using hailwright::testing::ReportCase;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;

namespace {

const Snippet& snippet_of(const Document& document) {
  for (const Block& block : document.blocks) {
    if (const auto* snippet = std::get_if<Snippet>(&block)) return *snippet;
  }
  FAIL("no lines to copy");
  throw std::logic_error("unreachable");
}

std::string judge_line(const ReportCase& c) {
  Document out;
  append_judge_again(out, c.write_up, 2);
  return snippet_of(out).lines.back();
}

bool uses(const ReportCase& c, const std::string& id) {
  const auto used = sources_used(c.write_up.judged);
  return std::any_of(used.begin(), used.end(), [&](const Citation* s) { return s->id == id; });
}

}  // namespace

TEST_CASE("report origin: the id comes from version and checksums alone") {
  ReportCase c{TestBuilder()};
  const std::string id = report_id(c.write_up);
  CHECK(std::regex_match(id, std::regex("[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}")));
  // printf '1.2.3\naaaa...(64)' | sha256sum
  CHECK(id == "2ae1-69ee-9abb");
  c.write_up.inputs[0].path = "elsewhere.yaml";
  CHECK(report_id(c.write_up) == id);
  c.write_up.inputs[0].sha256[5] = 'b';
  CHECK(report_id(c.write_up) != id);
  c.write_up.inputs[0].sha256[5] = 'a';
  c.write_up.version = "1.2.4";
  CHECK(report_id(c.write_up) != id);
}

TEST_CASE("report origin: the line that judges again names the copied record") {
  ReportCase c{TestBuilder()};
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml --trials 0");
  c.write_up.inputs[0].path = "inputs/Panel A's day.yaml";
  CHECK(judge_line(c) == "hailwright judge 'inputs/Panel A'\\''s day.yaml' --trials 0");
  const ReaderLimit limit{percent(2), {}, {}};
  c.write_up.judged[0].reader_limit = &limit;
  CHECK_THAT(judge_line(c), Contains(" --limit '2 %'"));
  c.write_up.inputs.clear();
  CHECK_THAT(judge_line(c), Contains("record.yaml"));
}

TEST_CASE(
    "report origin: inputs stand with their checksums and the files for machines with links") {
  const ReportCase c{TestBuilder()};
  Document out;
  append_judge_again(out, c.write_up, 2);
  const std::string text = words(out);
  CHECK_THAT(text, Contains("| inputs/record.yaml | 120 | " + std::string(64, 'a')) &&
                       Contains("sha256sum -c checksums.txt") && Contains("(report.json)") &&
                       Contains("(report.xlsx)"));
  for (const DataTable& table : report_tables(c.write_up))
    CHECK_THAT(text, Contains("(" + table.name + ".csv)"));
}

TEST_CASE("report origin: the line makes the same random trials") {
  ReportCase c{TestBuilder()};
  const CheckPlan usual;
  MonteCarloCheck check;
  check.trials = usual.trials;
  check.seed = usual.seed;
  c.assessment.power.at(0).check = check;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml");
  c.assessment.power[0].check->trials = 20'000;
  c.assessment.power[0].check->seed = 7;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml --trials 20000 --seed 7");
  c.assessment.power[0].check->adaptive = true;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml --trials adaptive --seed 7");
  c.assessment.power.clear();
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml");
}

TEST_CASE("report origin: only sources that numbers rest on are listed") {
  TestBuilder b;
  CHECK(uses(ReportCase(b), "method-normalised-power"));
  CHECK(uses(ReportCase(b), "method-control-and-siblings"));
  CHECK(uses(ReportCase(b), "iec61215-mqt17"));
  CHECK(uses(ReportCase(b), "nws-hail-sizes"));
  CHECK_FALSE(uses(ReportCase(b), "iec61215-mqt01"));
  CHECK_FALSE(uses(ReportCase(b), "method-random-trials"));
  CHECK(uses(ReportCase(b.look(0, {seen("scuff", "place 1")})), "iec61215-mqt01"));
  CHECK_FALSE(uses(ReportCase(TestBuilder().same_panel()), "method-control-and-siblings"));
  Test looks = TestBuilder().build();
  looks.record.readings.clear();
  looks.record.setups.clear();
  CHECK_FALSE(uses(ReportCase(looks), "method-normalised-power"));
}

TEST_CASE("report origin: all that the report for machines names is named here too") {
  for (const char* name : {"rigid-withstood", "rigid-undecided", "flexible-extended",
                           "flexible-siblings", "flexible-power-rose", "flexible-outlying"}) {
    const ReportCase c(std::string("protocols/demo/") + name + ".yaml");
    const json::Json machines = json::Json::parse(report_json(c.write_up));
    CHECK(machines.at("sources").size() > 5);
    for (const json::Json& source : machines.at("sources")) {
      const std::string id = source.at("id");
      CAPTURE(name, id);
      // Defaults are listed with what was assumed.
      if (!id.starts_with("default-")) CHECK(uses(c, id));
    }
  }
}

TEST_CASE("report origin: every source says how it was read and only addresses are links") {
  const ReportCase c("protocols/demo/rigid-withstood.yaml");
  Document out;
  append_rests_on(out, c.write_up, 2);
  const auto& facts = std::get<Facts>(out.blocks.at(2));
  CHECK(facts.items.size() == sources_used(c.write_up.judged).size());
  int links = 0;
  for (const Fact& fact : facts.items) {
    CAPTURE(fact.label);
    CHECK(fact.lines.size() >= 2);
    for (const Runs& line : fact.lines) {
      for (const Run& run : line) {
        if (run.link.empty()) continue;
        ++links;
        CHECK(run.link == run.text);
        CHECK(std::regex_match(run.link, std::regex("https://[^ ,;]+")));
      }
    }
  }
  CHECK(links >= 5);
}
