// readings_table and setups_table.
#include <algorithm>
#include <cmath>
#include <string_view>

#include "report/power_picture_data.hpp"
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/table_cells.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

DataTable readings(const WrittenUp& written) {
  return readings_table(written.write_up, report_rows(written.write_up));
}

DataTable setups(const WrittenUp& written) {
  return setups_table(written.write_up, report_rows(written.write_up));
}

}  // namespace

TEST_CASE("readings_table: a reading by hand") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = readings(written);
  // 09:35,before 1,1,A,71.2,790,44.0 of readings.csv; -0.38 %/K of the panel, 3 K above the back.
  CHECK(words_of(table, "set-up", 1) == "before 1");
  CHECK(words_of(table, "stage", 1) == "before");
  CHECK(words_of(table, "of", 1) == "panel");
  CHECK(words_of(table, "time", 1) == "09:35");
  CHECK(words_of(table, "date", 1) == "2026-06-14");
  CHECK(number_of(table, "round", 1) == 1.0);
  CHECK(number_of(table, "power", 1) == 71.2);
  CHECK(number_of(table, "irradiance", 1) == 790.0);
  CHECK(number_of(table, "temperature", 1) == 44.0);
  const double cell = 44.0 + 3.0 * 0.79;
  const double normalised = 71.2 / 0.79 / (1.0 - 0.0038 * (cell - 25.0));
  CHECK_THAT(number_of(table, "normalised power", 1), WithinRel(normalised, 1e-12));
  CHECK_THAT(number_of(table, "q", 1), WithinRel(std::log(normalised), 1e-12));
  const std::vector<std::string> people = to_table(table).rows[1];
  REQUIRE(people.size() >= 7);
  CHECK(people[3] == "09:35");
  CHECK(people[4] == "71.2");
  CHECK(people[6] == "44.0");
}

TEST_CASE("readings_table: what was left out and what lies apart is said") {
  Test test = TestBuilder().build();
  test.record.readings[0].skip = "cloud";
  test.record.readings[1].skip = "fell over";
  test.record.readings[1].measured = false;
  const WrittenUp written(test);
  const DataTable table = readings(written);
  CHECK(words_of(table, "remark", 0) == "left out: cloud");
  CHECK_FALSE(is_blank(table, "q", 0));
  CHECK(is_blank(table, "weight, after", 0));
  CHECK(words_of(table, "remark", 1) == "left out: fell over");
  for (const char* title : {"power", "irradiance", "temperature", "normalised power", "q"})
    CHECK(is_blank(table, title, 1));

  const WrittenUp apart = written_demo({"flexible-outlying"});
  const std::size_t outlying = apart.assessment().power[0].outlying.size();
  REQUIRE(outlying > 0);
  const DataTable flagged = readings(apart);
  std::size_t said = 0;
  for (std::size_t i = 0; i < flagged.rows.size(); ++i)
    said += words_of(flagged, "remark", i) == "lies apart; counted" ? 1U : 0U;
  CHECK(said == outlying);
}

TEST_CASE("readings_table: a column of weights for each stage") {
  const WrittenUp written(TestBuilder().second_series().stage_after(0, 0.0).build());
  const DataTable table = readings(written);
  double after_first = 0.0;
  double after = 0.0;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const double q = number_of(table, "q", i);
    const std::string first = "weight, after " + written.test().protocol.series[0].name;
    if (!is_blank(table, first, i)) after_first += number_of(table, first, i) * q;
    if (!is_blank(table, "weight, after", i)) after += number_of(table, "weight, after", i) * q;
  }
  REQUIRE(written.assessment().power.size() == 2);
  CHECK_THAT(after_first, WithinAbs(written.assessment().power[0].estimate.lambda, 1e-12));
  CHECK_THAT(after, WithinAbs(written.assessment().power[1].estimate.lambda, 1e-12));
}

TEST_CASE(
    "setups_table: values of the comparison, as a ratio beside a control and in watts alone") {
  const WrittenUp beside(TestBuilder().build());
  const DataTable ratio = setups(beside);
  REQUIRE(ratio.rows.size() == 8);
  const SetupValue& first = beside.assessment().power[0].model->from[0];
  CHECK(words_of(ratio, "of", 0) == "panel to control");
  CHECK(number_of(ratio, "readings", 0) == 3.0);
  CHECK_THAT(number_of(ratio, "mean of q", 0), WithinAbs(first.q, 1e-12));
  CHECK_THAT(number_of(ratio, "panel to control", 0), WithinRel(100.0 * std::exp(first.q), 1e-12));
  CHECK(is_blank(ratio, "normalised power", 0));

  const WrittenUp alone(TestBuilder().same_panel().build());
  const DataTable watts = setups(alone);
  CHECK(words_of(watts, "of", 0) == "panel");
  CHECK_THAT(number_of(watts, "normalised power", 0),
             WithinRel(std::exp(alone.assessment().power[0].model->from[0].q), 1e-12));
  CHECK(is_blank(watts, "panel to control", 0));
}

TEST_CASE(
    "setups_table: set-ups of a comparison that cannot be made have their means all the same") {
  const WrittenUp written = written_demo({"rigid-undecided"});
  REQUIRE_FALSE(written.assessment().power[0].estimated());
  const DataTable table = setups(written);
  REQUIRE(table.rows.size() == 2);
  const DataTable all = readings(written);
  double mean = 0.0;
  for (std::size_t i = 0; i < 6; ++i)
    mean += number_of(all, "q", i) / 6.0;
  CHECK_THAT(number_of(table, "mean of q", 0), WithinAbs(mean, 1e-12));
}

TEST_CASE("setups_table: a drift that was taken out is told") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = setups(written);
  const auto drift = written.assessment().power[0].model->from[0].drift_per_hour;
  REQUIRE(drift);
  CHECK_THAT(number_of(table, "drift", 0), WithinRel(100.0 * *drift, 1e-12));
}

TEST_CASE("setups_table: without a comparison no means are promised") {
  // Found by review: the caption spoke of means where the rows held names and dates alone.
  TestBuilder b;
  b.test.protocol.decide.judges_power = false;
  const WrittenUp looks{b};
  CHECK_THAT(setups_table(looks.write_up, report_rows(looks.write_up)).caption,
             Contains("compared with nothing") && !Contains("the mean of each"));
  const WrittenUp compared{TestBuilder()};
  CHECK_THAT(setups_table(compared.write_up, report_rows(compared.write_up)).caption,
             Contains("the mean of each"));
}

// Found by review: the normalised power of a toy panel had two digits where its readings had four.
TEST_CASE("readings_table: the normalised power has as many decimals as what was read") {
  Test test = TestBuilder().build();
  for (Reading& r : test.record.readings)
    r.power = Power::from_si(std::round(r.power.si() * 50.0) / 10'000.0);
  const WrittenUp written(test);
  const auto decimals = [](const DataTable& table, std::string_view title) {
    const auto found = std::find_if(table.columns.begin(), table.columns.end(),
                                    [&](const DataColumn& c) { return c.title == title; });
    REQUIRE(found != table.columns.end());
    return found->decimals;
  };
  const int typed = decimals(readings(written), "power");
  CHECK(typed > 2);
  CHECK(decimals(readings(written), "normalised power") == typed);
  CHECK(decimals(setups(written), "normalised power") == typed);
}

// Found by review: what the picture of the power shows stood in no table.
TEST_CASE("setups_table: each mean in per cent of the one that the loss is reckoned from") {
  for (const char* name : {"rigid-withstood", "flexible-siblings", "flexible-damaged"}) {
    CAPTURE(name);
    const WrittenUp written = written_demo({name});
    const PowerResult& p = written.assessment().power.back();
    REQUIRE(p.estimated());
    const double base = detail::view_power(written.test(), p).from_q;
    const DataTable table = setups(written);
    std::size_t told = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (is_blank(table, "mean of q", i)) continue;
      ++told;
      CHECK_THAT(number_of(table, "of the mean before", i),
                 WithinRel(100.0 * std::exp(number_of(table, "mean of q", i) - base), 1e-12));
    }
    CHECK(told > 3);
  }
  const WrittenUp none = written_demo({"rigid-undecided"});
  CHECK(is_blank(setups(none), "of the mean before", 0));
}
