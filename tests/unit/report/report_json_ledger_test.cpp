#include "report/report_json_ledger.hpp"

#include <limits>

#include "report/report_json_words.hpp"
#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::json;

namespace {

/// Two files read, one of which was copied beside the report.
struct Read {
  Read() {
    copied = sources.add("tables/readings.csv", "a\nb\n");
    elsewhere = sources.add("panel.yaml", "a\n");
    write_up.sources = &sources;
    write_up.inputs = {{"inputs/tables/readings.csv", "tables/readings.csv", "", 4}};
  }
  SourceSet sources;
  WriteUp write_up;
  std::uint32_t copied = 0, elsewhere = 0;
};

}  // namespace

TEST_CASE("report json ledger: a place is told by the copy beside the report") {
  const Read read;
  const Ledger ledger(read.write_up);
  CHECK(ledger.where({read.copied, 2, 1, 1}) ==
        Json{{"file", "inputs/tables/readings.csv"}, {"line", 2}});
  CHECK(ledger.where({read.elsewhere, 1, 1, 1}) == Json{{"file", "panel.yaml"}, {"line", 1}});
  CHECK(ledger.where({}).is_null());
  CHECK(ledger.where({read.copied, 0, 0, 0}).is_null());
}

TEST_CASE("report json ledger: a computed number keeps its bits and its sources are remembered") {
  Ledger ledger{WriteUp{}};
  const double third = 1.0 / 3.0;
  const Json j = ledger.computed(Energy::from_si(third), {"method-shot-strength"});
  CHECK(Json::parse(j.dump())["value"].get<double>() == third);
  CHECK(j["unit"] == "J");
  CHECK(j["sources"] == Json::array({"method-shot-strength"}));
  ledger.use("iec61215-mqt17");
  const Json sources = ledger.sources();
  REQUIRE(sources.size() == 2);
  CHECK(sources[0]["id"] == "iec61215-mqt17");
  CHECK(sources[1]["id"] == "method-shot-strength");
  CHECK(sources[1]["status"] == "from memory");
}

TEST_CASE("report json ledger: what is not a number or has no known source is our bug") {
  Ledger ledger{WriteUp{}};
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK_THROWS(ledger.computed(nan, "1", "method-drift"));
  CHECK_THROWS(ledger.stated(nan, "1", SourceSpan{}));
  CHECK_THROWS(ledger.computed(1.0, "1", {}));
  CHECK_THROWS(ledger.computed(1.0, "1", "no-such-source"));
}

TEST_CASE("report json ledger: unlimited degrees of freedom are a word") {
  CHECK(degrees_of_freedom(std::numeric_limits<double>::infinity()) ==
        Json{{"value", nullptr}, {"word", "unlimited"}});
  const Json finite = degrees_of_freedom(7.25);
  REQUIRE(finite.is_object());
  CHECK(finite.size() == 1);
  CHECK(finite["value"] == 7.25);
  CHECK_THROWS(degrees_of_freedom(std::numeric_limits<double>::quiet_NaN()));
}

TEST_CASE("report json ledger: nothing is null") {
  Ledger ledger{WriteUp{}};
  CHECK(ledger.stated(std::optional<Mass>(), {}).is_null());
  CHECK(ledger.computed(std::optional<Mass>(), {"method-drift"}).is_null());
  CHECK(words_or_null("").is_null());
  CHECK(words_or_null("a") == "a");
  CHECK(ledger.sources().empty());
}

TEST_CASE("report json ledger: the program's units are units that it reads") {
  for (int i = 0; i <= static_cast<int>(Measure::volume); ++i) {
    const auto measure = static_cast<Measure>(i);
    const std::string symbol = si_unit(measure);
    CAPTURE(symbol);
    // The three that a user writes otherwise: frames a second, per cent, per cent per kelvin.
    if (symbol == "1/s" || symbol == "1" || symbol == "1/K" || symbol == "rad") continue;
    const Unit* unit = find_unit(symbol, measure);
    REQUIRE(unit != nullptr);
    CHECK(unit->factor == 1.0);
    CHECK(unit->offset == 0.0);
  }
}

TEST_CASE("report json ledger: every default is a source of its own") {
  Ledger ledger{WriteUp{}};
  for (const DefaultRow& row : default_rows())
    ledger.use(default_source(row.id));
  CHECK(ledger.sources().size() == default_rows().size());
}
