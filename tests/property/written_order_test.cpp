// How a test is written down does not matter: order of keys and columns, units, order of set-ups.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "hailwright/evaluate/assessment.hpp"
#include "hailwright/metrology/random.hpp"
#include "hailwright/report/compose.hpp"
#include "hailwright/report/render.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"
#include "support/property.hpp"

namespace hailwright::testing {

namespace {

/// A decimal number as somebody would type it: 251 with one decimal is "25.1".
struct Decimal {
  long long digits = 0;
  int decimals = 0;

  /// Typed with its point so many places further left.
  [[nodiscard]] std::string text(int left = 0) const {
    const int places = decimals + left;
    if (places <= 0)
      return fmt::format("{}{}", digits, std::string(static_cast<std::size_t>(-places), '0'));
    return fmt::format("{:.{}f}", static_cast<double>(digits) / std::pow(10.0, places), places);
  }
  [[nodiscard]] double value() const {
    return static_cast<double>(digits) / std::pow(10.0, decimals);
  }
};

/// A unit in which the amount may be typed instead of its own: the point so many places left.
struct OtherUnit {
  const char* symbol;
  int left;
};
const std::vector<OtherUnit>& lengths() {  // of mm
  static const std::vector<OtherUnit> units{{"mm", 0}, {"cm", 1}, {"m", 3}};
  return units;
}
const std::vector<OtherUnit>& masses() {  // of g
  static const std::vector<OtherUnit> units{{"g", 0}, {"kg", 3}};
  return units;
}
const std::vector<OtherUnit>& powers() {  // of W
  static const std::vector<OtherUnit> units{{"W", 0}, {"kW", 3}};
  return units;
}

/// How one case is written: the plain way, or with anything shuffled and in other units.
class Hand {
public:
  Hand() = default;
  explicit Hand(std::uint64_t seed) : random_(seed), plain_(false) {}

  template <class T>
  std::vector<T> shuffled(std::vector<T> items) {
    for (std::size_t i = items.size(); i > 1 && !plain_; --i)
      std::swap(items[i - 1], items[below(i)]);
    return items;
  }
  const OtherUnit& unit(const std::vector<OtherUnit>& of) {
    return of[plain_ ? 0 : below(of.size())];
  }
  std::string amount(const Decimal& number, const std::vector<OtherUnit>& of) {
    const OtherUnit& u = unit(of);
    return number.text(u.left) + " " + u.symbol;
  }
  std::string temperature_unit() {
    static const std::vector<std::string> units{"degC", "degF", "K"};
    return units[plain_ ? 0 : below(3)];
  }

private:
  std::size_t below(std::size_t n) { return static_cast<std::size_t>(random_.bits() % n); }
  RandomStream random_{1};
  bool plain_ = true;
};

std::string in_unit_typed(const Decimal& celsius, const std::string& unit) {
  if (unit == "degF")
    return fmt::format("{:.{}f}", celsius.value() * 1.8 + 32.0, celsius.decimals + 1);
  if (unit == "K") return fmt::format("{:.2f}", celsius.value() + 273.15);
  return celsius.text();
}

/// A text, or a mapping in braces.
struct Written {
  std::string text;
  std::vector<std::pair<std::string, Written>> keys{};
  Written(std::string t) : text(std::move(t)) {}  // NOLINT(google-explicit-constructor)
  Written(const char* t) : text(t) {}             // NOLINT(google-explicit-constructor)
  Written(std::vector<std::pair<std::string, Written>> k) : keys(std::move(k)) {}  // NOLINT
};
using Mapping = std::vector<std::pair<std::string, Written>>;

std::string flow(Hand& hand, const Written& value) {
  if (value.keys.empty()) return value.text;
  std::string text;
  for (const auto& [key, inner] : hand.shuffled(value.keys))
    text += (text.empty() ? "{" : ", ") + key + ": " + flow(hand, inner);
  return text + "}";
}

/// The first key says which file it is; the others may stand in any order.
std::string file(Hand& hand, const std::string& first, const Mapping& keys) {
  std::string text = "hailwright: " + first + "\n";
  for (const auto& [key, value] : hand.shuffled(keys))
    text += key + ": " + flow(hand, value) + "\n";
  return text;
}

/// Columns in any order, rows as given.
std::string table(Hand& hand, const std::vector<std::vector<std::string>>& columns) {
  const auto placed = hand.shuffled(columns);
  std::string text;
  for (std::size_t row = 0; row < placed.front().size(); ++row) {
    for (std::size_t c = 0; c < placed.size(); ++c)
      text += (c == 0 ? "" : ",") + placed[c].at(row);
    text += '\n';
  }
  return text;
}

/// What was measured, however it is written.
struct MeasuredTest {
  struct Row {
    std::string setup, round, panel;
    Decimal power, sun, back;
  };
  std::vector<Row> readings;
  Decimal diameter{253, 1}, together{776, 1};
};

MeasuredTest measured(Draw& draw) {
  MeasuredTest m;
  RandomStream random(draw.bits("noise"));
  const double loss = draw.number("loss", 0.0, 0.12);
  const int setups = draw.whole("set-ups a stage", 3, 4);
  const auto typed = [](double value, int decimals) {
    return Decimal{std::llround(value * std::pow(10.0, decimals)), decimals};
  };
  for (const char* stage : {"before", "after"}) {
    const double left = std::string(stage) == "after" ? 1.0 - loss : 1.0;
    for (int s = 1; s <= setups; ++s) {
      const double setup = 1.0 + 0.003 * random.normal();
      for (int r = 1; r <= 3; ++r) {
        const double sun = 850.0 + 4.0 * random.uniform();
        const Decimal back = typed(45.0 + 0.5 * random.uniform(), 1);
        for (const bool control : {false, true}) {
          const double watts = control ? 72.0 : 71.0 * left * setup;
          m.readings.push_back({fmt::format("{} {}", stage, s), std::to_string(r),
                                control ? "C" : "A",
                                typed(watts * sun / 850.0 * (1.0 + 0.001 * random.normal()), 1),
                                typed(sun, 0), back});
        }
      }
    }
  }
  m.together.digits += draw.whole("mass [0.1 g]", -40, 40);
  m.diameter.digits += draw.whole("diameter [0.1 mm]", -5, 5);
  return m;
}

std::string readings_table(Hand& hand, const MeasuredTest& m) {
  const OtherUnit power = hand.unit(powers());
  const std::string degrees = hand.temperature_unit();
  std::vector<std::vector<std::string>> columns{
      {"setup"},    {"round"},          {"panel"}, {std::string("power ") + power.symbol},
      {"sun W/m2"}, {"temp " + degrees}};
  for (const MeasuredTest::Row& row : m.readings) {
    const std::vector<std::string> cells{row.setup,      row.round,
                                         row.panel,      row.power.text(power.left),
                                         row.sun.text(), in_unit_typed(row.back, degrees)};
    for (std::size_t c = 0; c < cells.size(); ++c)
      columns[c].push_back(cells[c]);
  }
  return table(hand, columns);
}

std::string balls_table(Hand& hand, const MeasuredTest& m) {
  const OtherUnit mass = hand.unit(masses());
  const OtherUnit length = hand.unit(lengths());
  return table(hand, {{"kind", "small"},
                      {"count", "10"},
                      {std::string("together ") + mass.symbol, m.together.text(mass.left)},
                      {std::string("diameter ") + length.symbol, m.diameter.text(length.left)}});
}

std::string protocol(Hand& hand) {
  const auto mm = [&](long long digits, int decimals) {
    return hand.amount({digits, decimals}, lengths());
  };
  const std::string series = "[" +
                             flow(hand, Mapping{{"name", "small"},
                                                {"grade", "IEC 61215 25 mm"},
                                                {"places", "2"},
                                                {"place_size", mm(25, 0)},
                                                {"setting", "mark 3"}}) +
                             "]";
  return file(
      hand, "protocol 1",
      {{"title", "Garden test"},
       {"decide", Mapping{{"limit", "5 %"}, {"risk", "2.5 %"}, {"see_chance", "90 %"}}},
       {"series", series},
       {"launch",
        Mapping{
            {"kind", "sling"},
            {"distance", mm(3600, 0)},
            {"height", mm(1200, 0)},
            {"aim", "level"},
            {"fastest", hand.unit({{"m/s", 0}, {"km/h", 1}}).left == 0 ? "30 m/s" : "108 km/h"}}},
       {"speed", Mapping{{"by", "trial shots"},
                         {"video", "240 fps"},
                         {"length", mm(3000, 0)},
                         {"length_accuracy", mm(5, 0)},
                         {"parallax", "1 %"},
                         {"to_panel", mm(1800, 0)}}},
       {"tools", Mapping{{"meter", Mapping{{"accuracy", "1 % + 3 digits"},
                                           {"step", hand.amount({1, 1}, powers())}}},
                         {"sun", Mapping{{"accuracy", "5 %"}, {"step", "1 W/m2"}}},
                         {"thermometer",
                          Mapping{{"accuracy", "2 degC"}, {"each_time", "1 K"}, {"where", "back"}}},
                         {"scales", Mapping{{"accuracy", hand.amount({2, 1}, masses())},
                                            {"step", hand.amount({1, 1}, masses())}}},
                         {"calipers", Mapping{{"accuracy", mm(1, 1)}, {"step", mm(1, 1)}}}}},
       {"measure", Mapping{{"compare", "control-panel"},
                           {"meters", "1"},
                           {"maximum_power", "sweep"},
                           {"before", "4"},
                           {"after", "4"},
                           {"redone", "[mount, aim, probe, leads]"},
                           {"day", "0.2 %"},
                           {"control_stability", "0.3 %"}}}});
}

std::string record(Hand& hand) {
  const std::string air = hand.temperature_unit();
  return file(
      hand, "record 1",
      {{"title", "Panel A"},
       {"protocol", "protocol.yaml"},
       {"panel", "panel.yaml"},
       {"label", "A"},
       {"control", Mapping{{"panel", "panel.yaml"}, {"same_model", "yes"}, {"label", "C"}}},
       {"day", Mapping{{"date", "2026-06-14"}, {"air", in_unit_typed({200, 1}, air) + " " + air}}},
       {"tables", Mapping{{"balls", "balls.csv"},
                          {"trials", "trials.csv"},
                          {"shots", "shots.csv"},
                          {"readings", "readings.csv"}}},
       {"looks",
        "[" + flow(hand, Mapping{{"when", "start"}, {"saw", "nothing"}}) + ", " +
            flow(hand, Mapping{{"when", "after small"},
                               {"saw", "[" + flow(hand, Mapping{{"scuff", "place 1"}}) + "]"}}) +
            "]"},
       {"conditions", Mapping{{"clean_and_dry", "yes"},
                              {"same_leads", "yes"},
                              {"same_tools", "yes"},
                              {"pre_exposed", "yes"},
                              {"in_sun_first", "20 min"},
                              {"incidence", "15 deg"},
                              {"since_last_shot", "60 min"}}},
       {"incidents", "none"},
       {"serial", "0001"}});
}

input_files::Files written(Hand hand, const MeasuredTest& m) {
  input_files::Files files;
  files["protocol.yaml"] = protocol(hand);
  files["record.yaml"] = record(hand);
  files["panel.yaml"] = file(
      hand, "panel 1",
      {{"name", "Panel A"},
       {"build", Mapping{{"kind", "framed glass"}, {"glass", hand.amount({32, 1}, lengths())}}},
       {"rated", Mapping{{"power", hand.amount({100, 0}, powers())},
                         {"open_voltage", "22.1 V"},
                         {"short_current", "5.9 A"}}},
       {"temperature", Mapping{{"power", "-0.38 %/K"}, {"voltage", "-0.29 %/K"}}},
       {"size", "1020 x 510 x 35 mm"},
       {"weight", hand.amount({69, 1}, {{"kg", 0}})}});
  files["balls.csv"] = balls_table(hand, m);
  files["trials.csv"] = table(hand, {{"setting", "mark 3", "", "", "", "", ""},
                                     {"frames", "30", "30", "29.5", "30", "29.5", "29.5"},
                                     {"landed", "in", "in", "in", "in", "in", "in"}});
  files["shots.csv"] = table(hand, {{"panel", "A", "A"},
                                    {"series", "small", "small"},
                                    {"place", "1", "2"},
                                    {"landed", "in", "8 x 12 mm"},
                                    {"out s", "34", "48"}});
  files["readings.csv"] = readings_table(hand, m);
  return files;
}

/// A judgement with what it judged.
struct JudgedFiles {
  Test test;
  Assessment assessment;
  std::string text;
};

JudgedFiles judged_files(const input_files::Files& files) {
  SourceSet sources;
  Checked<Test> read = read_test("record.yaml", input_files::loader(files), sources);
  must(read.value.has_value(), render_diagnostics(read.notes, sources));
  JudgedFiles judged{std::move(*read.value), {}, {}};
  judged.assessment = assess(judged.test);
  judged.text =
      render_markdown(compose_judgement({{&judged.test, &judged.assessment}}, sources), {});
  return judged;
}

/// The first line in which two texts differ.
void must_be_the_same_text(const std::string& found, const std::string& wanted) {
  if (found == wanted) return;
  const auto at = std::mismatch(found.begin(), found.end(), wanted.begin(), wanted.end());
  const auto from = static_cast<std::size_t>(at.first - found.begin());
  const std::size_t begin = from < 60 ? 0 : from - 60;
  must(false, "'" + found.substr(begin, 120) + "' instead of '" + wanted.substr(begin, 120) + "'");
}

}  // namespace

// The document holds no text that was typed with a unit, so it is the same to the last byte. Units
// move a value by its last bit; a figure could turn over only where it lies on a half to 15 digits.
TEST_CASE("Property: order of keys and columns and the units typed change no byte of a judgement") {
  holds(
      "files shuffled and in other units give the same document",
      [](Draw& draw) {
        const MeasuredTest m = measured(draw);
        const JudgedFiles plain = judged_files(written(Hand(), m));
        must(plain.assessment.power.at(0).estimated(), "the power is judged");
        const JudgedFiles other = judged_files(written(Hand(draw.bits("hand")), m));
        must_be_the_same_text(other.text, plain.text);
      },
      10);
}

// Not so the order of rows where it tells the order of readings: a set-up with neither times nor
// rounds, whose drift is taken out by it (M8), and shots, which are in the order thrown.
TEST_CASE("Property: the order of set-ups within a stage changes no number of a judgement") {
  holds(
      "set-ups in any order give the same estimate, interval and answers",
      [](Draw& draw) {
        MeasuredTest m = measured(draw);
        const JudgedFiles plain = judged_files(written(Hand(), m));
        const std::vector<MeasuredTest::Row> rows = m.readings;
        const std::size_t in_setup = 6;
        const std::vector<std::size_t> order = draw.order("set-ups", rows.size() / in_setup);
        m.readings.clear();
        for (const std::size_t setup : order) {
          for (std::size_t r = 0; r < in_setup; ++r)
            m.readings.push_back(rows[setup * in_setup + r]);
        }
        const PowerResult& wanted = plain.assessment.power.at(0);
        const JudgedFiles other = judged_files(written(Hand(), m));
        const PowerResult& found = other.assessment.power.at(0);
        must_be_close(found.estimate.lambda, wanted.estimate.lambda, 1e-13, "lambda");
        must_be_close(found.estimate.expanded, wanted.estimate.expanded, 1e-11, "half-width");
        must(found.answers == wanted.answers, "the same answers");
        must(found.notes.size() == wanted.notes.size(), "as many notes");
        must(other.assessment.verdicts.at(0).word == plain.assessment.verdicts.at(0).word,
             "one word");
      },
      10);
}

}  // namespace hailwright::testing
