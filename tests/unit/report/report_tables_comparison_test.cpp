// budget_table and comparison_table.
#include <cmath>
#include <limits>

#include "hailwright/evaluate/price.hpp"
#include "report/report_tables.hpp"
#include "support/catch.hpp"
#include "support/table_cells.hpp"
#include "support/test_builder.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

DataTable comparison(const WrittenUp& written) {
  return comparison_table(written.write_up, report_rows(written.write_up));
}

}  // namespace

TEST_CASE("budget_table: contributions make the uncertainty of the loss, largest first") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = budget_table(written.write_up);
  const PowerResult& p = written.assessment().power[0];
  REQUIRE(table.rows.size() == p.budget.size());
  double squares = 0.0;
  double shares = 0.0;
  double last = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const double part = number_of(table, "contribution", i);
    CHECK(part <= last);
    last = part;
    squares += part * part;
    shares += number_of(table, "share of the variance", i);
    CHECK_THAT(
        part, WithinAbs(100.0 * std::exp(p.estimate.lambda) *
                            std::abs(number_of(table, "u", i) * number_of(table, "sensitivity", i)),
                        1e-12));
  }
  CHECK_THAT(std::sqrt(squares), WithinRel(100.0 * p.estimate.u_loss().si(), 1e-9));
  CHECK_THAT(shares, WithinAbs(100.0, 1e-9));
}

TEST_CASE("budget_table: units of inputs are those of the formula and unlimited freedom is blank") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = budget_table(written.write_up);
  const auto unit = [&](const std::string& input) -> std::string {
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
      if (words_of(table, "input", i) == input) return words_of(table, "unit of u", i);
    }
    return "no such input";
  };
  CHECK(unit("temperature coefficient") == "1/K");
  CHECK(unit("cell above back") == "K");
  CHECK(unit("power meter, digits") == "W");
  CHECK(unit("sun meter, gain") == "1");
  CHECK(unit("scatter of the set-ups, observed") == "1");
  CHECK(is_blank(table, "degrees of freedom", 0));
  CHECK(number_of(table, "degrees of freedom", 1) == 6.0);
}

TEST_CASE("comparison_table: a row a record and stage, with the judgement's own numbers") {
  const WrittenUp written = written_demo();
  const DataTable table = comparison(written);
  REQUIRE(table.rows.size() == hailwright::testing::demo_names().size());
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    CAPTURE(written.test(i).record.title);
    const PowerResult& p = written.assessment(i).power[0];
    CHECK(words_of(table, "record", i) == written.test(i).record.title);
    CHECK(words_of(table, "stage", i) == "after");
    CHECK_FALSE(words_of(table, "verdict", i).empty());
    if (!p.estimated()) {
      for (const char* title : {"lambda", "loss", "loss, low", "limit", "smallest loss shown"})
        CHECK(is_blank(table, title, i));
      CHECK_FALSE(words_of(table, "remark", i).empty());
      continue;
    }
    CHECK(number_of(table, "loss", i) == 100.0 * p.estimate.loss().si());
    CHECK(number_of(table, "loss, low", i) == 100.0 * p.estimate.low().si());
    CHECK(number_of(table, "loss, high", i) == 100.0 * p.estimate.high().si());
    CHECK(number_of(table, "limit", i) == 100.0 * p.limit.si());
    CHECK(is_blank(table, "smallest loss shown", i) != p.usable());
    CHECK(words_of(table, "probability above the limit", i).empty() != p.usable());
  }
}

TEST_CASE("comparison_table: the price is per measured watt") {
  const WrittenUp written = written_demo({"rigid-withstood"});
  const DataTable table = comparison(written);
  const auto price = price_per_watt(written.test());
  REQUIRE(price);
  CHECK(number_of(table, "price", 0) == 89.0);
  CHECK(words_of(table, "currency", 0) == "EUR");
  CHECK(number_of(table, "price per measured watt", 0) == price->value);
  CHECK_THAT(number_of(table, "u of the price per watt", 0),
             WithinRel(price->value * price->relative_u.si(), 1e-12));
  Test without = written.test();
  without.record.panel.price.reset();
  const WrittenUp unpriced({without});
  for (const char* title : {"price", "price per measured watt", "u of the price per watt"})
    CHECK(is_blank(comparison(unpriced), title, 0));
  CHECK_FALSE(is_blank(comparison(unpriced), "measured power before", 0));
}

TEST_CASE("comparison_table: a record whose power was not compared says so") {
  Test test = TestBuilder().build();
  test.record.readings.clear();
  test.record.setups.clear();
  const WrittenUp written(test);
  const DataTable table = comparison(written);
  REQUIRE(table.rows.size() == 1);
  CHECK_FALSE(words_of(table, "remark", 0).empty());
}
