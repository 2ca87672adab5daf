#include "input/log_format_reader.hpp"

#include "hailwright/input/readers.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using input_files::Files;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

Checked<LogFormat> read(const std::string& body) {
  const Files files{{"map.yaml", "hailwright: columns 1\n" + body}};
  SourceSet sources;
  auto checked = read_log_format("map.yaml", input_files::loader(files), sources);
  CHECK(checked.value.has_value() == !checked.notes.has_errors());
  CHECK_NOTHROW(render_diagnostics(checked.notes, sources));
  return checked;
}

}  // namespace

TEST_CASE("log_format_reader: a map with all that it can state") {
  const auto read_map = read(R"(columns:
  time: Date and time
  power: {name: P, unit: kW}
  irradiance: Sun W/m2
separator: semicolon
decimal: comma
dates: day first
zone: Europe/Berlin
)");
  CHECK(seen(read_map.notes).empty());
  const LogFormat& format = *read_map.value;
  REQUIRE(format.columns.size() == 3);
  CHECK(format.columns[0].role == LogRole::time);
  CHECK(format.columns[0].header == "Date and time");
  CHECK(format.columns[0].unit.empty());
  CHECK(format.columns[0].origin.line == 3);
  CHECK(format.columns[1].role == LogRole::power);
  CHECK(format.columns[1].header == "P");
  CHECK(format.columns[1].unit == "kW");
  CHECK(format.columns[1].origin.column == 17);
  CHECK(format.columns[2].header == "Sun W/m2");
  CHECK(format.separator == ';');
  CHECK(format.decimal == ',');
  CHECK(format.dates == DateOrder::day_first);
  CHECK(format.zone == "Europe/Berlin");
}

TEST_CASE("log_format_reader: what is not stated is left open") {
  const auto empty = read("separator: tab\n");
  CHECK(empty.value->columns.empty());
  CHECK(empty.value->separator == '\t');
  CHECK_FALSE(empty.value->decimal);
  CHECK_FALSE(empty.value->dates);
  CHECK(empty.value->zone.empty());
  CHECK(read("separator: comma\ndecimal: point\ndates: month first\n").value->dates ==
        DateOrder::month_first);
  CHECK(read("dates: year first\n").value->dates == DateOrder::year_first);
}

TEST_CASE("log_format_reader: every role has its word") {
  for (std::size_t i = 0; i < log_roles; ++i) {
    const auto role = static_cast<LogRole>(i);
    const bool half = role == LogRole::date || role == LogRole::clock;
    const std::string other = role == LogRole::date ? "clock" : "date";
    CAPTURE(word_of(role));
    const auto map = read("columns: {" + std::string(word_of(role)) + ": A" +
                          (half ? ", " + other + ": B" : "") + "}\n");
    REQUIRE(map.value);
    CHECK(map.value->columns.size() == (half ? 2 : 1));
  }
}

TEST_CASE("log_format_reader: words that are not known") {
  CHECK(only(read("separator: pipe\n").notes).code == "K06");
  CHECK(only(read("decimal: dot\n").notes).code == "K06");
  CHECK(only(read("dates: day last\n").notes).code == "K06");
  CHECK(only(read("columns: {pwr: P}\n").notes).code == "K01");
  CHECK(only(read("columns: P\n").notes).code == "K05");
  CHECK(only(read("columns: {power: {unit: W}}\n").notes).code == "K02");
  CHECK(only(read("columns: {power: [P]}\n").notes).code == "K05");
}

TEST_CASE("log_format_reader: units are of the column's measure") {
  const Diagnostic other = only(read("columns: {power: {name: P, unit: Wh}}\n").notes);
  CHECK(other.code == "L04");
  CHECK(other.where.line == 2);
  CHECK(other.where.column == 34);
  CHECK_THAT(other.message, Contains("\"Wh\" is no unit of a power"));
  CHECK_THAT(other.hints.at(0), Contains("kW"));
  CHECK(only(read("columns: {marker: {name: M, unit: W}}\n").notes).code == "L04");
  CHECK(read("columns: {energy: {name: E, unit: kWh}}\n").value);
}

TEST_CASE("log_format_reader: one column is taken for one thing and one thing from one column") {
  const Diagnostic twice = only(read("columns: {power: P, power_beside: P}\n").notes);
  CHECK(twice.code == "L03");
  CHECK_THAT(twice.message, Contains("'power'") && Contains("'power_beside'"));
  CHECK(twice.where.column == 35);
  CHECK(twice.related.size() == 1);
  CHECK(seen(read("columns: {time: A, date: B, clock: C}\n").notes) ==
        std::vector<Seen>{{"C01", 2, 20}, {"C01", 2, 29}});
  CHECK(only(read("columns: {date: B}\n").notes).code == "K02");
  CHECK(only(read("columns: {clock: B}\n").notes).code == "K02");
}

TEST_CASE("log_format_reader: zones") {
  for (const std::string zone : {"UTC", "Z", "+02:00", "-03:30", "Europe/Berlin"}) {
    CAPTURE(zone);
    CHECK(read("zone: " + zone + "\n").value->zone == zone);
  }
  const Diagnostic slip = only(read("zone: Europe/Berln\n").notes);
  CHECK(slip.code == "L31");
  CHECK(slip.where.column == 7);
  CHECK_THAT(slip.hints.at(0), Contains("Europe/Berlin"));
  CHECK(only(read("zone: +25:00\n").notes).code == "L31");
}

TEST_CASE("log_format_reader: another kind of file") {
  const Files files{{"map.yaml", "hailwright: panel 1\n"}};
  SourceSet sources;
  const auto checked = read_log_format("map.yaml", input_files::loader(files), sources);
  CHECK(only(checked.notes).code == "K11");
  CHECK(only(checked.notes).message == "this is a panel, a column map was expected");
}
