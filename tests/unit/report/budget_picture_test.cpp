#include <cmath>

#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/report/pictures.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/judged_power.hpp"
#include "support/markup.hpp"
#include "support/picture_boxes.hpp"
#include "support/real_files.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure demo_figure() {
  const Test test = read_record("protocols/demo/rigid-withstood.yaml");
  const Assessment assessment = assess(test);
  const auto figure = budget_picture({&test, &assessment}, assessment.power.front());
  REQUIRE(figure);
  return *figure;
}

/// Widths of the bars in order.
std::vector<double> bars(const std::string& svg) {
  std::vector<double> widths;
  for (const markup::Element& e : markup::read(svg)) {
    if (e.name == "rect" && e.attributes.contains("x"))
      widths.push_back(std::stod(e.attributes.at("width")));
  }
  return widths;
}

}  // namespace

TEST_CASE("budget_picture: byte for byte as it was looked at") {
  check_golden("budget-control", demo_figure().svg);
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("budget_picture: write the picture to look at", "[.][write-golden]") {
  write_golden("budget-control", demo_figure().svg);
}

TEST_CASE("budget_picture: largest first and the last is the root of the sum of squares") {
  const Figure figure = demo_figure();
  const std::vector<double> widths = bars(figure.svg);
  REQUIRE(widths.size() >= 4);
  double squares = 0.0;
  for (std::size_t i = 0; i + 1 < widths.size(); ++i) {
    if (i > 0) CHECK(widths[i] <= widths[i - 1]);
    squares += widths[i] * widths[i];
  }
  // What is too small for a bar is missing in the sum.
  CHECK_THAT(std::sqrt(squares), WithinRel(widths.back(), 0.01));
  check_ink(figure.svg);
  CHECK(figure.id == "budget-after");
  CHECK_THAT(figure.description, Contains("scatter of the set-ups, observed: 0.45 points, 38 %") &&
                                     Contains("together: 0.72 points, 100 %"));
  check_texts_apart(figure.svg);
}

TEST_CASE("budget_picture: nothing to draw without a budget") {
  const Test none = TestBuilder().setups(1, 1).build();
  CHECK_FALSE(budget_picture({&none, nullptr}, judged(none)));
  const Test some = TestBuilder().build();
  CHECK(budget_picture({&some, nullptr}, judged(some), "-3")->id == "budget-after-3");
}

TEST_CASE("budget_picture: labels of any length and sizes from tiny to huge") {
  const Test test = TestBuilder().build();
  PowerResult power = judged(test);
  for (const double size : {1e-7, 1e-3, 0.5, 1e4}) {
    power.budget.clear();
    for (int i = 1; i <= 40; ++i) {
      BudgetRow row;
      row.input.label = i % 2 == 0 ? "x" + std::to_string(i)
                                   : std::to_string(i) + " <b>\"a label\"</b> & of a tool that its "
                                                         "owner has described at length";
      row.input.standard_u = size / i;
      row.sensitivity = 1.0;
      power.budget.push_back(row);
    }
    power.estimate.u_lambda = combine(power.budget).standard_u;
    const auto figure = budget_picture({&test, nullptr}, power);
    REQUIRE(figure);
    CAPTURE(size);
    check_texts_apart(figure->svg);
    CHECK_THAT(figure->svg, !Contains("<b>"));
    CHECK(bars(figure->svg).back() <= 500.0);
  }
}
