#include "logs/log_cut_times.hpp"

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;
using namespace hailwright::detail;

namespace {

constexpr std::int64_t second = 1'000'000;

CutResult cut(const std::vector<LogSpan>& spans, const std::vector<LogBlock>& blocks) {
  StretchRules rules;
  rules.longest_gap = Time::from_si(10.0);
  TimeCutter cutter(spans, rules, 0);
  for (const LogBlock& block : blocks)
    cutter.take(block);
  return cutter.finish();
}

LogBlock hundred() {
  return rows_by_second(100, [](double at_s) { return at_s; });
}

}  // namespace

TEST_CASE("cut by times: both ends belong to a span and spans may overlap and stand in any order") {
  const CutResult result = cut({{"late", 40 * second, 60 * second, {}},
                                {"early", 10 * second, 50 * second, {}},
                                {"between", 40 * second + 1, 41 * second, {}}},
                               {hundred()});
  REQUIRE(result.stretches.size() == 3);
  CHECK(result.stretches[0].stretch.name == "late");
  CHECK(result.stretches[0].stretch.rows == 21);
  CHECK(result.stretches[0].stretch.from_us == 40 * second);
  CHECK(result.stretches[0].stretch.to_us == 60 * second);
  CHECK(result.stretches[0].place.line == 42);
  CHECK(result.stretches[1].stretch.rows == 41);
  CHECK(result.stretches[2].stretch.rows == 1);
  CHECK(result.remarks.beyond.empty());
}

TEST_CASE("cut by times: rows of one time at an end all belong whatever the blocks") {
  const LogBlock rows =
      log_rows({{0, 1}, {1, 2}, {1, 3}, {1, 4}, {2, 5}, {3, 6}, {3, 7}, {3, 8}, {4, 9}});
  for (std::size_t a = 0; a <= rows.rows(); ++a) {
    for (std::size_t b = a; b <= rows.rows(); ++b) {
      CAPTURE(a, b);
      const CutResult result = cut({{"x", second, 3 * second, {}}}, split_at(rows, {a, b}));
      REQUIRE(result.stretches.size() == 1);
      CHECK(result.stretches[0].stretch.rows == 7);
      CHECK(result.stretches[0].stretch.power.mean == 5.0);
      CHECK(result.stretches[0].place.line == 3);
    }
  }
}

TEST_CASE("cut by times: a span without rows is remarked on and gives no stretch") {
  const CutResult result = cut({{"before the log", -90 * second, -30 * second, {}},
                                {"in it", 20 * second, 30 * second, {}},
                                {"after it", 200 * second, 300 * second, {}},
                                {"between rows", 20 * second + 1, 20 * second + 2, {}}},
                               {hundred()});
  CHECK(result.stretches.size() == 1);
  REQUIRE(result.remarks.without_rows.size() == 3);
  CHECK(result.remarks.without_rows[0].name == "before the log");
  CHECK(result.remarks.without_rows[2].name == "between rows");
  CHECK(cut({{"x", 0, second, {}}}, {}).remarks.without_rows.size() == 1);
}

TEST_CASE("cut by times: a span that reaches beyond the log by more than a gap is remarked on") {
  const CutResult result = cut({{"near", -10 * second, 109 * second, {}},
                                {"early", -11 * second, 50 * second, {}},
                                {"both", -20 * second, 130 * second, {}}},
                               {hundred()});
  CHECK(result.stretches.size() == 3);
  REQUIRE(result.remarks.beyond.size() == 2);
  CHECK(result.remarks.beyond[0].span.name == "early");
  CHECK(result.remarks.beyond[0].before_s == 11.0);
  CHECK(result.remarks.beyond[0].after_s == 0.0);
  CHECK(result.remarks.beyond[1].before_s == 20.0);
  CHECK(result.remarks.beyond[1].after_s == 31.0);
}
