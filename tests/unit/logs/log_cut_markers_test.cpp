#include "logs/log_cut_markers.hpp"

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using namespace hailwright::detail;

namespace {

CutResult cut(const std::vector<LogBlock>& blocks) {
  StretchRules rules;
  rules.longest_gap = Time::from_si(10.0);
  MarkerCutter cutter(rules, 0);
  for (const LogBlock& block : blocks)
    cutter.take(block);
  return cutter.finish();
}

LogBlock marked(std::size_t rows, const std::vector<MarkerChange>& markers) {
  LogBlock block = rows_by_second(rows, [](double at_s) { return at_s; });
  block.markers = markers;
  return block;
}

std::vector<std::string> names(const CutResult& result) {
  std::vector<std::string> all;
  for (const CutStretch& one : result.stretches)
    all.push_back(one.stretch.name);
  return all;
}

}  // namespace

TEST_CASE("cut by markers: a stretch is a run of rows with one text") {
  const CutResult result = cut({marked(20, {{3, "before 1"}, {9, ""}, {12, "after 1"}})});
  REQUIRE(names(result) == std::vector<std::string>{"before 1", "after 1"});
  CHECK(result.stretches[0].stretch.rows == 6);
  CHECK(result.stretches[0].place.line == 5);
  CHECK(result.stretches[1].stretch.rows == 8);
  CHECK(result.remarks.returns.empty());
}

TEST_CASE("cut by markers: without markers there is nothing") {
  CHECK(cut({marked(20, {})}).stretches.empty());
  CHECK(cut({marked(20, {{0, ""}})}).stretches.empty());
  CHECK(cut({}).stretches.empty());
}

TEST_CASE("cut by markers: a text that comes back after other rows is another stretch") {
  const CutResult result = cut({marked(30, {{0, "a"}, {5, "b"}, {10, "a"}, {15, ""}, {20, "a"}})});
  CHECK(names(result) == std::vector<std::string>{"a", "b", "a (2)", "a (3)"});
  REQUIRE(result.remarks.returns.size() == 2);
  CHECK(result.remarks.returns[0].text == "a");
  CHECK(result.remarks.returns[0].name == "a (2)");
  CHECK(result.remarks.returns[0].place.line == 12);
}

TEST_CASE("cut by markers: no two stretches get one name") {
  const CutResult result =
      cut({marked(30, {{0, "a (2)"}, {5, "a"}, {10, "b"}, {15, "a"}, {20, "a (2)"}})});
  CHECK(names(result) == std::vector<std::string>{"a (2)", "a", "b", "a (3)", "a (2) (2)"});
}

TEST_CASE("cut by markers: a change after the last row of a block holds for the next one") {
  LogBlock first = marked(5, {{0, "a"}, {5, "b"}});
  LogBlock second = marked(5, {});
  for (std::int64_t& at_us : second.time_us)
    at_us += 5'000'000;
  const CutResult result = cut({first, second});
  REQUIRE(names(result) == std::vector<std::string>{"a", "b"});
  CHECK(result.stretches[1].stretch.rows == 5);
}

TEST_CASE("cut by markers: any split gives the same stretches") {
  RandomStream random(6, 3);
  for (int trial = 0; trial < 100; ++trial) {
    CAPTURE(trial);
    std::vector<MarkerChange> changes;
    for (std::size_t row = 0; row < 60; row += 1 + static_cast<std::size_t>(9 * random.uniform()))
      changes.push_back({row, std::string(1, "abc "[static_cast<int>(4 * random.uniform())])});
    for (MarkerChange& change : changes)
      if (change.text == " ") change.text.clear();
    const LogBlock rows = marked(60, changes);
    const CutResult whole = cut({rows}), split = cut(split_at_random(rows, 1 + trial % 9, random));
    REQUIRE(names(split) == names(whole));
    for (std::size_t i = 0; i < whole.stretches.size(); ++i) {
      CHECK(split.stretches[i].stretch.rows == whole.stretches[i].stretch.rows);
      CHECK(split.stretches[i].stretch.from_us == whole.stretches[i].stretch.from_us);
      CHECK(split.stretches[i].place.line == whole.stretches[i].place.line);
    }
  }
}

TEST_CASE("cut by markers: a text of its own in every row is too many stretches") {
  std::vector<MarkerChange> changes;
  for (std::size_t row = 0; row < most_stretches + 3; ++row)
    changes.push_back({row, std::to_string(row)});
  const CutResult result = cut({marked(most_stretches + 3, changes)});
  CHECK(result.stretches.size() == most_stretches);
  CHECK(result.remarks.too_many == 3);
  CHECK(result.remarks.first_too_many.line == static_cast<std::int64_t>(most_stretches) + 2);
}
