#include "report/report_rows.hpp"

#include <algorithm>
#include <cmath>

#include "support/catch.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::TestBuilder;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;

namespace {

/// Sum of weight times q over the readings of a record.
double weighed(const ReportRows& rows, std::size_t record, std::size_t stage) {
  double sum = 0.0;
  for (const ReadingRow& row : rows.readings) {
    if (row.record == record) sum += row.weights[stage].value_or(0.0) * row.q.value_or(0.0);
  }
  return sum;
}

std::size_t stage_named(const ReportRows& rows, const std::string& stage) {
  const auto found = std::find(rows.stages.begin(), rows.stages.end(), stage);
  REQUIRE(found != rows.stages.end());
  return static_cast<std::size_t>(found - rows.stages.begin());
}

}  // namespace

TEST_CASE("report_rows: every reading has a row, those of one set-up together") {
  const WrittenUp written = written_demo();
  const ReportRows rows = report_rows(written.write_up);
  std::size_t readings = 0;
  for (const Judged& judged : written.write_up.judged)
    readings += judged.test->record.readings.size();
  CHECK(rows.readings.size() == readings);
  std::size_t covered = 0;
  for (const SetupRow& setup : rows.setups) {
    const Record& record = written.test(setup.record).record;
    for (std::size_t i = setup.first; i < setup.first + setup.count; ++i) {
      CHECK(rows.readings[i].record == setup.record);
      CHECK(record.readings[rows.readings[i].reading].setup == setup.setup);
    }
    covered += setup.count;
  }
  CHECK(covered == readings);
}

TEST_CASE("report_rows: weights times q make lambda and the power before of every demo record") {
  const WrittenUp written = written_demo();
  const ReportRows rows = report_rows(written.write_up);
  int compared = 0;
  for (const StageRow& row : rows.comparisons) {
    if (row.power == nullptr || !row.power->estimated()) continue;
    ++compared;
    const std::size_t stage = stage_named(rows, "after");
    CHECK_THAT(weighed(rows, row.record, stage), WithinAbs(row.power->estimate.lambda, 1e-12));
    if (!row.power->before) continue;
    double q = 0.0;
    for (std::size_t i = row.first; i < row.first + row.count; ++i)
      q += rows.readings[i].weight_in_power.value_or(0.0) * rows.readings[i].q.value_or(0.0);
    CHECK_THAT(std::exp(q), WithinRel(row.power->before->power.si(), 1e-12));
  }
  CHECK(compared >= 6);
}

TEST_CASE("report_rows: weights in a set-up make the value that the comparison has") {
  const WrittenUp written = written_demo();
  const ReportRows rows = report_rows(written.write_up);
  for (const SetupRow& setup : rows.setups) {
    CAPTURE(written.test(setup.record).record.title, setup.setup, setup.value_of);
    REQUIRE(setup.value);
    REQUIRE(setup.weights.size() == setup.count);
    double q = 0.0;
    for (std::size_t i = 0; i < setup.count; ++i)
      q += setup.weights[i].value_or(0.0) * rows.readings[setup.first + i].q.value_or(0.0);
    CHECK_THAT(q, WithinAbs(setup.value->q, 1e-12));
    const Assessment& a = written.assessment(setup.record);
    if (!a.power[0].estimated()) continue;
    const PowerModel& model = *a.power[0].model;
    const bool known = [&] {
      for (const auto* block : {&model.from, &model.to, &model.baseline}) {
        for (const SetupValue& value : *block) {
          if (value.setup == setup.setup && value.q == setup.value->q) return true;
        }
      }
      return false;
    }();
    CHECK(known);
  }
}

TEST_CASE("report_rows: siblings have a row for each panel of a set-up") {
  const WrittenUp written(TestBuilder().siblings(4, 0.01).build());
  const ReportRows rows = report_rows(written.write_up);
  REQUIRE(rows.setups.size() >= 5);
  CHECK(rows.setups[0].value_of == "panel");
  CHECK(rows.setups[1].value_of.starts_with("unit "));
  CHECK(rows.setups[0].first + rows.setups[0].count == rows.setups[1].first);
}

TEST_CASE("report_rows: a reading that was not taken or left out has no weight") {
  Test test = TestBuilder().build();
  test.record.readings[0].skip = "cloud";
  test.record.readings[2].measured = false;
  test.record.readings[2].skip = "fell over";
  const WrittenUp written(test);
  const ReportRows rows = report_rows(written.write_up);
  CHECK(rows.readings[0].q);
  CHECK_FALSE(rows.readings[2].q);
  for (const std::size_t i : {0U, 2U}) {
    CHECK_FALSE(rows.readings[i].weights[0]);
    CHECK_FALSE(rows.readings[i].weight_in_power);
  }
}

TEST_CASE("report_rows: a record without readings has a row of its own") {
  TestBuilder b;
  Test test = b.build();
  test.record.readings.clear();
  test.record.setups.clear();
  const WrittenUp written(test);
  const ReportRows rows = report_rows(written.write_up);
  CHECK(rows.readings.empty());
  CHECK(rows.setups.empty());
  REQUIRE(rows.comparisons.size() == 1);
  CHECK(rows.comparisons[0].count == 0);
}
