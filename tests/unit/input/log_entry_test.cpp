#include "input/log_entry.hpp"

#include "hailwright/logs/log_stream.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

struct Read {
  Diagnostics notes;
  std::optional<LogEntry> entry;
  explicit Read(const std::string& text, LogStage stage = LogStage::before) {
    Protocol protocol;
    protocol.series.emplace_back().name = "small";
    entry = read_log_entry(input_files::tree(text), stage, protocol, {1, 1, 1, 1}, notes);
    CHECK(entry.has_value() == !notes.has_errors());
  }
};

const std::string head = "log: day.csv\nzone: +02:00\n";
const std::string span = "from: 2026-06-14T10:02:00, to: 2026-06-14T10:12:00";

}  // namespace

TEST_CASE("log_entry: a log by times, with the defaults of a set-up") {
  const Read read(head + "setups: [{name: before 1, " + span + "}]\n");
  CHECK(seen(read.notes).empty());
  const LogEntry& e = *read.entry;
  CHECK(e.use.files == std::vector<std::string>{"day.csv"});
  CHECK(e.use.origin.line == 1);
  CHECK(e.use.stated.zone == "+02:00");
  CHECK(e.tolerated_rows == 0);
  CHECK_FALSE(e.longest_gap);
  const LogQuestion& q = e.use.question;
  CHECK(q.cut.kind == LogCut::Kind::times);
  REQUIRE(q.cut.spans.size() == 1);
  CHECK(q.cut.spans[0].name == "before 1");
  CHECK(iso_time(q.cut.spans[0].from_us, "UTC") == "2026-06-14T08:02:00Z");
  CHECK(iso_time(q.cut.spans[0].to_us, "UTC") == "2026-06-14T08:12:00Z");
  CHECK(q.cut.spans[0].origin.line == 3);
  CHECK(e.setups == std::vector<SetupId>{{StageId{StageKind::before, 0}, 1}});
  REQUIRE(q.rules.steady);
  CHECK(q.rules.steady->window == Time::from_si(60.0));
  CHECK(q.rules.load_on == Power::from_si(1.0));
  CHECK_FALSE(q.rules.counter_wraps_at);
}

TEST_CASE("log_entry: every key") {
  const Read read(R"(log: [a.csv, b.csv]
columns: {time: T, power: P W, irradiance: G W/m2, temperature: T degC}
separator: tab
decimal: comma
dates: day first
zone: UTC
longest_gap: 30 s
tolerate: 12
load_on: 2 W
wraps_at: 10 kWh
steady: {window: 30 s, irradiance_change: 3 %, ramp: 2 %, temperature_change: 0.5 K}
cut: plateaus
plateaus: {shortest: 5 min, shortest_off: 3 min}
)");
  CHECK(seen(read.notes).empty());
  const LogEntry& e = *read.entry;
  CHECK(e.use.files.size() == 2);
  CHECK(e.file_places[1].column == 14);
  CHECK(e.use.stated.columns.size() == 4);
  CHECK(e.longest_gap == Time::from_si(30.0));
  CHECK(e.tolerated_rows == 12);
  const StretchRules& rules = e.use.question.rules;
  CHECK(rules.load_on == Power::from_si(2.0));
  CHECK(rules.counter_wraps_at == Energy::from_si(3.6e7));
  CHECK(rules.steady->window == Time::from_si(30.0));
  CHECK(rules.steady->irradiance_change == Ratio::from_si(0.03));
  CHECK(rules.steady->ramp == Ratio::from_si(0.02));
  CHECK(rules.steady->temperature_change == TemperatureDifference::from_si(0.5));
  const LogCut& cut = e.use.question.cut;
  CHECK(cut.kind == LogCut::Kind::plateaus);
  CHECK(cut.plateaus.shortest == Time::from_si(300.0));
  CHECK(cut.plateaus.shortest_off == Time::from_si(180.0));
}

TEST_CASE("log_entry: the steady rule is on for set-ups and off for sessions") {
  CHECK_FALSE(Read(head + "cut: markers\nsteady: no\n").entry->use.question.rules.steady);
  CHECK(Read(head + "cut: markers\nsteady: yes\n").entry->use.question.rules.steady);
  CHECK_FALSE(Read("log: a.csv\n", LogStage::sessions).entry->use.question.rules.steady);
  CHECK(Read("log: a.csv\nsteady: yes\n", LogStage::sessions).entry->use.question.rules.steady);
  CHECK(Read("log: a.csv\nsteady: {}\n", LogStage::sessions).notes.has_errors() == false);
  CHECK(only(Read(head + "cut: markers\nsteady: off\n").notes).code == "K06");
  CHECK(only(Read(head + "cut: markers\nsteady: {window: 60}\n").notes).code == "U02");
}

TEST_CASE("log_entry: sessions have names of the user's choice") {
  const Read read(head + "times: [{name: morning, " + span + "}, {name: noon, " + span + "}]\n",
                  LogStage::sessions);
  CHECK(seen(read.notes).empty());
  CHECK(read.entry->use.question.cut.spans.size() == 2);
  CHECK(read.entry->setups.empty());
  CHECK(Read("log: a.csv\n", LogStage::sessions).entry->use.question.cut.kind ==
        LogCut::Kind::whole);
  const Read twice(head + "times: [{name: noon, " + span + "}, {name: noon, " + span + "}]\n",
                   LogStage::sessions);
  CHECK(only(twice.notes).code == "C05");
  CHECK(only(Read(head + "setups: []\n", LogStage::sessions).notes).code == "K01");
}

TEST_CASE("log_entry: times with an offset need no zone, others do") {
  const std::string times = "times: [{name: a, from: 2026-06-14T10:02:00+02:00, to: 2026-06-14 "
                            "08:12:00.5Z}]\n";
  const Read read("log: a.csv\n" + times, LogStage::sessions);
  CHECK(seen(read.notes).empty());
  CHECK(iso_time(read.entry->use.question.cut.spans[0].from_us, "UTC") == "2026-06-14T08:02:00Z");
  const Read none("log: a.csv\ntimes: [{name: a, " + span + "}]\n", LogStage::sessions);
  CHECK(seen(none.notes) == std::vector<Seen>{{"L05", 2, 25}, {"L05", 2, 50}});
}

TEST_CASE("log_entry: a zone that is missing or none is told once") {
  const std::string setups = "setups: [{name: before 1, " + span + "}]\n";
  CHECK(only(Read("log: a.csv\n" + setups).notes).code == "K02");
  CHECK(only(Read("log: a.csv\nzone: Europe/Berln\n" + setups).notes).code == "L31");
}

TEST_CASE("log_entry: times that are none") {
  const auto with_from = [](const std::string& from) {
    return Read("log: a.csv\nzone: Europe/Berlin\nsetups: [{name: before 1, from: \"" + from +
                "\", to: 2026-12-14T10:00:00}]\n");
  };
  for (const std::string from : {"10:02", "2026-06-14", "14.06.2026 10:02", "2026-02-30T10:00:00",
                                 "2026-06-14T25:00:00", "1781424120", "soon", "06/14/2026 10:02"}) {
    CAPTURE(from);
    const Diagnostic note = only(with_from(from).notes);
    CHECK(note.code == "R07");
    CHECK(note.where.line == 3);
  }
  // The clocks of this zone went from 02:00 to 03:00 on 2026-03-29, and from 03:00 back to 02:00 on
  // 2026-10-25 (Directive 2000/84/EC: last Sundays of March and October, 01:00 UTC).
  CHECK_THAT(only(with_from("2026-03-29T02:30:00").notes).message, Contains("jumped over"));
  CHECK_THAT(only(with_from("2026-10-25T02:30:00").notes).message, Contains("came twice"));
  CHECK(seen(with_from("2026-10-25T02:30:00+01:00").notes).empty());
}

TEST_CASE("log_entry: a stretch ends after it begins") {
  const Read read(head + "setups: [{name: before 1, from: 2026-06-14T10:02:00, to: "
                         "2026-06-14T10:12:00+03:00}]\n");
  CHECK(only(read.notes).code == "C38");
  CHECK(only(read.notes).where.column == 54);
  CHECK_THAT(only(read.notes).message, Contains("ends before it begins"));
  // Found by review: one that lasts nothing was said to end before it begins.
  const Read none(head + "setups: [{name: before 1, from: 2026-06-14T10:02:00, to: "
                         "2026-06-14T10:02:00}]\n");
  CHECK_THAT(only(none.notes).message, Contains("ends when it begins"));
}

TEST_CASE("log_entry: set-ups do not overlap") {
  const auto two = [](const std::string& begin) {
    return Read(head + "setups:\n  - {name: before 1, " + span +
                "}\n  - {name: before 2, from: " + begin + ", to: 2026-06-14T10:20:00}\n");
  };
  const Diagnostic note = only(two("2026-06-14T10:12:00").notes);
  CHECK(note.code == "T28");
  CHECK(note.where.line == 5);
  CHECK(note.related.at(0).where.line == 4);
  CHECK(two("2026-06-14T10:12:01").entry);
}

TEST_CASE("log_entry: set-ups stand under their key and once") {
  const auto named = [](const std::string& name, LogStage stage) {
    return Read(head + "setups: [{name: " + name + ", " + span + "}]\n", stage);
  };
  CHECK(named("baseline 1", LogStage::before).entry);
  CHECK(named("after small 2", LogStage::after).entry);
  CHECK(named("later 1", LogStage::after).entry);
  CHECK(only(named("after 1", LogStage::before).notes).code == "C40");
  CHECK(only(named("before 1", LogStage::after).notes).code == "C40");
  CHECK(only(named("morning", LogStage::before).notes).code == "T25");
  const Read twice(head + "setups: [{name: before 1, " + span + "}, {name: before  1, " + span +
                   "}]\n");
  CHECK(only(twice.notes).code == "C05");
}

TEST_CASE("log_entry: what must be there") {
  CHECK(seen(Read("zone: UTC\ncut: markers\n").notes) == std::vector<Seen>{{"K02", 1, 1}});
  CHECK(only(Read("log: a.csv\ncut: markers\n").notes).code == "K02");
  CHECK(only(Read(head).notes).code == "C39");
  CHECK(only(Read(head + "setups: []\n").notes).code == "K14");
  CHECK(only(Read("log: []\nzone: UTC\ncut: markers\n").notes).code == "K14");
  CHECK(only(Read(head + "cut: markers\nsetups: [{name: before 1, " + span + "}]\n").notes).code ==
        "C01");
  CHECK(only(Read(head + "cut: markers\nplateaus: {shortest: 2 min}\n").notes).code == "C21");
  CHECK(only(Read(head + "cut: hand\n").notes).code == "K06");
}

TEST_CASE("log_entry: amounts out of range") {
  for (const std::string line :
       {"longest_gap: 0 s", "longest_gap: 25 h", "load_on: 0 W", "wraps_at: 0 Wh",
        "steady: {window: 0.5 s}", "steady: {ramp: 0 %}", "steady: {irradiance_change: 101 %}",
        "steady: {temperature_change: 0 K}"}) {
    CAPTURE(line);
    CHECK(only(Read(head + "cut: markers\n" + line + "\n").notes).code == "R01");
  }
  CHECK(only(Read(head + "cut: plateaus\nplateaus: {shortest: 0 s}\n").notes).code == "R01");
  CHECK(only(Read(head + "cut: markers\ntolerate: 1000001\n").notes).code == "R02");
}
