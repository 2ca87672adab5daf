#include "hailwright/logs/log_pairing.hpp"

#include <cmath>

#include "hailwright/logs/log_analysis.hpp"
#include "support/catch.hpp"
#include "support/cloudy_day.hpp"
#include "support/log_rows.hpp"

using namespace hailwright;
using namespace hailwright::testing;

namespace {

const Time second = Time::from_si(1.0);
const Time gap = Time::from_si(10.0);

std::vector<LogBlock> paired(std::vector<LogBlock> first, std::vector<LogBlock> second_log,
                             Time offset) {
  LogPairing pairing(blocks_in_turn(std::move(first)), blocks_in_turn(std::move(second_log)),
                     offset, gap);
  std::vector<LogBlock> all;
  LogBlock block;
  while (pairing.next(block))
    all.push_back(block);
  return all;
}

RatioMean ratio_of(const TwoLogs& logs, Time offset) {
  LogQuestion question;
  question.rules.longest_gap = gap;
  LogAnalysis analysis(question);
  for (const LogBlock& block : paired({logs.first}, {logs.second}, offset))
    analysis.take(block);
  Diagnostics notes;
  const LogFindings findings = analysis.finish(notes);
  REQUIRE(findings.whole.beside);
  return *findings.whole.beside;
}

/// How many standard uncertainties of its scatter a ratio is from the truth.
double from_truth(const RatioMean& found, const CloudyDay& day) {
  return std::log(found.ratio / day.logged_ratio()) / found.windows.standard_u().value();
}

}  // namespace

TEST_CASE("pairing: the second log's cells at the first one's times") {
  LogBlock first = rows_by_second(6, [](double at_s) { return 10.0 * at_s; });
  LogBlock second_log = log_rows({{-6, 1}, {-4, 3}, {-3, 4}, {-1, 8}});
  add_column(second_log, LogRole::temperature, [](double at_s) { return 300.0 + at_s; });
  const std::vector<LogBlock> blocks = paired({first}, {second_log}, Time::from_si(7.0));
  REQUIRE(blocks.size() == 1);
  const std::vector<double>& power = blocks[0].column(LogRole::power_beside);
  REQUIRE(power.size() == 6);
  CHECK(std::isnan(power[0]));
  CHECK(power[1] == 1.0);
  CHECK(power[2] == 2.0);
  CHECK(power[3] == 3.0);
  CHECK(power[4] == 4.0);
  CHECK(power[5] == 6.0);
  CHECK(blocks[0].column(LogRole::temperature_beside)[5] == 298.0);
  CHECK(blocks[0].column(LogRole::power)[5] == 50.0);
}

TEST_CASE("pairing: no column of temperature comes of a log without one") {
  const LogBlock rows = rows_by_second(6, [](double at_s) { return at_s; });
  CHECK(paired({rows}, {rows}, Time{})[0].column(LogRole::temperature_beside).empty());
  CHECK(paired({rows}, {rows}, Time{})[0].column(LogRole::power_beside) ==
        rows.column(LogRole::power));
}

TEST_CASE("pairing: any split of either log gives the same cells") {
  CloudyDay day;
  day.hours = 0.5;
  day.offset_s = 7.25;
  const TwoLogs logs = two_logs(day);
  const auto cells = [](const std::vector<LogBlock>& blocks) {
    std::vector<double> all;
    for (const LogBlock& block : blocks) {
      const std::vector<double>& power = block.column(LogRole::power_beside);
      for (const double cell : power)
        all.push_back(std::isnan(cell) ? -1.0 : cell);
    }
    return all;
  };
  const Time offset = Time::from_si(7.25);
  const std::vector<double> whole = cells(paired({logs.first}, {logs.second}, offset));
  CHECK(whole.size() == logs.first.rows());
  RandomStream random(6, 5);
  for (int trial = 1; trial < 20; ++trial)
    CHECK(cells(paired(split_at_random(logs.first, trial, random),
                       split_at_random(logs.second, 3 * trial, random), offset)) == whole);
}

TEST_CASE("pairing: a day of clouds gives back the ratio of two panels within its uncertainty") {
  int within = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    CloudyDay day;
    day.seed = seed;
    const double apart = from_truth(ratio_of(two_logs(day), Time{}), day);
    within += std::fabs(apart) <= 2.0 ? 1 : 0;
  }
  // 95 % of 40 is 38; fewer than 35 or none outside at all would be met by chance in 1.4 %, 13 %.
  CAPTURE(within);
  CHECK(within >= 35);
}

TEST_CASE("pairing: a clock 7 s behind is found and the ratio is as good") {
  int within = 0, offset_within = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    CloudyDay day;
    day.seed = seed;
    day.offset_s = 7.0;
    const TwoLogs logs = two_logs(day);
    const ClockOffset found =
        find_clock_offset(blocks_in_turn({logs.first}), blocks_in_turn({logs.second}),
                          Time::from_si(120.0), second, gap);
    CAPTURE(seed, found.why_not);
    REQUIRE(found.offset);
    offset_within += std::fabs(found.offset->si() - 7.0) <= 2.0 * found.standard_u.si() ? 1 : 0;
    const double apart = from_truth(ratio_of(logs, *found.offset), day);
    within += std::fabs(apart) <= 2.0 ? 1 : 0;
  }
  CAPTURE(within);
  CHECK(offset_within >= 38);
  CHECK(within >= 35);
}

TEST_CASE("pairing: a clock 7 s behind that is not corrected scatters the windows") {
  CloudyDay day;
  const double matched = ratio_of(two_logs(day), Time{}).windows.sd;
  day.offset_s = 7.0;
  CHECK(ratio_of(two_logs(day), Time{}).windows.sd > 5.0 * matched);
}
