#include <cmath>

#include "support/catch.hpp"
#include "support/curve_readings.hpp"
#include "support/json_report.hpp"
#include "support/written_up.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

WrittenUp with_curves() {
  Test test = TestBuilder().build();
  test.record.panel.substrings = 3;
  test.record.curves = drawn_curves(CurvePattern::substring_gone, 0.45, 3);
  test.record.curves->after[0].short_circuit.reset();
  return WrittenUp(test);
}

}  // namespace

TEST_CASE("report json: null without figures of the curve") {
  const auto j = json_of(WrittenUp(TestBuilder()).write_up);
  CHECK(j.at("records").at(0).at("loss_pattern").is_null());
}

TEST_CASE("report json: the pattern bit for bit") {
  const WrittenUp written = with_curves();
  const LossPattern& p = *written.assessment().pattern;
  const auto report = json_of(written.write_up);
  const auto& j = report.at("records").at(0).at("loss_pattern");
  BitByBit bits;
  REQUIRE(j.at("changes").size() == p.changes.size());
  for (std::size_t i = 0; i < p.changes.size(); ++i) {
    const auto& change = j.at("changes").at(i);
    bits.number(change.at("log_change"), p.changes[i].log_change);
    bits.same(change.at("log_change").at("standard_uncertainty"), p.changes[i].standard_u);
    bits.freedom(change.at("log_change").at("degrees_of_freedom"), p.changes[i].degrees_of_freedom);
    bits.number(change.at("interval").at("low"), p.changes[i].low.si());
    bits.number(change.at("interval").at("high"), p.changes[i].high.si());
    bits.count(change.at("readings_after"), p.changes[i].after);
  }
  REQUIRE(j.at("fits").size() == p.fits.size());
  for (std::size_t i = 0; i < p.fits.size(); ++i) {
    const auto& fit = j.at("fits").at(i);
    bits.number(fit.at("misfit"), p.fits[i].misfit);
    CHECK(fit.at("size").is_null() == !p.fits[i].pattern);
    CHECK(fit.at("fits") == p.fits[i].fits);
  }
  bits.number(j.at("maximum_power").at("log_change"), p.power->log_change);
  CHECK(j.at("word") == "named");
  CHECK(j.at("named").at(0) == "one substring gone");
  CHECK(j.at("readings_after").at(0).at("short_current").is_null());
  CHECK(j.at("inputs").size() == p.inputs.size());
  CHECK(bits.differing == 0);
  CHECK(bits.numbers > 30);
}
