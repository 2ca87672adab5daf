#include "hailwright/logs/log_stream.hpp"

#include <algorithm>
#include <bit>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"
#include "support/log_samples.hpp"

using namespace hailwright;
using namespace hailwright::test;

namespace {

const std::string head = "time,power [W],irradiance [W/m2]\n";

std::string stamp(int second) {
  const auto two = [](int number) {
    return std::string(number < 10 ? "0" : "") + std::to_string(number);
  };
  return "2026-06-14T" + two(second / 3600) + ":" + two(second / 60 % 60) + ":" + two(second % 60);
}

std::string rows(int from, int to) {
  std::string text;
  for (int second = from; second < to; ++second)
    text += stamp(second) + "," + std::to_string(second % 97) + ".5," +
            std::to_string(800 + second % 13) + "\n";
  return text;
}

/// A log with one of everything that can be wrong with rows, over several pieces.
std::string ugly_log() {
  std::mt19937_64 random(3);
  std::string text = "# logger 7\n" + head;
  for (int second = 0; second < 40000; ++second) {
    const std::string time = stamp(second);
    switch (random() % 400) {
    case 0:
      text += time + ",ERR,5\n";
      break;
    case 1:
      text += time + ",\"7.5\",5\r\n";
      break;
    case 2:
      text += stamp(second / 2) + ",7.5,5\n";
      break;
    case 3:
      text += time + ",7.5\n";
      break;
    case 4:
      text += head + "\n# started again\n";
      break;
    case 5:
      text += time + ",7.5,5\n" + time + ",7.5,5\n";
      break;
    case 6:
      text += time + ",,\n" + time + ",7.5,\"open\n" + time + ",\xFF,5\n";
      break;
    default:
      text += time + ",79.123,812.3\n";
    }
  }
  return text + std::string(300000, 'z') + "\n" + rows(40000, 41000) + stamp(41000) + ",79.";
}

bool same_bits(const std::vector<double>& a, const std::vector<double>& b) {
  if (a.size() != b.size()) return false;
  for (std::size_t i = 0; i < a.size(); ++i) {
    if (std::bit_cast<std::uint64_t>(a[i]) != std::bit_cast<std::uint64_t>(b[i])) return false;
  }
  return true;
}

void check_same(const ReadLog& a, const ReadLog& b) {
  CHECK(a.rows.time_us == b.rows.time_us);
  CHECK(a.rows.line == b.rows.line);
  for (std::size_t role = 0; role < log_roles; ++role)
    CHECK(same_bits(a.rows.values[role], b.rows.values[role]));
  CHECK(a.notes == b.notes);
  CHECK(a.tally.by_code == b.tally.by_code);
  CHECK(a.tally.bytes == b.tally.bytes);
  CHECK(a.tally.lines == b.tally.lines);
}

using Codes = std::vector<std::string>;

}  // namespace

TEST_CASE("log_stream: rows come in UTC, in order, all counted", "[logs]") {
  const ReadLog log = read_log(head + rows(0, 20000), {}, "+02:00");
  REQUIRE(log.opened);
  CHECK(log.notes.empty());
  CHECK(log.tally.rows == 20000);
  CHECK(log.tally.lines == 20001);
  CHECK(log.tally.bytes == static_cast<std::int64_t>(head.size() + rows(0, 20000).size()));
  // `date -u -d 2026-06-13T22:00:00 +%s`, microseconds.
  CHECK(log.rows.time_us.front() == 1781388000LL * 1000000);
  CHECK(log.rows.time_us.back() - log.rows.time_us.front() == 19999LL * 1000000);
  CHECK(log.rows.line.front() == 2);
  CHECK(log.rows.line.back() == 20001);
  CHECK(log.rows.column(LogRole::power)[100] == 3.5);
}

TEST_CASE("log_stream: the same whatever the threads and the way of the bytes", "[logs]") {
  const std::string text = ugly_log();
  const auto read = [&](unsigned threads, const std::function<std::size_t()>& portion) {
    LogReadingPlan plan;
    plan.threads = threads;
    plan.tolerated_rows = 10;
    return read_log({{"day.csv", bytes_of(text, portion)}}, zoned("Europe/Berlin"), plan);
  };
  const ReadLog whole = read(1, [] { return std::size_t{1} << 30U; });
  REQUIRE(whole.opened);
  CHECK(whole.tally.rows > 30000);
  CHECK(whole.tally.rows == static_cast<std::int64_t>(whole.rows.rows()));
  for (const std::string_view code : {"L10", "L11", "L14", "L16", "L17", "L18", "L20", "L21"}) {
    CAPTURE(code);
    CHECK(whole.tally.by_code.count(code) == 1);
  }
  // No line is lost: the header and the remark above it are the first two.
  CHECK(whole.tally.lines == 2 + whole.tally.rows + whole.tally.unreadable +
                                 whole.tally.out_of_order + whole.tally.comments +
                                 whole.tally.repeated_headers);
  for (const unsigned threads : {1U, 2U, 7U}) {
    for (const std::size_t portion : {1U, 7U, 4096U}) {
      CAPTURE(threads, portion);
      check_same(read(threads, [=] { return portion; }), whole);
    }
    auto random = std::make_shared<std::mt19937_64>(threads);
    check_same(read(threads, [=] { return 1 + (*random)() % 9999; }), whole);
  }
}

TEST_CASE("log_stream: lines at the borders of pieces keep their numbers", "[logs]") {
  constexpr std::size_t piece = std::size_t{256} << 10U;
  for (const std::size_t shift : {0U, 1U, 2U, 31U, 32U, 33U}) {
    CAPTURE(shift);
    std::string text = head + "#" + std::string(shift, 'x') + "\n";
    int second = 0;
    while (text.size() < 2 * piece + 1000)
      text += rows(second, second + 1), ++second;
    const ReadLog log = read_log(text);
    CHECK(log.tally.rows == second);
    CHECK(log.rows.line.back() == static_cast<std::uint32_t>(second + 2));
    CHECK(log.notes.empty());
  }
}

TEST_CASE("log_stream: line ends CR LF, a byte order mark", "[logs]") {
  const ReadLog log =
      read_log("\xEF\xBB\xBFtime,power [W]\r\n2026-06-14T10:00:00,5\r\n2026-06-14T10:00:01,6\r\n");
  CHECK(log.notes.empty());
  CHECK(log.rows.column(LogRole::power) == std::vector<double>{5, 6});
}

TEST_CASE("log_stream: short files", "[logs]") {
  for (const std::string text : {"", "\n", "one line", "# only a remark\n"}) {
    CAPTURE(text);
    const ReadLog log = read_log(text);
    CHECK_FALSE(log.opened);
    CHECK(log.rows.rows() == 0);
    CHECK_FALSE(log.notes.empty());
  }
  const ReadLog one = read_log(head + "2026-06-14T10:00:00,5,6");
  CHECK(one.tally.rows == 1);
  CHECK(one.codes == Codes{"L22"});
}

TEST_CASE("log_stream: a file cut in the middle of a row", "[logs]") {
  const ReadLog log = read_log(head + rows(0, 100) + stamp(100) + ",79");
  CHECK(log.tally.rows == 100);
  CHECK(log.tally.unreadable == 1);
  CHECK(log.codes == Codes{"L10", "L19"});
  CHECK_THAT(log.notes, Contains("day.csv:102:23: error: this row has 2 cells, the header 3: the "
                                 "file ends in the middle of it") &&
                            Contains("1 of 101 rows cannot be used, the first in line 102"));
}

TEST_CASE("log_stream: several files in sequence", "[logs]") {
  const auto files = [](const std::string& third) {
    return std::vector<LogFile>{{"a.csv", bytes_of(head + rows(0, 10000))},
                                {"b.csv", bytes_of("# another day\n" + head + rows(10000, 20000))},
                                {"c.csv", bytes_of(third)}};
  };
  for (const unsigned threads : {1U, 3U}) {
    LogReadingPlan plan;
    plan.threads = threads;
    const ReadLog log = read_log(files(head + rows(20000, 30000)), zoned("UTC"), plan);
    CHECK(log.notes.empty());
    CHECK(log.tally.rows == 30000);
    CHECK(log.files[9999] == 0);
    CHECK(log.files[10000] == 1);
    CHECK(log.rows.line[10000] == 3);
    CHECK(log.files.back() == 2);
    CHECK(log.rows.line[20000] == 2);
  }
  const ReadLog other = read_log(files("time,power [W]\n" + stamp(25000) + ",5\n"), zoned("UTC"));
  CHECK(other.tally.rows == 20000);
  CHECK(other.codes == Codes{"L08"});
  CHECK_THAT(other.notes, Contains("c.csv: error: the files of a log differ"));
  const ReadLog back = read_log(files(head + rows(19990, 20010)), zoned("UTC"));
  CHECK(back.tally.rows == 20011);
  CHECK(back.tally.out_of_order == 9);
  CHECK(back.tally.same_time == 1);
  CHECK_THAT(back.notes, Contains("in line 10002 of b.csv"));
}

TEST_CASE("log_stream: a file that cannot be read to its end", "[logs]") {
  const ReadLog log =
      read_log({{"day.csv", bytes_of(
                                head + rows(0, 20000), [] { return std::size_t{5000}; },
                                "the compressed data is damaged")}},
               zoned("UTC"));
  CHECK(log.opened);
  CHECK(log.codes == Codes{"L01"});
  CHECK_THAT(log.notes, Contains("the compressed data is damaged"));
  const ReadLog at_once = read_log({{"day.csv", bytes_of(
                                                    "", [] { return std::size_t{1}; }, "gone")}},
                                   zoned("UTC"));
  CHECK_FALSE(at_once.opened);
  CHECK(at_once.codes == Codes{"L01"});
}

TEST_CASE("log_stream: a line without an end", "[logs]") {
  const auto without_end = [](std::string begin) {
    auto rest = std::make_shared<std::string>(std::move(begin));
    return LogBytes{[rest](char* into, std::size_t most) {
                      const std::size_t count = rest->empty() ? most : std::min(most, rest->size());
                      if (rest->empty()) std::fill_n(into, most, 'y');
                      rest->copy(into, count);
                      rest->erase(0, count);
                      return count;
                    },
                    [] { return std::string(); }};
  };
  const Codes expected{"L17"};
  for (const unsigned threads : {1U, 3U}) {
    LogReadingPlan plan;
    plan.threads = threads;
    const ReadLog log =
        read_log({{"day.csv", without_end(head + rows(0, 20000))}}, zoned("UTC"), plan);
    CHECK(log.opened);
    CHECK(log.tally.rows == 20000);
    CHECK(log.codes == expected);
    CHECK_THAT(log.notes, Contains("line 20002 goes on for more than 64 MiB"));
  }
  const ReadLog at_once = read_log({{"day.csv", without_end("")}}, zoned("UTC"));
  CHECK_FALSE(at_once.opened);
  CHECK(at_once.codes == expected);
}

TEST_CASE("log_stream: reading stops when nothing can be read", "[logs]") {
  std::string text = head;  // powers in mW, taken for W
  for (int second = 0; second < 60000; ++second)
    text += stamp(second) + ",795000,812\n";
  LogReadingPlan plan;
  plan.tolerated_rows = 1000000;
  const ReadLog log = read_log(text, plan);
  REQUIRE(log.opened);
  CHECK(log.tally.rows == 0);
  CHECK(log.tally.unreadable >= 10000);
  CHECK(log.tally.unreadable < 30000);
  CHECK(log.codes.back() == "L19");
  CHECK_THAT(log.notes, Contains("error: none of the first") && Contains("reading stopped there"));
}

TEST_CASE("log_stream: it may be left in the middle", "[logs]") {
  for (const unsigned threads : {1U, 2U, 7U}) {
    SourceSet sources;
    LogReadingPlan plan;
    plan.threads = threads;
    std::int64_t told = 0;
    plan.progress = [&](std::int64_t bytes) { told = bytes; };
    LogStream stream({{"day.csv", bytes_of(head + rows(0, 60000))}}, zoned("UTC"), plan, sources);
    REQUIRE(stream.open());
    CHECK(stream.shape().headers.size() == 3);
    LogBlock block;
    CHECK(stream.next(block));
    CHECK(block.begins_file);
    CHECK(told == static_cast<std::int64_t>(block.bytes));
    CHECK(stream.next(block));
    CHECK_FALSE(block.begins_file);
  }
}

TEST_CASE("log_stream: what a caller must keep to", "[logs]") {
  SourceSet sources;
  CHECK_THROWS_AS(LogStream({}, zoned("UTC"), {}, sources), BugError);
  LogReadingPlan none;
  none.threads = 0;
  CHECK_THROWS_AS(LogStream({{"a", bytes_of("")}}, zoned("UTC"), none, sources), BugError);
}
