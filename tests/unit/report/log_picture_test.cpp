#include <cmath>
#include <random>

#include "hailwright/report/compose_readings.hpp"
#include "support/catch.hpp"
#include "support/golden_picture.hpp"
#include "support/log_answers.hpp"
#include "support/picture_boxes.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

Figure drawn(const LogFindings& f) {
  return log_picture("log", "Course of day.csv", f, "+02:00");
}

std::string pair_svg() {
  return drawn(pair_answer().findings).svg;
}

LogFindings random_log(std::mt19937& random) {
  const auto pick = [&](int low, int high) {
    return std::uniform_int_distribution<int>(low, high)(random);
  };
  LogFindings f;
  const int n = pick(1, 1024);
  f.trace.from_us = morning_us + pick(0, 86400) * 1'000'000LL;
  f.trace.step_s = std::pow(10.0, pick(0, 4));
  f.usual_step_s = f.trace.step_s;
  const bool sun = pick(0, 3) > 0, beside = pick(0, 1) > 0, power = pick(0, 3) > 0 || !sun;
  const double nan = std::nan("");
  for (int i = 0; i < n; ++i) {
    LogTrace::Point p{pick(0, 9) == 0 ? 0 : 5, nan, nan, nan, nan, nan};
    if (power) {
      p.power_mean = pick(-10, 4000) / 7.0;
      p.power_least = p.power_mean - 1.0;
      p.power_most = p.power_mean + 2.0;
    }
    if (sun) p.irradiance_mean = pick(-3, 1200);
    if (beside) p.beside_mean = pick(0, 500);
    f.trace.points.push_back(p);
  }
  const auto span = static_cast<int>(f.trace.step_s * n);
  for (int i = pick(0, 40); i > 0; --i) {
    LogStretch s;
    s.name = std::string(static_cast<std::size_t>(pick(0, 30)), 'W');
    s.rows = pick(0, 5);
    const int from = pick(0, span);
    s.from_us = f.trace.from_us + from * 1'000'000LL;
    s.to_us = s.from_us + pick(0, span - from) * 1'000'000LL;
    f.stretches.push_back(s);
  }
  f.whole.gaps = pick(0, 20);
  for (int i = std::min<int>(10, static_cast<int>(f.whole.gaps)); i > 0; --i) {
    const int from = pick(0, span);
    f.whole.longest_gaps.push_back({f.trace.from_us + from * 1'000'000LL,
                                    f.trace.from_us + pick(from, span) * 1'000'000LL, 0, 9});
  }
  return f;
}

}  // namespace

TEST_CASE("log_picture: byte for byte as it was looked at") {
  check_golden("log-two-panels", pair_svg());
}

// Not run with the others: it writes what the test above compares with.
TEST_CASE("log_picture: write the picture to look at", "[.][write-golden]") {
  write_golden("log-two-panels", pair_svg());
}

TEST_CASE("log_picture: in ink and with its words") {
  const std::string svg = pair_svg();
  check_ink(svg);
  check_texts_apart(svg);
  CHECK_THAT(picture_words(svg),
             Contains("power in W") && Contains("irradiance in W/m2") && Contains("before 1") &&
                 Contains("second panel") && Contains("a gap, which the energy leaves out") &&
                 Contains("08:00") && Contains("local time, 2026-06-14, UTC+02:00"));
}

TEST_CASE("log_picture: its description tells what it shows") {
  const std::string text = drawn(day_findings()).description;
  CHECK_THAT(text, Contains("From 2026-06-14 06:00:00 to 16:00:00 (UTC+02:00)") &&
                       Contains("1 gap left out, 10 min together") &&
                       Contains("before 2 (2026-06-14 13:00:00 to 13:11:00)"));
}

TEST_CASE("log_picture: a second panel with more power than the first lies inside the frame") {
  LogFindings f = pair_answer().findings;
  for (LogTrace::Point& p : f.trace.points)
    p.beside_mean = 1.5 * p.power_mean;
  const Figure figure = drawn(f);
  CHECK_THAT(figure.description, Contains("Power from") && Contains(" to 81.8 W.") &&
                                     Contains("Power of the second panel, in means of 1 min") &&
                                     Contains(" to 122 W."));
  CHECK_THAT(figure.description, Contains("Irradiance, in means of"));
  // 121.5 W need an axis beyond 100 W, 81.8 W alone do not.
  CHECK_THAT(picture_words(figure.svg), Contains("50 100 power in W"));
  CHECK_THAT(picture_words(pair_svg()), !Contains("100 power in W"));
}

TEST_CASE("log_picture: what is not there is not drawn") {
  LogFindings f = day_findings();
  f.stretches.clear();
  f.whole.longest_gaps.clear();
  f.whole.gaps = 0;
  for (LogTrace::Point& p : f.trace.points)
    p.irradiance_mean = std::nan("");
  const std::string words = picture_words(drawn(f).svg);
  CHECK_THAT(words, !Contains("irradiance") && !Contains("gap") && !Contains("stretch") &&
                        !Contains("second") && !Contains("steady"));
  f.trace.points.clear();
  CHECK(drawn(f).svg.empty());
}

TEST_CASE("log_picture: names of a file stay text") {
  LogFindings f = day_findings();
  f.stretches[0].name = "<b>&\"before\x1b[31m";
  const std::string svg = drawn(f).svg;
  CHECK_THAT(svg, Contains("&lt;b&gt;&amp;") && !Contains("<b>") && !Contains("\x1b"));
}

TEST_CASE("log_picture: no words on words whatever the log") {
  std::mt19937 random(4);
  for (int i = 0; i < 150; ++i) {
    CAPTURE(i);
    const Figure figure = drawn(random_log(random));
    REQUIRE_FALSE(figure.svg.empty());
    check_texts_apart(figure.svg);
    CHECK(figure.svg.size() < 200'000);
  }
}
