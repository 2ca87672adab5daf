#include "hailwright/core/source.hpp"

#include <cstdint>
#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("source: files are numbered from 1 in the order added") {
  SourceSet sources;
  const std::uint32_t first = sources.add("a.yaml", "one\ntwo\n");
  const std::uint32_t second = sources.add("b.csv", "");
  CHECK(first == 1);
  CHECK(second == 2);
  CHECK(sources.name(first) == "a.yaml");
  CHECK(sources.text(first) == "one\ntwo\n");
  CHECK(sources.name(second) == "b.csv");
  CHECK(sources.text(second).empty());
}

TEST_CASE("source: lines without their breaks") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a", "one\r\n\ntwo\nlast");
  CHECK(sources.line(file, 1) == "one");
  CHECK(sources.line(file, 2).empty());
  CHECK(sources.line(file, 3) == "two");
  CHECK(sources.line(file, 4) == "last");
}

TEST_CASE("source: a line that does not exist is empty") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a", "one\n");
  const std::uint32_t empty = sources.add("b", "");
  CHECK(sources.line(file, 2).empty());
  CHECK(sources.line(file, 3).empty());
  CHECK(sources.line(file, 0).empty());
  CHECK(sources.line(file, -1).empty());
  CHECK(sources.line(empty, 1).empty());
}

TEST_CASE("source: lines stay valid while files are added") {
  SourceSet sources;
  const std::uint32_t file = sources.add("a", "first line\nsecond line");
  for (int i = 0; i < 100; ++i)
    sources.add("more" + std::to_string(i), "x\n");
  CHECK(sources.line(file, 2) == "second line");
  CHECK(sources.name(file) == "a");
}

TEST_CASE("source: a number that was never given out is our bug") {
  SourceSet sources;
  CHECK_THROWS_AS(sources.name(0), BugError);
  CHECK_THROWS_AS(sources.text(1), BugError);
  sources.add("a", "");
  CHECK_THROWS_AS(sources.line(2, 1), BugError);
}

TEST_CASE("source: characters, not bytes, are counted") {
  CHECK(count_characters("") == 0);
  CHECK(count_characters("abc") == 3);
  CHECK(count_characters("Ωµ°") == 3);
  CHECK(count_characters("−5 °C") == 5);
  CHECK(count_characters("a\U0001F9CAb") == 3);
  CHECK(count_characters("\xFF\xFE") == 2);
}

TEST_CASE("source: the same name with the same text is the same file") {
  SourceSet sources;
  const std::uint32_t first = sources.add("a", "one\n");
  CHECK(sources.add("b", "one\n") != first);
  CHECK(sources.add("a", "two\n") != first);
  CHECK(sources.add("a", "one\n") == first);
}
