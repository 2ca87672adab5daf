#include "hailwright/core/contract.hpp"

#include <stdexcept>
#include <string>
#include <type_traits>

#include "support/catch.hpp"

using namespace hailwright;

static_assert(std::is_base_of_v<std::logic_error, BugError>);

TEST_CASE("contract: a kept promise does nothing") {
  CHECK_NOTHROW(expects(true, "one is one"));
}

TEST_CASE("contract: a broken promise names it and the caller's place") {
  int line = 0;
  std::string message;
  try {
    line = __LINE__ + 1;
    expects(1 > 2, "one is more than two");
  } catch (const BugError& bug) {
    message = bug.what();
  }
  CHECK_THAT(message, Contains("one is more than two"));
  CHECK_THAT(message, Contains("contract_test.cpp:" + std::to_string(line) + ": "));
}

TEST_CASE("contract: fail_contract always throws, with the place given") {
  CHECK_THROWS_AS(fail_contract("unreachable"), BugError);
  CHECK_THROWS_WITH(fail_contract("unreachable", "a.cpp", 7), "a.cpp:7: unreachable");
}
