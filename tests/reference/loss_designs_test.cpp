// Designs A and B of the project's worked numbers: invented data, status computed, by two
// implementations (numeric derivatives in R, automatic differentiation in Python) that agree to 10
// digits for lambda and 1e-9 relative for u. Read here from records, through the whole path.
#include <algorithm>
#include <cmath>
#include <map>

#include "hailwright/evaluate/assessment.hpp"
#include "support/catch.hpp"
#include "support/real_files.hpp"

using namespace hailwright;
using hailwright::testing::read_record;

namespace {

struct Expected {
  double lambda, u, dof, low, high, loss, shown, real_above, u_type_a;
};

PowerResult judged(const char* record) {
  const Test test = read_record(record);
  Assumptions assumptions;
  return judge_power(test, {StageKind::after, 0}, assumptions);
}

void check(const PowerResult& p, const Expected& e) {
  REQUIRE(p.estimated());
  CHECK_THAT(p.estimate.lambda, WithinAbs(e.lambda, 1e-12));
  CHECK_THAT(p.estimate.u_lambda, WithinRel(e.u, 1e-6));
  CHECK_THAT(p.estimate.degrees_of_freedom, WithinRel(e.dof, 1e-6));
  CHECK_THAT(p.estimate.loss().si(), WithinRel(e.loss, 1e-6));
  CHECK_THAT(p.estimate.low().si(), WithinRel(e.low, 1e-6));
  CHECK_THAT(p.estimate.high().si(), WithinRel(e.high, 1e-6));
  CHECK_THAT(p.estimate.real_above().si(), WithinAbs(e.real_above, 5e-7));
  CHECK_THAT(p.smallest_shown.si(), WithinAbs(e.shown, 5e-7));
  CHECK_THAT(combine(p.budget, Evaluation::type_a).standard_u, WithinRel(e.u_type_a, 1e-6));
  CHECK(p.rests_on_stated);
  CHECK(p.decides);
}

double contribution(const PowerResult& p, const std::string& id) {
  for (const BudgetRow& row : p.budget) {
    if (row.input.id == id) return std::abs(row.contribution());
  }
  FAIL("no input " << id);
  return 0.0;
}

}  // namespace

// case design_A; L_C and L_D at alpha 0.025, beta 0.1 as MEASUREMENT M4 prints them.
TEST_CASE("design A: same panel before and after") {
  const PowerResult p = judged("tests/reference/designs/design-a.yaml");
  check(p, {-0.07810243411155504, 0.008624761162130321, 5002.8601437992265, 0.05935937714787787,
            0.09063683764856612, 0.07513031651317048, 0.027575, 0.016766, 0.0022191565003708354});
  CHECK_THAT(p.estimate.u_loss().si(), WithinRel(0.00797678012616897, 1e-6));
  CHECK(p.is_real());
  CHECK(p.is_beyond());
  // A gain that both stages share cancels by construction; offsets do so nearly.
  CHECK(contribution(p, "meter/gain") < 1e-15);
  CHECK_THAT(contribution(p, "meter/offset"), WithinRel(0.00016045665018893374, 1e-6));
  CHECK_THAT(contribution(p, "sun/gain"), WithinRel(1.955642980888683e-05, 1e-5));
  CHECK_THAT(contribution(p, "coefficient"), WithinRel(0.0014140849815547085, 1e-6));
  CHECK_THAT(contribution(p, "cell"), WithinRel(0.00013037619694955538, 1e-6));
  CHECK_THAT(contribution(p, "thermometer/each/before 1/struck"),
             WithinRel(0.0024082631568944635, 1e-6));
}

// case design_B.
TEST_CASE("design B: with an unstruck control beside it") {
  const PowerResult p = judged("tests/reference/designs/design-b.yaml");
  check(p, {-0.02753177826086972, 0.003714329714486761, 483.6092432397557, 0.020030235953743425,
            0.03423041272881644, 0.027156233220774317, 0.011992, 0.0072717, 0.0013915822001594371});
  CHECK(p.is_real());
  CHECK(p.is_within());
  CHECK(p.estimate.probability_above(percent(5)) < 1e-6);
  CHECK_THAT(contribution(p, "coefficient"), WithinRel(5.852852913434959e-05, 1e-6));
  CHECK_THAT(contribution(p, "thermometer/offset/struck"), WithinRel(4.691980404203377e-05, 1e-6));
}

// Why every instrument error is one input: with the shared terms taken as independent between the
// stages, u of design A would be five times too large (case u_lam_wrong, 4.33 %).
TEST_CASE("design A: shared errors taken as independent inflate u five-fold") {
  const PowerResult p = judged("tests/reference/designs/design-a.yaml");
  double variance = 0.0;
  for (const bool later : {false, true}) {
    PowerModel half = *p.model;
    std::erase_if(half.terms, [&](const PowerModel::Term& t) { return (t.weight > 0.0) != later; });
    half.scatter.clear();
    const double u = combine(half.budget()).standard_u;
    variance += u * u;
  }
  const double u_a = combine(p.budget, Evaluation::type_a).standard_u;
  CHECK_THAT(std::sqrt(variance + u_a * u_a), WithinRel(0.043328332034128975, 1e-6));
}

TEST_CASE("designs A and B get their words") {
  CHECK(assess(read_record("tests/reference/designs/design-a.yaml")).verdicts[0].word ==
        Word::damaged);
  CHECK(assess(read_record("tests/reference/designs/design-b.yaml")).verdicts[0].word ==
        Word::withstood);
}
