#include "support/catch.hpp"
#include "support/json_report.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using hailwright::testing::BitByBit;
using hailwright::testing::demo_names;
using hailwright::testing::few_trials;
using hailwright::testing::json_of;
using hailwright::testing::written_demo;
using hailwright::testing::WrittenUp;
using Json = nlohmann::ordered_json;

namespace {

void hold_check(BitByBit& bits, const Json& j, const MonteCarloCheck& c) {
  CHECK(j.at("trials") == c.trials);
  CHECK(j.at("seed") == std::to_string(c.seed));
  bits.number(j.at("median"), c.median.si());
  bits.number(j.at("mean"), c.mean);
  bits.number(j.at("standard_deviation"), c.standard_u);
  bits.number(j.at("interval").at("low"), c.low.si());
  bits.number(j.at("interval").at("high"), c.high.si());
  REQUIRE(c.shortest.has_value());
  bits.number(j.at("shortest_interval").at("low"), c.shortest->first.si());
  bits.number(j.at("shortest_interval").at("high"), c.shortest->second.si());
  bits.number(j.at("above_zero"), c.above_zero);
  bits.number(j.at("above_limit"), c.above_limit);
  bits.count(j.at("agreed_digits"), c.agreed_digits);
}

void hold_settling(BitByBit& bits, const Json& j, const Settling& s) {
  const auto count = [&](const char* key, const std::optional<int>& n) {
    REQUIRE(j.at(key).is_null() == !n.has_value());
    if (n) bits.count(j.at(key), *n);
  };
  count("as_estimated", s.as_estimated);
  count("nearer", s.nearer);
  count("further", s.further);
  bits.number(j.at("chance"), s.chance);
  bits.number(j.at("floor"), s.floor.si());
  bits.number(j.at("margin"), s.margin.si());
  bits.number(j.at("risk"), s.alpha);
}

void hold_set_ups(BitByBit& bits, const Json& j, const std::vector<SetupValue>& block) {
  REQUIRE(j.size() == block.size());
  for (std::size_t i = 0; i < block.size(); ++i) {
    bits.number(j[i].at("mean"), block[i].q);
    bits.count(j[i].at("readings"), block[i].readings);
    bits.number(j[i].at("reading_sd"), block[i].reading_sd);
    bits.number(j[i].at("drift_per_hour"), block[i].drift_per_hour);
  }
}

void hold_model(BitByBit& bits, const Json& j, const PowerModel& m) {
  hold_set_ups(bits, j.at("before"), m.from);
  hold_set_ups(bits, j.at("after"), m.to);
  hold_set_ups(bits, j.at("baseline"), m.baseline);
  bits.count(j.at("units_before"), m.units_from);
  bits.count(j.at("units_after"), m.units_to);
  bits.count(j.at("units_baseline"), m.units_baseline);
  bits.number(j.at("scatter"), m.pooled_sd);
  bits.freedom(j.at("scatter_degrees_of_freedom"), m.observed_dof);
  bits.number(j.at("variance_ratio"), m.variance_ratio_p);
  REQUIRE(j.at("siblings").is_null() == !m.siblings.has_value());
  if (m.siblings) {
    bits.number(j.at("siblings").at("sd"), m.siblings->sd);
    for (std::size_t i = 0; i < m.siblings->units.size(); ++i)
      bits.number(j.at("siblings").at("units").at(i).at("mean"), m.siblings->units[i].q);
  }
  REQUIRE(j.at("terms").size() == m.terms.size());
  for (std::size_t i = 0; i < m.terms.size(); ++i) {
    bits.number(j.at("terms")[i].at("weight"), m.terms[i].weight);
    CHECK(j.at("terms")[i].at("reading") == m.terms[i].index + 1);
  }
}

void hold_budget(BitByBit& bits, const Json& j, const std::vector<BudgetRow>& budget) {
  REQUIRE(j.at("rows").size() == budget.size());
  for (std::size_t i = 0; i < budget.size(); ++i) {
    const Json& row = j.at("rows")[i];
    CHECK(row.at("id") == budget[i].input.id);
    bits.number(row.at("standard_uncertainty"), budget[i].input.standard_u);
    bits.freedom(row.at("degrees_of_freedom"), budget[i].input.degrees_of_freedom);
    bits.number(row.at("sensitivity"), budget[i].sensitivity);
    bits.number(row.at("contribution"), budget[i].contribution());
  }
}

void hold_power(BitByBit& bits, const Json& power, const PowerResult& p) {
  REQUIRE(power.at("result").is_null() == !p.estimated());
  if (!p.estimated()) return;
  const Json& j = power.at("result");
  bits.loss(j.at("estimate"), p.estimate);
  bits.loss(j.at("with_skipped"), p.with_skipped);
  bits.loss(j.at("without_outlying"), p.without_outlying);
  bits.number(j.at("limit"), p.limit.si());
  if (p.before) {
    bits.number(j.at("in_watts").at("before"), p.before->power.si());
    bits.number(j.at("in_watts").at("before_relative_uncertainty"), p.before->relative_u.si());
  }
  const Json& shown = j.at("could_be_seen");
  bits.number(shown.at("chance"), p.see_chance.si());
  bits.number(shown.at("smallest_loss"), p.smallest_shown.si());
  bits.number(shown.at("called_a_drop_above"), p.estimate.real_above().si());
  if (p.smallest_shown_range) {
    bits.number(shown.at("range").at("low"), p.smallest_shown_range->first.si());
    bits.number(shown.at("range").at("high"), p.smallest_shown_range->second.si());
  }
  bits.count(j.at("skipped_readings"), p.skipped);
  bits.count(j.at("counts").at("looks_counted"), p.looks_counted);
  REQUIRE(j.at("baseline").is_null() == !p.baseline.has_value());
  if (p.baseline) bits.loss(j.at("baseline").at("change"), p.baseline->change);
  REQUIRE(j.at("check").is_null() == !p.check.has_value());
  if (p.check) hold_check(bits, j.at("check"), *p.check);
  REQUIRE(j.at("settling").is_null() == !p.settling.has_value());
  if (p.settling) hold_settling(bits, j.at("settling"), *p.settling);
  hold_model(bits, j.at("comparison"), *p.model);
  hold_budget(bits, j.at("budget"), p.budget);
  REQUIRE(power.at("notes").size() == p.notes.size());
  for (std::size_t i = 0; i < p.notes.size(); ++i) {
    const Json& numbers = power.at("notes")[i].at("numbers");
    REQUIRE(numbers.size() == p.notes[i].numbers.size());
    for (std::size_t n = 0; n < numbers.size(); ++n)
      bits.number(numbers[n], p.notes[i].numbers[n]);
  }
}

}  // namespace

TEST_CASE("report json: every number of a comparison of the demo reads back bit by bit") {
  BitByBit bits;
  for (const std::string& name : demo_names()) {
    CAPTURE(name);
    const WrittenUp written = written_demo({name}, few_trials());
    const Assessment& a = written.assessment();
    const Json record = json_of(written.write_up).at("records").at(0);
    REQUIRE(record.at("power").size() == a.power.size());
    for (std::size_t i = 0; i < a.power.size(); ++i)
      hold_power(bits, record.at("power")[i], a.power[i]);
    REQUIRE(record.at("later_power").size() == a.later_power.size());
    for (std::size_t i = 0; i < a.later_power.size(); ++i)
      hold_power(bits, record.at("later_power")[i], a.later_power[i]);
  }
  CHECK(bits.numbers > 1000);
  CHECK(bits.differing == 0);
}
