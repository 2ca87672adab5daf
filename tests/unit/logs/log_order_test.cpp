#include "logs/log_order.hpp"

#include <string>
#include <vector>

#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::detail;

namespace {

constexpr std::int64_t minute = 60'000'000;

/// A block of rows at these local minutes behind a time, and the text it could come from.
struct Rows {
  LogBlock block;
  std::string text;
  explicit Rows(const std::vector<std::int64_t>& times_us, std::int64_t first_line = 1) {
    for (std::size_t i = 0; i < times_us.size(); ++i) {
      block.time_us.push_back(times_us[i]);
      block.line.push_back(static_cast<std::uint32_t>(i));
      block.values[index_of(LogRole::power)].push_back(static_cast<double>(i));
      text += "stamp " + std::to_string(i) + ",1,2,x\n";
    }
    block.lines = static_cast<std::uint32_t>(times_us.size());
    block.first_line = first_line;
  }
};

std::vector<std::string> codes(const LogBlock& block) {
  std::vector<std::string> found;
  for (const LogProblem& problem : block.problems)
    found.push_back(std::string(problem.code) + "@" + std::to_string(problem.line));
  return found;
}

using Codes = std::vector<std::string>;
using Times = std::vector<std::int64_t>;

LogOrder berlin() {
  LogOrder order("Europe/Berlin");
  order.begin_file(test::small_shape(), "day.csv", TimeZone::find("Europe/Berlin"));
  return order;
}

// Clock changes of Europe/Berlin in 2026, from `zdump -v Europe/Berlin` (tzdata): on 29 March at
// 01:00 UTC from 02:00 to 03:00, on 25 October at 01:00 UTC from 03:00 to 02:00.
constexpr std::int64_t spring_us = 1774749600LL * 1000000;  // 2026-03-29T02:00, local
constexpr std::int64_t autumn_us = 1792893600LL * 1000000;  // 2026-10-25T02:00, local
constexpr std::int64_t hour = 60 * minute;

}  // namespace

TEST_CASE("log_order: a fixed offset is taken off every row", "[logs]") {
  LogOrder order("+02:00");
  order.begin_file(test::small_shape(), "day.csv", TimeZone::find("+02:00"));
  Rows rows({10 * hour, 11 * hour});
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us == Times{8 * hour, 9 * hour});
  CHECK(rows.block.problems.empty());
}

TEST_CASE("log_order: rows that go back are taken out, equal ones stay", "[logs]") {
  LogOrder order("UTC");
  order.begin_file(test::small_shape(), "day.csv", {});
  Rows first({1 * minute, 5 * minute});
  order.put(first.block, first.text);
  Rows rows({4 * minute, 5 * minute, 6 * minute, 3 * minute, 6 * minute, 7 * minute}, 3);
  rows.block.markers = {{0, "a"}, {3, "b"}, {5, "b"}};
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us == Times{5 * minute, 6 * minute, 6 * minute, 7 * minute});
  CHECK(rows.block.column(LogRole::power) == std::vector<double>{1, 2, 4, 5});
  CHECK(rows.block.line == std::vector<std::uint32_t>{1, 2, 4, 5});
  CHECK(codes(rows.block) == Codes{"L14@0", "L20@1", "L14@3", "L20@4"});
  CHECK(order.out_of_order() == 2);
  CHECK(order.same_time() == 2);
  CHECK_THAT(rows.block.problems[0].message,
             Contains("1970-01-01T00:04:00Z comes after 1970-01-01T00:05:00Z in line 2"));
  CHECK_THAT(rows.block.problems[2].message, Contains("in line 5"));
  CHECK(rows.block.problems[2].text == "stamp 3,1,2,x");
  CHECK(rows.block.problems[2].length == 7);
  // The marker of a row that was taken out comes with the next one.
  REQUIRE(rows.block.markers.size() == 2);
  CHECK(rows.block.markers[0].row == 0);
  CHECK(rows.block.markers[1].row == 2);
  CHECK(rows.block.markers[1].text == "b");
}

TEST_CASE("log_order: one stamp far ahead is pointed to", "[logs]") {
  LogOrder order("UTC");
  order.begin_file(test::small_shape(), "day.csv", {});
  // Last of a block that rises, so that the row before it is of the same block.
  Rows first({1 * minute, 2 * minute, 500 * minute});
  order.put(first.block, first.text);
  Rows rows({3 * minute, 4 * minute}, 4);
  order.put(rows.block, rows.text);
  REQUIRE(codes(rows.block) == Codes{"L14@0", "L14@1"});
  for (const LogProblem& problem : rows.block.problems)
    CHECK(problem.hints ==
          std::vector<std::string>{"line 3 jumps ahead, from 1970-01-01T00:02:00Z to "
                                   "1970-01-01T08:20:00Z: see whether its stamp is the wrong one"});
  // A clock that was set back, and two rows that changed places, are none.
  Rows back({501 * minute, 441 * minute, 442 * minute}, 6);
  order.put(back.block, back.text);
  Rows swapped({503 * minute, 502 * minute}, 9);
  order.put(swapped.block, swapped.text);
  for (const LogBlock* block : {&back.block, &swapped.block})
    for (const LogProblem& problem : block->problems)
      CHECK_THAT(problem.hints.at(0), Contains("sort the rows by time"));
  CHECK(back.block.problems.size() + swapped.block.problems.size() == 3);
}

TEST_CASE("log_order: a hour that clocks repeat is the first, then the second", "[logs]") {
  LogOrder order = berlin();
  std::vector<std::int64_t> local;
  std::vector<std::int64_t> utc;
  for (int i = -60; i < 120; ++i) {
    local.push_back(autumn_us + (i < 60 ? i : i - 60) * minute);
    utc.push_back(autumn_us - 2 * hour + i * minute);
  }
  Rows rows(local);
  order.put(rows.block, rows.text);
  CHECK(rows.block.problems.empty());
  CHECK(rows.block.time_us == utc);

  // The same when the step back lies between two blocks.
  LogOrder again = berlin();
  Rows one(Times(local.begin(), local.begin() + 120));
  Rows two(Times(local.begin() + 120, local.end()));
  again.put(one.block, one.text);
  again.put(two.block, two.text);
  CHECK(one.block.time_us == Times(utc.begin(), utc.begin() + 120));
  CHECK(two.block.time_us == Times(utc.begin() + 120, utc.end()));
}

// One late row once put the rest of the hour on the second pass.
TEST_CASE("log_order: a small step back does not begin the second pass", "[logs]") {
  const auto at = [](std::int64_t minutes) { return autumn_us + minutes * minute; };
  const auto utc = [](std::int64_t minutes) { return autumn_us - 2 * hour + minutes * minute; };
  LogOrder order = berlin();
  Rows rows({at(0), at(10), at(9), at(40), at(11), at(50)});
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us == Times{utc(0), utc(10), utc(40), utc(50)});
  // Nothing stands before the first row that tells its pass.
  CHECK(codes(rows.block) == Codes{"L33@0", "L14@2", "L14@4"});
  // By half an hour and more it does, and then it lasts, over a gap too.
  Rows second({at(20), at(10), at(50), at(49), at(59)});
  order.put(second.block, second.text);
  CHECK(second.block.time_us == Times{utc(80), utc(110), utc(119)});
  CHECK(codes(second.block) == Codes{"L14@1", "L14@3"});
  // A log that writes every half hour.
  LogOrder slow = berlin();
  Rows halves({at(0), at(30), at(0), at(30), at(60)});
  slow.put(halves.block, halves.text);
  CHECK(halves.block.time_us == Times{utc(0), utc(30), utc(60), utc(90), utc(120)});
}

TEST_CASE("log_order: a hour that clocks skip does not exist", "[logs]") {
  LogOrder order = berlin();
  Rows rows({spring_us - minute, spring_us, spring_us + 59 * minute, spring_us + 60 * minute});
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us == Times{spring_us - minute - hour, spring_us - hour});
  CHECK(codes(rows.block) == Codes{"L15@1", "L15@2"});
  CHECK(rows.block.unreadable == 2);
  CHECK_THAT(rows.block.problems[0].message, Contains("Europe/Berlin"));
  CHECK(order.out_of_order() == 0);
}

TEST_CASE("log_order: times go on from file to file, markers change once", "[logs]") {
  LogOrder order("UTC");
  order.begin_file(test::small_shape(), "one.csv", {});
  Rows one({5 * minute});
  one.block.markers = {{0, "before 1"}};
  order.put(one.block, one.text);
  order.begin_file(test::small_shape(), "two.csv", {});
  Rows two({4 * minute, 6 * minute});
  two.block.markers = {{0, "before 1"}};
  order.put(two.block, two.text);
  CHECK(one.block.markers.size() == 1);
  CHECK(two.block.markers.empty());
  CHECK(codes(two.block) == Codes{"L14@0"});
  CHECK_THAT(two.block.problems[0].message, Contains("in line 1 of one.csv"));
  CHECK_THAT(two.block.problems[0].hints.at(0), Contains("in the order of their times"));
}

TEST_CASE("log_order: a log that begins in a repeated hour is told which pass is taken", "[logs]") {
  LogOrder order = berlin();
  Rows rows({autumn_us + 40 * minute, autumn_us + 45 * minute});
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us == Times{autumn_us - 80 * minute, autumn_us - 75 * minute});
  CHECK(codes(rows.block) == Codes{"L33@0"});
  CHECK_THAT(rows.block.problems[0].message, Contains("the first is taken, +02:00 from UTC"));
  CHECK_THAT(rows.block.problems[0].hints.at(0), Contains("--zone +01:00"));
  // So is one whose rows before it are too long ago to tell.
  LogOrder gap = berlin();
  Rows late({autumn_us - 90 * minute, autumn_us + 10 * minute});
  gap.put(late.block, late.text);
  CHECK(codes(late.block) == Codes{"L33@1"});
  // Rows that lead up to it do tell.
  LogOrder led = berlin();
  Rows near({autumn_us - 5 * minute, autumn_us + 10 * minute});
  led.put(near.block, near.text);
  CHECK(near.block.problems.empty());
}

// The second 02:00 of an hourly logger once had "the time of the row before".
TEST_CASE("log_order: an hourly log has a stamp of a repeated hour twice", "[logs]") {
  LogShape shape = test::small_shape();
  shape.usual_step_s = 3600.0;
  LogOrder order("Europe/Berlin");
  order.begin_file(shape, "day.csv", TimeZone::find("Europe/Berlin"));
  Rows rows({autumn_us - hour, autumn_us, autumn_us, autumn_us + hour});
  order.put(rows.block, rows.text);
  CHECK(rows.block.time_us ==
        Times{autumn_us - 3 * hour, autumn_us - 2 * hour, autumn_us - hour, autumn_us});
  CHECK(rows.block.problems.empty());
  // Of a faster one it is the same moment again.
  LogOrder fast = berlin();
  Rows twice({autumn_us - minute, autumn_us, autumn_us});
  fast.put(twice.block, twice.text);
  CHECK(codes(twice.block) == Codes{"L20@2"});
}
