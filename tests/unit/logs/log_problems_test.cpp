#include "logs/log_problems.hpp"

#include <string>

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::detail;

TEST_CASE("log_problems: all are counted, the first of each code told", "[logs]") {
  LogBlock block;
  int made = 0;
  const auto words = [&] {
    ++made;
    return ToldProblem{"wrong", {"mend it"}};
  };
  for (int line = 0; line < 50; ++line)
    add_problem("L11", line, "\xC3\xBC,ERR,5", 3, 6, block, words);
  add_problem("L12", 60, "x", 0, 1, block, words);
  CHECK(made == static_cast<int>(most_problems) + 1);
  REQUIRE(block.problems.size() == most_problems + 1);
  REQUIRE(block.counted.size() == 2);
  CHECK(block.counted[0].count == 50);
  CHECK(block.counted[0].last_line == 49);
  CHECK(block.counted[1].code == "L12");
  const LogProblem& first = block.problems.front();
  CHECK(first.column == 3);
  CHECK(first.length == 3);
  CHECK(first.text == "\xC3\xBC,ERR,5");
  CHECK(first.hints == std::vector<std::string>{"mend it"});
}

TEST_CASE("log_problems: a long line is kept to a little behind the place, in characters",
          "[logs]") {
  LogBlock block;
  std::string line = "12345,";
  for (int i = 0; i < 1000; ++i)
    line += "\xC3\xBC";
  tell_problem("L11", 0, line, 0, 5, {}, block);
  const std::string& text = block.problems.front().text;
  CHECK(text.size() < 250);
  CHECK(text.size() % 2 == 0);  // six bytes, then characters of two
}
