#include "input/record_looks.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

Protocol two_series() {
  Protocol protocol;
  protocol.series.resize(2);
  protocol.series[0].name = "small";
  protocol.series[1].name = "large";
  return protocol;
}

/// Three throws at the first series, then two at the second.
std::vector<Shot> five_shots() {
  std::vector<Shot> shots(5);
  for (std::size_t i = 0; i < shots.size(); ++i) {
    shots[i].number = static_cast<int>(i) + 1;
    shots[i].series = i < 3 ? 0 : 1;
  }
  return shots;
}

std::vector<Look> read(const std::string& yaml, Diagnostics& notes) {
  const std::vector<Shot> shots = five_shots();
  return read_looks(tree(yaml).items, two_series(), &shots, notes);
}

}  // namespace

TEST_CASE("record_looks: looks in all their forms") {
  Diagnostics notes;
  const auto looks = read(R"(- {when: start, saw: nothing, photos: [a.jpg, b.jpg]}
- {when: after small, saw: [{scuff: place 14, photo: c.jpg}, {cell crack: place 2, share: 12 %}]}
- {when: end, date: 2026-12-01, saw: nothing, photos: d.jpg}
)",
                          notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(looks.size() == 3);
  CHECK(looks[0].start);
  CHECK(looks[0].photos.size() == 2);
  CHECK(looks[0].saw.empty());
  CHECK_FALSE(looks[1].start);
  CHECK(looks[1].after == 0);
  REQUIRE(looks[1].saw.size() == 2);
  CHECK(looks[1].saw[0].kind->word == "scuff");
  CHECK(looks[1].saw[0].where == "place 14");
  CHECK(looks[1].saw[0].photo == "c.jpg");
  CHECK(looks[1].saw[0].origin.line == 2);
  CHECK(looks[1].saw[1].share == percent(12));
  CHECK(looks[2].after == 1);
  CHECK(looks[2].date == "2026-12-01");
  CHECK(looks[2].photos == std::vector<std::string>{"d.jpg"});
}

TEST_CASE("record_looks: every word of the list is read") {
  for (const FindingKind& kind : finding_kinds()) {
    Diagnostics notes;
    const auto looks =
        read("- {when: end, saw: [{" + std::string(kind.word) + ": here}]}\n", notes);
    CAPTURE(kind.word);
    CHECK(notes.empty());
    CHECK(looks.at(0).saw.at(0).kind == &kind);
  }
}

TEST_CASE("record_looks: faults") {
  Diagnostics notes;
  read(R"(- {when: start}
- {saw: nothing}
- {when: after smal, saw: nothing}
- {when: after large, saw: none}
- {when: end, saw: [{scuf: place 1}, scuff, {share: 3 %}, {scuff: a, dent: b}]}
- {when: after small, saw: []}
- {when: start, saw: nothing, date: today}
)",
       notes);
  CHECK(seen(notes) == std::vector<Seen>{{"K02", 1, 3},
                                         {"K02", 2, 3},
                                         {"K06", 3, 10},
                                         {"K17", 4, 28},
                                         {"C05", 5, 10},
                                         {"K16", 5, 22},
                                         {"K05", 5, 38},
                                         {"K02", 5, 45},
                                         {"C15", 5, 70},
                                         {"K17", 6, 28},
                                         {"C05", 7, 10},
                                         {"R03", 7, 37}});
  for (const Diagnostic& note : notes.items()) {
    CAPTURE(note.message);
    CHECK_FALSE(note.hints.empty());
  }
}

TEST_CASE("record_looks: a look between two throws") {
  Diagnostics notes;
  const auto looks = read(R"(- {when: start, saw: nothing}
- {when: after throw 2, saw: nothing}
- {when: after throw 3, saw: nothing}
- {when: after small, saw: nothing}
- {when: after throw 4, saw: [{dent: place 3}]}
- {when: end, saw: nothing}
)",
                          notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(looks.size() == 6);
  CHECK(looks[1].after == 0);
  CHECK(looks[1].after_throw == 2);
  CHECK(looks[2].after_throw == 3);
  CHECK(looks[3].after == 0);
  CHECK_FALSE(looks[3].after_throw);
  CHECK(looks[4].after == 1);
  CHECK(looks[4].after_throw == 4);
  CHECK_FALSE(looks[4].start);
  CHECK(looks[4].origin.column == 10);
  CHECK_FALSE(looks[5].after_throw);
}

TEST_CASE("record_looks: throws that are not there or looked after twice") {
  Diagnostics notes;
  read(R"(- {when: after throw 6, saw: nothing}
- {when: after throw 0, saw: nothing}
- {when: after throw two, saw: nothing}
- {when: after throw, saw: nothing}
- {when: after throw 2, saw: nothing}
- {when: after throw 2, saw: nothing}
)",
       notes);
  CHECK(seen(notes) ==
        std::vector<Seen>{
            {"C35", 1, 10}, {"C35", 2, 10}, {"K06", 3, 10}, {"K06", 4, 10}, {"C05", 6, 10}});
  CHECK_THAT(notes.items().at(0).message, Contains("no throw 6") && Contains("has 5"));
  CHECK(notes.items().at(4).related.at(0).where.line == 5);
}

TEST_CASE("record_looks: throws are not looked up where the shots could not be read") {
  Diagnostics notes;
  const auto looks = read_looks(tree("- {when: after throw 60, saw: nothing}\n").items,
                                two_series(), nullptr, notes);
  CHECK(notes.empty());
  CHECK(looks.size() == 1);
}

namespace {

Look look_at(const char* when, const char* date) {
  Look look;
  look.date = date;
  const std::string text = when;
  if (text == "start") {
    look.start = true;
  } else if (text == "bags") {
    look.after_stress = 0;
  } else if (text.starts_with("throw ")) {
    look.after_throw = std::stoi(text.substr(6));
    look.after = *look.after_throw > 3 ? 1 : 0;
  } else {
    look.after = text == "large" ? 1 : 0;
  }
  return look;
}

StressDone bags(const char* date, bool after_hail) {
  StressDone done;
  done.date = date;
  done.after_hail = after_hail;
  return done;
}

/// A record of 2026-06-14 with five shots.
Record shot_at(std::vector<Look> looks) {
  Record record;
  record.date = "2026-06-14";
  record.shots = five_shots();
  record.looks = std::move(looks);
  return record;
}

Diagnostics days(const Record& record, bool with_series = true) {
  Protocol protocol = two_series();
  if (!with_series) protocol.series.clear();
  protocol.stresses.resize(1);
  protocol.stresses[0].name = "bags";
  Diagnostics notes;
  check_look_days(record, protocol, notes);
  return notes;
}

std::vector<std::string> messages(const Diagnostics& notes) {
  std::vector<std::string> all;
  for (const Diagnostic& note : notes.items()) {
    CHECK(note.code == "T33");
    CHECK(note.severity == Severity::error);
    CHECK_FALSE(note.hints.empty());
    all.push_back(note.message);
  }
  return all;
}

using Messages = std::vector<std::string>;

}  // namespace

// Found by review: looks "before" and "after" the shots that were dated the other way round carried
// a verdict without a word.
TEST_CASE("record_looks: no look is dated on the wrong side of the shots") {
  CHECK(
      messages(days(shot_at({look_at("start", "2026-06-19"), look_at("small", "2026-06-01"),
                             look_at("large", "2026-06-02"), look_at("throw 2", "2026-06-13")}))) ==
      Messages{"the look at the start is dated 2026-06-19, after the shots of 2026-06-14",
               "the look after \"small\" is dated 2026-06-01, before the shots of 2026-06-14",
               "the look after \"large\" is dated 2026-06-02, before the shots of 2026-06-14",
               "the look after throw 2 is dated 2026-06-13, before the shots of 2026-06-14"});
  CHECK(days(shot_at({look_at("start", "2026-06-14"), look_at("throw 2", "2026-06-14"),
                      look_at("small", ""), look_at("large", "2026-06-20")}))
            .empty());
  CHECK(days(shot_at({look_at("start", "2026-05-02"), look_at("large", "")})).empty());
  Record record = shot_at({look_at("start", "2026-06-19")});
  record.date.clear();
  CHECK(days(record).empty());
}

TEST_CASE("record_looks: looks after throws come in the order of their days") {
  const auto found = days(shot_at({look_at("large", "2026-06-15"), look_at("throw 2", "2026-06-15"),
                                   look_at("small", "2026-06-16"), look_at("throw 4", "")}));
  CHECK(
      messages(found) ==
      Messages{"the look after throw 4 is of the day of the shots, 2026-06-14, and the look after "
               "\"small\", which comes first, is dated 2026-06-16",
               "the look after \"large\" is dated 2026-06-15, and the look after \"small\", which "
               "comes first, is dated 2026-06-16"});
  CHECK(found.items().at(0).related.size() == 1);
  CHECK(days(shot_at({look_at("large", "2026-06-16"), look_at("small", "2026-06-15"),
                      look_at("throw 2", "2026-06-15")}))
            .empty());
}

TEST_CASE("record_looks: a look after a stress before the shots is not dated after them") {
  Record record = shot_at({look_at("bags", "2026-06-15")});
  CHECK(days(record).empty());
  record.stresses = {bags("2026-06-10", false)};
  CHECK(messages(days(record)) ==
        Messages{"the look after \"bags\" is dated 2026-06-15, after the shots of 2026-06-14"});
  record.stresses = {bags("2026-06-15", true)};
  CHECK(days(record).empty());
  CHECK(follows_stress_before_shots(record, std::nullopt) == false);
}

TEST_CASE("record_looks: the look at the end where nothing was thrown") {
  Record record =
      shot_at({look_at("start", ""), look_at("bags", ""), look_at("end", "2026-06-15")});
  record.shots.clear();
  CHECK(days(record, false).empty());
  record.stresses = {bags("2026-06-16", false)};
  const auto found = days(record, false);
  CHECK(
      messages(found) ==
      Messages{"the look at the end is dated 2026-06-15, before \"bags\" was done on 2026-06-16"});
  CHECK(found.items().at(0).related.size() == 1);
  record.stresses = {bags("", false)};
  CHECK(days(record, false).empty());
  record.looks.back().date = "2026-06-13";
  CHECK(messages(days(record)) ==
        Messages{"the look after \"small\" is dated 2026-06-13, before \"bags\" was done on "
                 "2026-06-14"});
  record.looks.back().date.clear();
  CHECK(days(record, false).empty());
}
