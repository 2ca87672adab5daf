#include "report/readings_sentences.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/log_answers.hpp"

using namespace hailwright;
using namespace hailwright::testing;

TEST_CASE("readings_sentences: a number is rounded by its uncertainty") {
  CHECK(within_text(614.583, 17.7, 34.8, "Wh") == "615 Wh ±\u00a035 Wh (95 %)");
  CHECK(within_text(62.4987, 0.123, 0.241, "W") == "62.50 W ±\u00a00.24 W (95 %)");
  CHECK(within_text(0.98123, 0.0071, 0.0139, "") == "0.9812 ±\u00a00.0139 (95 %)");
  CHECK(within_text(62.5, 0.0, 0.0, "W") == "62.5 W, without any known uncertainty");
}

TEST_CASE("readings_sentences: a title tells no folder") {
  CHECK(names_text({"/media/stick/day.csv"}) == "day.csv");
  CHECK(names_text({"logs/day.csv", "logs/next.csv"}) == "day.csv and next.csv");
  CHECK(names_text({"-"}) == "standard input");
  CHECK(names_text({}) == "no file");
  CHECK(shown_file("logs/day.csv") == "logs/day.csv");
  ReadingsAnswer a = day_answer();
  a.files = {"logs/day.csv"};
  CHECK(log_headline(a).starts_with("day.csv: "));
}

TEST_CASE("readings_sentences: the headline has energy and mean power with their intervals") {
  CHECK(
      log_headline(day_answer()) ==
      "day.csv: 615 Wh ±\u00a035 Wh (95 %) in 9 h 50 min, on average 62.5 W ±\u00a03.5 W (95 %).");
  ReadingsAnswer a = day_answer();
  a.files = {"a.csv", "b.csv", "c.csv"};
  a.results.whole.energy.reset();
  CHECK(log_headline(a) ==
        "a.csv, b.csv and c.csv: 35401 rows, but no energy: no two powers follow each "
        "other within 10 s.");
  a.findings.whole.power.count = 0;
  a.findings.whole.steady.reset();
  CHECK(log_headline(a) ==
        "a.csv, b.csv and c.csv: 35401 rows, but no energy: no row has a power.");
  a.findings.whole.rows = 0;
  CHECK(log_headline(a) == "a.csv, b.csv and c.csv: no row could be used.");
}

TEST_CASE("readings_sentences: what could not be used is said also when there is none") {
  LogTally t;
  t.rows = 1;
  t.lines = 2;
  t.bytes = 874;
  CHECK(read_sentence(t) == "1 row used, of 2 lines, 874 bytes");
  CHECK(unused_sentence(t) == "no row: all could be read and stand in order");
  CHECK(met_sentence(t).empty());
  t.unreadable = 3;
  t.out_of_order = 1;
  t.same_time = 2;
  t.repeated_headers = 1;
  CHECK(unused_sentence(t) == "3 rows could not be read, 1 stands before the time of an earlier "
                              "one: none of them is in any number here");
  CHECK(met_sentence(t) == "2 rows with the time of the row before (used) and 1 repeated header");
}

TEST_CASE("readings_sentences: sizes and shares") {
  CHECK(bytes_text(1) == "1 byte");
  CHECK(bytes_text(445'000'000) == "445 MB");
  CHECK(bytes_text(12'345) == "12.3 kB");
  CHECK(bytes_text(2'500'000'000) == "2.50 GB");
  CHECK(share_text(0.0, 10.0) == "0 %");
  CHECK(share_text(1.0, 3.0) == "33 %");
  CHECK(share_text(1.0, 1e6) == "less than 0.01 %");
  CHECK(share_text(1.0, 0.0) == "0 %");
}

TEST_CASE("readings_sentences: gaps with the share of time that they leave out") {
  LogStretch s;
  s.bridged_s = 900.0;
  CHECK(gaps_sentence(s, Time::from_si(10.0)) == "none: no step in time is longer than 10 s");
  s.gaps = 2;
  s.in_gaps_s = 100.0;
  CHECK(gaps_sentence(s, Time::from_si(10.0)) ==
        "2 steps in time are longer than 10 s, 1 min 40 s together, 10 % of the time: no energy is "
        "counted there");
}

TEST_CASE("readings_sentences: what the steady rule removed by reason") {
  CHECK(removed_sentence({80, 10, 6, 0, 4}) ==
        "the steady rule removed 20 of 100 rows (20 %). Irradiance changed: 10 (10 %), irradiance "
        "drifted: 6 (6.0 %) and a window with a gap, too few rows or no irradiance: 4 (4.0 %)");
  CHECK(removed_sentence({100, 0, 0, 0, 0}) == "the steady rule removed none of 100 rows");
  CHECK_THAT(steady_rule_text({}),
             Contains("windows of 1 min") && Contains("at most 2 %") && Contains("at most 1 K"));
}

TEST_CASE("readings_sentences: how many independent readings rows are worth") {
  CHECK(worth_sentence(series_of(3600, 60.0, 1.0, 0.978, 41.2)) ==
        "3600 readings worth 41 independent ones (lag-1 autocorrelation 0.98)");
  CHECK(worth_sentence(series_of(7, 60.0, 1.0, 0.1, 1.0)) ==
        "7 readings worth one independent one (lag-1 autocorrelation 0.10)");
  CHECK(worth_sentence({}) == "no reading");
}

TEST_CASE("readings_sentences: few readings are never passed over in silence") {
  const SeriesMean many = series_of(3600, 60.0, 1.0, 0.9, 190.0);
  CHECK(few_readings_sentence(LogScatter::effective, many).empty());
  CHECK(few_readings_sentence(LogScatter::none, many).empty());
  CHECK_THAT(few_readings_sentence(LogScatter::effective, series_of(60, 1, 1, 0.97, 5.0)),
             Contains("rather too narrow"));
  CHECK_THAT(few_readings_sentence(LogScatter::one_reading, series_of(7, 1, 1, 0, 1.0)),
             Contains("7 readings are too few"));
  CHECK_THAT(few_readings_sentence(LogScatter::not_known, series_of(1, 1, 0, 0, 1.0)),
             Contains("instruments alone"));
}

TEST_CASE("readings_sentences: the counter beside the integral") {
  const ReadingsAnswer a = day_answer();
  const std::string text = counter_sentence(a.findings.whole, a.results.whole);
  CHECK_THAT(text, Contains("the counter gives 613.1 Wh over 1 reset") &&
                       Contains("2.5 Wh of it in the gaps") &&
                       Contains("0.640 % less than the integral") && Contains("One meter"));
  LogStretch no_power = a.findings.whole;
  CHECK_THAT(counter_sentence(no_power, {}), !Contains("integral"));
  no_power.counter->wraps = 2;
  CHECK_THAT(counter_sentence(no_power, {}), Contains(" over 1 reset and 2 wrap-arounds"));
}

TEST_CASE("readings_sentences: clipping names the load and the irradiance") {
  const LogClipping c{Power::from_si(61.2), Irradiance::from_si(640.0), Irradiance::from_si(980.0),
                      1800};
  CHECK(clipping_sentence(c, "") ==
        "from 640 W/m2 on the power stays at 61.2 W (1800 rows, up to 980 W/m2): the load or its "
        "tracker sets it, not the panel; no maximum power was read there");
}

TEST_CASE("readings_sentences: the ratio has its interval and the share of the meters") {
  const ReadingsAnswer a = pair_answer();
  const std::string text = ratio_sentence(*a.results.whole.ratio, *a.findings.whole.beside);
  CHECK_THAT(text, Contains("gives 0.981 of the first, 95 % interval 0.902 to 1.060") &&
                       Contains("588 windows of a minute") && Contains("Clouds cancel") &&
                       Contains("they make ±\u00a00.079 of it"));
}

TEST_CASE("readings_sentences: an offset between clocks or why there is none") {
  ClockOffset o = *pair_answer().offset;
  CHECK_THAT(clock_sentence(o, *o.offset),
             Contains("7.02 s behind the first's, standard uncertainty 0.12 s") &&
                 Contains("searched up to 1 min both ways") &&
                 Contains("7.02 s were added to the second log's stamps"));
  o.offset = Time::from_si(-7.02);
  CHECK_THAT(clock_sentence(o, *o.offset), Contains("7.02 s ahead of the first's"));
  o.offset.reset();
  o.why_not = "no clouds: the powers change too little";
  CHECK_THAT(clock_sentence(o, {}),
             Contains("was found (searched up to 1 min both ways): no clouds") &&
                 Contains("0 s were added"));
}

TEST_CASE("readings_sentences: plateaus do not tell whether a panel was put up anew") {
  LogCut cut;
  cut.kind = LogCut::Kind::plateaus;
  CHECK_THAT(cut_sentence(cut, 3),
             Contains("3 stretches") &&
                 Contains("The log cannot tell whether the panel was put up anew"));
  cut.kind = LogCut::Kind::times;
  CHECK(cut_sentence(cut, 1) == "1 stretch, cut by the times that were given.");
}

TEST_CASE("readings_sentences: cautions of a panel in the sun") {
  const auto has = [](const LogFindings& f, std::string_view id) {
    for (const Caution* c : log_cautions(f)) {
      if (c->id == id) return true;
    }
    return false;
  };
  LogFindings f = day_findings();
  CHECK(has(f, "pv_energised"));
  CHECK(has(f, "dc_wet"));
  CHECK(has(f, "hot_surface"));  // 58 degC
  CHECK_FALSE(has(f, "body_hit_any"));
  f.whole.temperature.most = 313.15;
  CHECK_FALSE(has(f, "hot_surface"));
  f.whole.temperature.count = 0;  // not known
  CHECK(has(f, "hot_surface"));
}

// Found by review: of 1050 readings of power 825 had a normalised one, and nothing said so.
TEST_CASE("readings_sentences: what counts by its name and what has no normalised power") {
  LogStretch s = day_findings().stretches[0];
  s.power_series.count = 661;
  s.normalised->count = 600;
  CHECK_THAT(named_worth_sentence(s), Contains("600 readings of normalised power worth") &&
                                          Contains("; 61 readings of power are without it"));
  s.normalised->count = 661;
  CHECK_THAT(named_worth_sentence(s), !Contains("without it"));
  s.normalised.reset();
  CHECK_THAT(named_worth_sentence(s), Contains("661 readings of power worth"));
}

TEST_CASE("readings_sentences: of many files of a log two are named and the others counted") {
  CHECK(files_text({"a.csv", "b.csv", "c.csv"}) == "a.csv, b.csv and c.csv");
  CHECK(files_text({"a.csv", "b.csv", "c.csv", "d.csv"}) == "a.csv, b.csv and 2 more");
}
