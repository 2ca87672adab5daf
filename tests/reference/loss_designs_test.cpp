// Designs A, B and C of the project's worked numbers: invented data, status computed, by two
// implementations (numeric derivatives in R, automatic differentiation in Python) that agree to 10
// digits for lambda and 1e-9 relative for u. Read here from records, through the whole path.
#include <algorithm>
#include <cmath>
#include <utility>

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
}

struct Contribution {
  const char* id;
  double u;
};

/// The cases' numeric derivatives left up to 9e-13 of gains that cancel altogether, and 1.5e-12 in
/// B's cell above the back, which is 1.26711058e-6 in arithmetic of 40 digits: none of the
/// contributions is known better than that.
constexpr double derivative_noise = 2e-12;

void check_contributions(const PowerResult& p, std::initializer_list<Contribution> expected) {
  for (const Contribution& e : expected) {
    INFO(e.id);
    const auto row = std::find_if(p.budget.begin(), p.budget.end(),
                                  [&](const BudgetRow& r) { return r.input.id == e.id; });
    REQUIRE(row != p.budget.end());
    const double u = std::abs(row->contribution());
    if (e.u < derivative_noise) {
      CHECK(u < 1e-15);
    } else {
      CHECK_THAT(u, WithinRel(e.u, 1e-6) || WithinAbs(e.u, derivative_noise));
    }
  }
}

Shape shape_of(const PowerResult& p, const char* id) {
  return std::find_if(p.budget.begin(), p.budget.end(),
                      [&](const BudgetRow& r) { return r.input.id == id; })
      ->input.shape;
}

}  // namespace

// L_C and L_D at alpha 0.025, beta 0.1 as MEASUREMENT M4 prints them.
TEST_CASE("check design_A: same panel before and after") {
  const PowerResult p = judged("tests/reference/designs/design-a.yaml");
  check(p, {-0.07810243411155504, 0.008624761162130321, 5002.8601437992265, 0.05935937714787787,
            0.09063683764856612, 0.07513031651317048, 0.027575, 0.016766, 0.0022191565003708354});
  CHECK_THAT(p.estimate.u_loss().si(), WithinRel(0.00797678012616897, 1e-6));
  CHECK_THAT(p.estimate.probability_above(percent(5)), WithinRel(0.9990541790329615, 1e-6));
  CHECK(p.decides);
  CHECK(p.is_real());
  CHECK(p.is_beyond());
  check_contributions(p, {{"meter/gain", 8.88e-13},
                          {"meter/digits", 0.00016045665018893374},
                          {"sun/gain", 1.955642980888683e-05},
                          {"sun/offset", 8.936212347876449e-05},
                          {"thermometer/offset", 8.167754872445697e-05},
                          {"cell", 0.00013037619694955538},
                          {"coefficient", 0.0014140849815547085},
                          {"thermometer/each/before 1/struck", 0.0024082631568944635},
                          {"thermometer/each/after 1/struck", 0.002367424382754279},
                          {"setup/alignment/before 1", 0.003},
                          {"setup/alignment/after 1", 0.003},
                          {"day/before/2026-05-02", 0.004},
                          {"day/after/2026-05-02", 0.004},
                          {"setup/contact/before 1", 0.001},
                          {"setup/contact/after 1", 0.001},
                          {"stage", 0.002},
                          {"readings/before 1", 0.0015232790295128145},
                          {"readings/after 1", 0.001613777113291867}});
  CHECK(shape_of(p, "meter/digits") == Shape::rectangular);
  CHECK(shape_of(p, "setup/alignment/before 1") == Shape::normal);
}

TEST_CASE("check design_B: with an unstruck control beside it") {
  const PowerResult p = judged("tests/reference/designs/design-b.yaml");
  check(p, {-0.02753177826086972, 0.003714329714486761, 483.6092432397557, 0.020030235953743425,
            0.03423041272881644, 0.027156233220774317, 0.011992, 0.0072717, 0.0013915822001594371});
  CHECK_THAT(p.estimate.u_loss().si(), WithinRel(0.0036134625105013066, 1e-6));
  CHECK(p.decides);
  CHECK(p.is_real());
  CHECK(p.is_within());
  CHECK_THAT(p.estimate.probability_above(percent(5)), WithinRel(1.8692859859356498e-10, 1e-3));
  check_contributions(p, {{"meter/gain", 4.44e-13},
                          {"meter/digits", 4.137804809900558e-05},
                          {"sun/gain", 1.9006618501293812e-07},
                          {"sun/offset", 1.5213608151043445e-08},
                          {"thermometer/offset/struck", 4.691980404203377e-05},
                          {"thermometer/offset/control", 4.52294997010938e-05},
                          {"cell", 1.267109084324147e-06},
                          {"coefficient", 5.852852913434959e-05},
                          {"thermometer/each/before 1/struck", 0.0011940966784251827},
                          {"thermometer/each/after 1/struck", 0.0011706367764041656},
                          {"thermometer/each/before 1/control", 0.0011953353742377715},
                          {"thermometer/each/after 1/control", 0.0011727206241651798},
                          {"setup/alignment/before 1", 0.001},
                          {"setup/alignment/after 1", 0.001},
                          {"setup/contact/before 1", 0.001},
                          {"setup/contact/after 1", 0.001},
                          {"stage", 0.0015},
                          {"readings/before 1", 0.0005521989097965168},
                          {"readings/after 1", 0.0012773321352804517}});
}

TEST_CASE("check design_C: against an unstruck panel of the same model") {
  const PowerResult p = judged("tests/reference/designs/design-c.yaml");
  check(p, {-0.08404374521505886, 0.024786705202819552, 3387599.452934778, 0.03484124513888942,
            0.12420638232617298, 0.08060896374318594, 0.077203, 0.047420, 0.001000705796553465});
  CHECK_THAT(p.estimate.u_loss().si(), WithinRel(0.022788674581812433, 1e-6));
  CHECK_THAT(p.estimate.probability_above(percent(5)), WithinRel(0.9067977806937789, 1e-6));
  check_contributions(p, {{"meter/gain", 4.44e-13},
                          {"meter/digits", 0.0001270287031118755},
                          {"sun/gain", 2.3504087565129336e-07},
                          {"sun/offset", 1.6704415628510105e-08},
                          {"thermometer/offset/struck", 0.002382249665977554},
                          {"thermometer/offset/U", 0.002384105709296591},
                          {"cell", 1.5669407993357252e-06},
                          {"coefficient", 6.42673616546574e-05},
                          {"setup/alignment/after 1", 0.001},
                          {"setup/contact/after 1", 0.001},
                          {"unit/struck", 0.017320508077421637},
                          {"unit/U", 0.017320508077421637},
                          {"readings/after 1", 0.001000705796553465}});
  CHECK(shape_of(p, "unit/U") == Shape::rectangular);
  // The spread of the units is the maker's word: an interval, and no decision (MEASUREMENT M2).
  REQUIRE(p.model->siblings.has_value());
  CHECK(p.model->siblings->assumed);
  CHECK_FALSE(p.decides);
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

// Whether the instruments were the same is a fact of the record: where nobody says so, the stage
// after the shots had others, and design A would tell as little as above.
TEST_CASE("design A: instruments of which nobody says that they were the same do not cancel") {
  Test test = read_record("tests/reference/designs/design-a.yaml");
  test.record.conditions.same_tools.reset();
  Assumptions assumptions;
  const PowerResult p = judge_power(test, {StageKind::after, 0}, assumptions);
  REQUIRE(p.estimated());
  CHECK_THAT(p.estimate.lambda, WithinAbs(-0.07810243411155504, 1e-12));
  CHECK(p.estimate.u_lambda > 0.042);
  CHECK(p.estimate.u_lambda < 0.043328332034128975);
}

TEST_CASE("designs A, B and C get their words") {
  const auto word_of = [](const char* record) {
    return assess(read_record(record)).verdicts[0].word;
  };
  CHECK(word_of("tests/reference/designs/design-a.yaml") == Word::damaged);
  CHECK(word_of("tests/reference/designs/design-b.yaml") == Word::withstood);
  CHECK(word_of("tests/reference/designs/design-c.yaml") == Word::undecided);
}
