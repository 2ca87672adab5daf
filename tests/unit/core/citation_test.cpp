#include "hailwright/core/citation.hpp"

#include <array>
#include <set>
#include <string>

#include "hailwright/core/contract.hpp"
#include "support/catch.hpp"

using namespace hailwright;

TEST_CASE("citation: how a source was read, in words") {
  CHECK(text(ReadStatus::read) == "read");
  CHECK(text(ReadStatus::computed) == "computed");
  CHECK(text(ReadStatus::from_memory) == "from memory");
  CHECK(text(ReadStatus::common_practice) == "common practice, no source");
  CHECK(text(ReadStatus::ours) == "ours, no published source");
}

TEST_CASE("citation: no two ways of reading share their words") {
  constexpr std::array all{ReadStatus::read, ReadStatus::computed, ReadStatus::from_memory,
                           ReadStatus::common_practice, ReadStatus::ours};
  std::set<std::string> words;
  for (const ReadStatus status : all)
    words.insert(std::string(text(status)));
  CHECK(words.size() == all.size());
}

TEST_CASE("citation: a status that does not exist is our bug") {
  CHECK_THROWS_AS(text(static_cast<ReadStatus>(99)), BugError);
}
