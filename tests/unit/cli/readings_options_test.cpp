#include "cli/readings_options.hpp"

#include "support/catch.hpp"

using namespace hailwright;
using namespace hailwright::cli;

namespace {

ReadingsOptions of_one_file() {
  ReadingsOptions o;
  o.files = {"a.csv"};
  return o;
}

/// Codes and messages of options that are not understood.
std::string mistakes(const ReadingsOptions& o) {
  const Checked<ReadingsRequest> read = read_readings_options(o);
  CHECK_FALSE(read.value);
  std::string text;
  for (const Diagnostic& note : read.notes.items())
    text += std::string(note.code) + " " + note.message + "\n";
  return text;
}

ReadingsRequest understood(const ReadingsOptions& o) {
  Checked<ReadingsRequest> read = read_readings_options(o);
  CHECK(read.notes.empty());
  REQUIRE(read.value);
  return std::move(*read.value);
}

std::string code_of(const TypedSpan& span, const std::string& zone) {
  Diagnostics notes;
  spans_in_utc({span}, zone, notes);
  return notes.empty() ? "" : std::string(notes.items().front().code);
}

// `date -u -d 2026-06-14T10:02:00Z +%s` of the GNU core utilities.
constexpr std::int64_t ten_past_two_us = 1'781'431'320'000'000;

}  // namespace

TEST_CASE("readings_options: what is left out takes what the page says") {
  const ReadingsRequest r = understood(of_one_file());
  CHECK(r.question.cut.kind == LogCut::Kind::whole);
  CHECK_FALSE(r.question.rules.steady);
  CHECK_FALSE(r.question.rules.counter_wraps_at);
  CHECK_FALSE(r.longest_gap);
  CHECK_FALSE(r.offset);
  CHECK_FALSE(r.find_offset);
  CHECK(r.tolerated_rows == 0);
  CHECK(r.threads >= 1);
  CHECK(r.threads <= 64);
  CHECK(r.place == LogPlace::sessions);
  CHECK(r.stated.zone.empty());
  CHECK_FALSE(r.stated.separator);
  CHECK_FALSE(r.stated.dates);
}

TEST_CASE("readings_options: every option says what it says") {
  ReadingsOptions o = of_one_file();
  o.zone = "+02:00";
  o.separator = "semicolon";
  o.decimal = "comma";
  o.dates = "day-first";
  o.cut = "plateaus";
  o.shortest = "5min";
  o.shortest_off = "30s";
  o.window = "30s";
  o.irradiance_change = "3%";
  o.ramp = "0.5%";
  o.temperature_change = "2K";
  o.longest_gap = "20s";
  o.load_on = "5W";
  o.counter_wraps = "65535Wh";
  o.tolerate = "12";
  o.beside = {"b.csv"};
  o.offset = "-3.5s";
  o.place = "before";
  o.threads = "3";
  const ReadingsRequest r = understood(o);
  CHECK(r.stated.zone == "+02:00");
  CHECK(r.stated.separator == ';');
  CHECK(r.stated.decimal == ',');
  CHECK(r.stated.dates == DateOrder::day_first);
  CHECK(r.question.cut.kind == LogCut::Kind::plateaus);
  CHECK_THAT(r.question.cut.plateaus.shortest.si(), WithinAbs(300.0, 1e-9));
  CHECK_THAT(r.question.cut.plateaus.shortest_off.si(), WithinAbs(30.0, 1e-9));
  REQUIRE(r.question.rules.steady);
  CHECK_THAT(r.question.rules.steady->window.si(), WithinAbs(30.0, 1e-9));
  CHECK_THAT(r.question.rules.steady->irradiance_change.si(), WithinAbs(0.03, 1e-12));
  CHECK_THAT(r.question.rules.steady->ramp.si(), WithinAbs(0.005, 1e-12));
  CHECK_THAT(r.question.rules.steady->temperature_change.si(), WithinAbs(2.0, 1e-12));
  CHECK_THAT(r.longest_gap->si(), WithinAbs(20.0, 1e-12));
  CHECK_THAT(r.question.rules.load_on.si(), WithinAbs(5.0, 1e-12));
  CHECK_THAT(r.question.rules.counter_wraps_at->si(), WithinRel(65535.0 * 3600.0, 1e-12));
  CHECK(r.tolerated_rows == 12);
  CHECK_THAT(r.offset->si(), WithinAbs(-3.5, 1e-12));
  CHECK(r.place == LogPlace::before);
  CHECK(r.threads == 3);
}

TEST_CASE("readings_options: steady is for what is cut out unless it is said") {
  ReadingsOptions o = of_one_file();
  o.steady = true;
  CHECK(understood(o).question.rules.steady);
  o = of_one_file();
  o.cut = "markers";
  CHECK(understood(o).question.rules.steady);
  o.not_steady = true;
  CHECK_FALSE(understood(o).question.rules.steady);
  o.window = "30s";
  CHECK_THAT(mistakes(o), Contains("C21 --window says nothing with --not-steady"));
  o.steady = true;
  CHECK_THAT(mistakes(o), Contains("C20 --steady and --not-steady"));
  o = of_one_file();
  o.ramp = "1%";
  CHECK_THAT(mistakes(o), Contains("C21 --ramp says nothing without --steady"));
}

TEST_CASE("readings_options: the offset is looked for when asked") {
  ReadingsOptions o = of_one_file();
  o.beside = {"b.csv"};
  o.offset = "auto";
  const ReadingsRequest r = understood(o);
  CHECK(r.find_offset);
  CHECK_FALSE(r.offset);
  CHECK_THAT(r.offset_search.si(), WithinAbs(120.0, 1e-12));
  o.offset_search = "10min";
  CHECK_THAT(understood(o).offset_search.si(), WithinAbs(600.0, 1e-12));
  o.offset = "7s";
  CHECK_THAT(mistakes(o), Contains("C21 --offset-search says nothing without --offset auto"));
}

TEST_CASE("readings_options: all mistakes come at once") {
  ReadingsOptions o = of_one_file();
  o.separator = "blank";
  o.longest_gap = "10";
  o.counter_wraps = "65535W";
  o.load_on = "0W";
  o.tolerate = "-1";
  o.threads = "65";
  o.offset = "7s";
  o.beside_columns = "b.yaml";
  o.shortest = "1min";
  const std::string text = mistakes(o);
  CHECK_THAT(text, Contains("K06 --separator cannot be blank"));
  CHECK_THAT(text, Contains("U02 --longest-gap: "));
  CHECK_THAT(text, Contains("U03 --counter-wraps: "));
  CHECK_THAT(text, Contains("R01 --load-on is 0W"));
  CHECK_THAT(text, Contains("U14 --tolerate: "));
  CHECK_THAT(text, Contains("R01 --threads is 65"));
  CHECK_THAT(text, Contains("C21 --offset says nothing without --beside"));
  CHECK_THAT(text, Contains("C21 --beside-columns says nothing without --beside"));
  CHECK_THAT(text, Contains("C21 --shortest says nothing without --cut plateaus"));
}

TEST_CASE("readings_options: spans are cut by time in the zone of the log") {
  ReadingsOptions o = of_one_file();
  o.spans = {"before 1", "2026-06-14T12:02:00",  "2026-06-14 12:08",
             "all",      "2026-06-14T10:02:00Z", "2026-06-14T23:00:00+02:00"};
  const ReadingsRequest r = understood(o);
  CHECK(r.question.cut.kind == LogCut::Kind::times);
  CHECK(r.question.rules.steady);
  for (const char* zone : {"+02:00", "Europe/Berlin"}) {
    Diagnostics notes;
    const auto spans = spans_in_utc(r.spans, zone, notes);
    CHECK_FALSE(notes.has_errors());
    REQUIRE(spans.size() == 2);
    CHECK(spans[0].name == "before 1");
    CHECK(spans[0].from_us == ten_past_two_us);
    CHECK(spans[0].to_us == ten_past_two_us + 360'000'000);
    CHECK(spans[1].from_us == ten_past_two_us);
  }
}

TEST_CASE("readings_options: times that cannot be told are named") {
  const auto typed = [](const char* from, const char* to) {
    ReadingsOptions o = of_one_file();
    o.spans = {"a", from, to};
    return understood(o).spans.front();
  };
  const TypedSpan usual = typed("2026-06-14T12:02:00", "2026-06-14T12:08:00");
  CHECK(code_of(usual, "Europe/Berlin").empty());
  CHECK(code_of(usual, "") == "L05");
  CHECK(code_of(usual, "Europe/Berlim") == "L31");
  CHECK(code_of(typed("2026-06-14T12:08:00", "2026-06-14T12:08:00"), "Z") == "C38");
  Diagnostics empty;
  spans_in_utc({typed("2026-06-14T12:08:00", "2026-06-14T12:08:00")}, "Z", empty);
  CHECK_THAT(empty.items().at(0).message, Contains("has no length"));
  TypedSpan later = typed("2026-06-14T12:07:59", "2026-06-14T12:10:00");
  later.name = "b";
  Diagnostics overlapping;
  CHECK(spans_in_utc({usual, later}, "Z", overlapping).size() == 2);
  REQUIRE(overlapping.items().size() == 1);
  CHECK_FALSE(overlapping.has_errors());
  CHECK_THAT(overlapping.items()[0].message, Contains("--span b and --span a overlap"));
  later.from.us = usual.to.us;
  Diagnostics following;
  spans_in_utc({usual, later}, "Z", following);
  CHECK(following.empty());
  // Summer time of the European Union, 2026: from 29 March to 25 October (directive 2000/84/EC).
  CHECK(code_of(typed("2026-03-29T02:30:00", "2026-03-29T04:00:00"), "Europe/Berlin") == "R07");
  CHECK(code_of(typed("2026-10-25T01:00:00", "2026-10-25T02:30:00"), "Europe/Berlin") == "R07");
  CHECK(
      code_of(typed("2026-10-25T01:00:00", "2026-10-25T02:30:00+02:00"), "Europe/Berlin").empty());
  for (const char* text : {"14.06.2026 10:02", "2026-06-14", "10:02", "2026-13-14T10:02:00",
                           "2026-06-14T25:00:00", "1781431320", "", "tomorrow"}) {
    CAPTURE(text);
    ReadingsOptions o = of_one_file();
    o.spans = {"a", text, "2026-06-14T10:02:00"};
    CHECK_THAT(mistakes(o), Contains("R07 --span a: "));
  }
}

TEST_CASE("readings_options: a span without its end is a mistake of the user") {
  // It ended as a bug of ours: `--span a 2026-06-14T10:00:00 --zone UTC`.
  for (const std::size_t values : {1U, 2U, 4U, 5U}) {
    const std::vector<std::string> typed{"a", "2026-06-14T10:00:00", "2026-06-14T11:00:00", "b",
                                         "2026-06-14T12:00:00"};
    ReadingsOptions o = of_one_file();
    o.spans.assign(typed.begin(), typed.begin() + static_cast<std::ptrdiff_t>(values));
    CAPTURE(values);
    CHECK_THAT(mistakes(o), Contains("K02 --span " + typed[values > 3 ? 3 : 0]));
  }
}

TEST_CASE("readings_options: spans contradict another cut and each other's names") {
  ReadingsOptions o = of_one_file();
  o.spans = {"a", "2026-06-14T10:00:00", "2026-06-14T11:00:00",
             "a", "2026-06-14T12:00:00", "2026-06-14T13:00:00"};
  CHECK_THAT(mistakes(o), Contains("C05 --span a is given twice"));
  o.spans.resize(3);
  o.cut = "plateaus";
  CHECK_THAT(mistakes(o), Contains("C20 --cut and --span"));
}

TEST_CASE("readings_options: options stand before the column map") {
  LogFormat options;
  options.zone = "+02:00";
  options.decimal = ',';
  LogFormat map;
  map.zone = "UTC";
  map.separator = '\t';
  map.decimal = '.';
  map.columns.push_back({LogRole::power, "P", "W", {}});
  const LogFormat both = stated_over(options, map);
  CHECK(both.zone == "+02:00");
  CHECK(both.decimal == ',');
  CHECK(both.separator == '\t');
  CHECK_FALSE(both.dates);
  CHECK(both.columns.size() == 1);
  CHECK(stated_over({}, map).zone == "UTC");
}
