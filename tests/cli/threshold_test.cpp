// hailwright threshold, as a user runs it.
#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "support/catch.hpp"

using hailwright::testing::Finished;
using hailwright::testing::run_hailwright;

namespace {

const std::string demo = HAILWRIGHT_SOURCE_DIR "/protocols/demo/";

Finished threshold(const std::string& rest) {
  return run_hailwright("threshold " + rest);
}

nlohmann::json json_of(const std::string& file) {
  const Finished f = threshold(demo + "specimens/" + file + " --format json");
  CAPTURE(f.err);
  REQUIRE(f.exit_code == 0);
  return nlohmann::json::parse(f.out);
}

}  // namespace

// The demo is drawn from E50 = 8.0 J and a scatter of 0.25.
TEST_CASE(
    "cli threshold: the staircase of the demo has an estimate around what it was drawn from") {
  const auto j = json_of("coupons-staircase.yaml");
  REQUIRE(j["estimate"].is_object());
  const auto& e50 = j["estimate"]["e50"];
  CHECK(e50["interval"]["low"]["value"] < 8.0);
  CHECK(e50["interval"]["high"]["value"] > 8.0);
  CHECK(j["obstacles"].empty());
  CHECK(j["staircase"]["obstacle"] == "none");
  CHECK_FALSE(j["cautions"].empty());
}

TEST_CASE("cli threshold: separated outcomes are refused with what is missing") {
  const auto j = json_of("coupons-separated.yaml");
  CHECK(j["estimate"].is_null());
  CHECK(j["obstacles"][0]["id"] == "separated");
  const Finished f = threshold(demo + "specimens/coupons-separated.yaml --format md");
  CHECK_THAT(f.out, Contains("more specimens inside the bracket and just outside it"));
}

TEST_CASE("cli threshold: every format has the cautions") {
  for (const std::string format : {"text", "md", "html", "json"}) {
    const Finished f = threshold(demo + "specimens/coupons-staircase.yaml --format " + format);
    CAPTURE(format, f.err);
    CHECK(f.exit_code == 0);
    // Found by review: it was wrapped, and its dashes escaped, so that it could not be copied.
    CHECK_THAT(f.out, Contains("hailwright threshold FILE --protocol FILE --panel FILE"));
    CHECK_THAT(f.out, Contains("aution"));
  }
}

TEST_CASE("cli threshold: no next energy without a protocol") {
  const auto j = json_of("coupons-staircase.yaml");
  CHECK(j["next"]["energy"].is_null());
  CHECK(j["next"]["obstacle"] == "no_protocol");
}

// The answers of the demo protocol are older than 30 days, so that its gate is closed.
TEST_CASE("cli threshold: no next energy while the gate is closed") {
  const Finished f = threshold(demo + "specimens/coupons-staircase.yaml --format json --protocol " +
                               demo + "protocol.yaml --panel " + demo + "panels/flex-b.yaml");
  CAPTURE(f.err);
  CHECK(f.exit_code == 4);
  const auto j = nlohmann::json::parse(f.out);
  CHECK(j["next"]["energy"].is_null());
  CHECK(j["next"]["obstacle"] == "gate_closed");
  CHECK(j["estimate"].is_object());
}

TEST_CASE("cli threshold: a panel without a protocol is a slip of the command line") {
  CHECK(threshold(demo + "specimens/coupons-staircase.yaml --panel " + demo + "panels/flex-b.yaml")
            .exit_code == 2);
}
