#include "logs/log_cutter.hpp"

#include "support/catch.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

std::vector<std::string> names(LogCut::Kind kind) {
  LogBlock rows = rows_by_second(400, [](double at_s) { return at_s < 200 ? 0.0 : 30.0; });
  rows.markers = {{10, "marked"}};
  LogQuestion question;
  question.rules.longest_gap = Time::from_si(10.0);
  question.cut.kind = kind;
  question.cut.spans = {{"timed", 5'000'000, 50'000'000, {}}};
  detail::LogCutter cutter(question);
  cutter.take(rows);
  std::vector<std::string> all;
  for (const detail::CutStretch& cut : cutter.finish().stretches)
    all.push_back(cut.stretch.name);
  return all;
}

}  // namespace

TEST_CASE("cutter: it cuts in the way that is asked for") {
  CHECK(names(LogCut::Kind::whole).empty());
  CHECK(names(LogCut::Kind::times) == std::vector<std::string>{"timed"});
  CHECK(names(LogCut::Kind::markers) == std::vector<std::string>{"marked"});
  CHECK(names(LogCut::Kind::plateaus) == std::vector<std::string>{"1"});
}
