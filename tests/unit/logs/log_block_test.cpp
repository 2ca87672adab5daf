#include "hailwright/logs/log_block.hpp"

#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("log_block: clear empties all and keeps the memory of the columns", "[logs]") {
  LogBlock block;
  block.time_us.assign(1000, 7);
  block.values[index_of(LogRole::power)].assign(1000, 1.0);
  block.line.assign(1000, 1);
  block.markers.push_back({0, "before 1"});
  block.first_line = 9;
  block.file = 2;
  block.begins_file = true;
  block.lines = block.unreadable = block.comments = block.repeated_headers = 3;
  block.bytes = 5;
  block.problems.emplace_back();
  block.counted.emplace_back();
  block.clear();
  CHECK(block.rows() == 0);
  CHECK(block.column(LogRole::power).empty());
  CHECK(block.column(LogRole::power).capacity() >= 1000);
  CHECK(block.line.empty());
  CHECK(block.markers.empty());
  CHECK(block.first_line == 1);
  CHECK(block.file == 0);
  CHECK_FALSE(block.begins_file);
  CHECK(block.lines + block.unreadable + block.comments + block.repeated_headers == 0);
  CHECK(block.bytes == 0);
  CHECK(block.problems.empty());
  CHECK(block.counted.empty());
}
