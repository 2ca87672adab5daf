#include <algorithm>
#include <regex>

#include "report/json_values.hpp"
#include "report/report_sections.hpp"
#include "support/catch.hpp"
#include "support/document_words.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::seen;
using hailwright::testing::TestBuilder;
using hailwright::testing::words;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

const Snippet& snippet_of(const Document& document) {
  for (const Block& block : document.blocks) {
    if (const auto* snippet = std::get_if<Snippet>(&block)) return *snippet;
  }
  FAIL("no lines to copy");
  throw std::logic_error("unreachable");
}

std::string judge_line(const WrittenUp& c) {
  Document out;
  append_judge_again(out, c.write_up, 2);
  return snippet_of(out).lines.back();
}

bool uses(const WrittenUp& c, const std::string& id) {
  const auto used = sources_used(c.write_up.judged);
  return std::any_of(used.begin(), used.end(), [&](const Citation* s) { return s->id == id; });
}

}  // namespace

TEST_CASE("report origin: the line that judges again names the copied record") {
  WrittenUp c{TestBuilder()};
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
  const WrittenUp c{TestBuilder()};
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
  WrittenUp c{TestBuilder()};
  const CheckPlan usual;
  MonteCarloCheck check;
  check.trials = usual.trials;
  check.seed = usual.seed;
  c.assessment().power.at(0).check = check;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml");
  c.assessment().power[0].check->trials = 20'000;
  c.assessment().power[0].check->seed = 7;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml --trials 20000 --seed 7");
  c.assessment().power[0].check->adaptive = true;
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml --trials adaptive --seed 7");
  c.assessment().power.clear();
  CHECK(judge_line(c) == "hailwright judge inputs/record.yaml");
}

TEST_CASE("report origin: only sources that numbers rest on are listed") {
  TestBuilder b;
  CHECK(uses(WrittenUp(b), "method-normalised-power"));
  CHECK(uses(WrittenUp(b), "method-control-and-siblings"));
  CHECK(uses(WrittenUp(b), "iec61215-mqt17"));
  CHECK(uses(WrittenUp(b), "nws-hail-sizes"));
  CHECK_FALSE(uses(WrittenUp(b), "iec61215-mqt01"));
  CHECK_FALSE(uses(WrittenUp(b), "method-random-trials"));
  CHECK(uses(WrittenUp(b.look(0, {seen("scuff", "place 1")})), "iec61215-mqt01"));
  CHECK_FALSE(uses(WrittenUp(TestBuilder().same_panel()), "method-control-and-siblings"));
  Test looks = TestBuilder().build();
  looks.record.readings.clear();
  looks.record.setups.clear();
  CHECK_FALSE(uses(WrittenUp(looks), "method-normalised-power"));
}

TEST_CASE("report origin: all that the report for machines names is named here too") {
  for (const char* name : {"rigid-withstood", "rigid-undecided", "flexible-extended",
                           "flexible-siblings", "flexible-power-rose", "flexible-outlying"}) {
    const WrittenUp c = written_demo({name});
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
  const WrittenUp c = written_demo({"rigid-withstood"});
  Document out;
  append_rests_on(out, c.write_up, 2);
  const auto& list = std::get<Bullets>(out.blocks.at(2));
  CHECK(list.items.size() == sources_used(c.write_up.judged).size());
  int links = 0;
  for (const Runs& line : list.items) {
    CAPTURE(line.front().text);
    CHECK(line.size() >= 2);
    for (const Run& run : line) {
      // Found by review: of two addresses in one source only the first was a link.
      if (run.link.empty()) CHECK_THAT(run.text, !Contains("https://"));
      if (run.link.empty()) continue;
      ++links;
      CHECK(run.link == run.text);
      CHECK(std::regex_match(run.link, std::regex("https://[^ ,;]+")));
    }
  }
  CHECK(links >= 5);
}

// Found by review: keys such as "method-hit-evidence", and pages that do not lie beside a report.
TEST_CASE("report origin: sources are named as readers can use them") {
  const WrittenUp c = written_demo({"rigid-withstood"});
  Document out;
  append_rests_on(out, c.write_up, 2);
  const std::string text = words(out);
  CHECK_THAT(text, Contains("exact one-sided bound of Clopper and Pearson (from memory).") &&
                       Contains("Clauses from memory, the examples of Annex H"));
  CHECK_THAT(text, !Contains("docs/") && !Contains("method-"));
}
