#include "input/stated_text.hpp"

#include <cmath>

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

constexpr KeyList keys{"this tool", "accuracy spread within uncertainty"};
constexpr Range any{-1e9, 1e9, "anything"};

std::optional<StatedParts> state(const std::string& yaml, const StatedForm& form,
                                 Diagnostics& notes) {
  const Node root = tree(yaml);
  return read_statement(MapReader(root, keys, root.span, notes), form);
}

StatedParts good(const std::string& yaml, const StatedForm& form) {
  Diagnostics notes;
  const auto parts = state(yaml, form, notes);
  CAPTURE(yaml, seen(notes));
  REQUIRE(notes.empty());
  REQUIRE(parts);
  return *parts;
}

Diagnostic bad(const std::string& yaml, const StatedForm& form) {
  Diagnostics notes;
  CHECK_FALSE(state(yaml, form, notes));
  return only(notes);
}

const StatedForm power{Measure::power};
const StatedForm mass{Measure::mass};
const StatedForm kelvin{Measure::temperature_difference, false, false};

}  // namespace

TEST_CASE("stated_text: a maker's figure is a half-width, term by term") {
  const StatedParts parts = good("accuracy: 1 % + 3 digits + 0.5 W\n", power);
  CHECK(parts.shape == Shape::rectangular);
  CHECK(parts.relative == 0.01);
  CHECK(parts.digits == 3.0);
  CHECK(parts.absolute_si == 0.5);
  CHECK(std::isinf(parts.degrees_of_freedom));
  CHECK(parts.origin.column == 11);
  CHECK(good("accuracy: 5%+3W\n", power).absolute_si == 3.0);
  CHECK(good("accuracy: 1 digit\n", power).digits == 1.0);
  CHECK(good("accuracy: 1e+1 W\n", power).absolute_si == 10.0);
  CHECK(good("accuracy: 2 degC\n", kelvin).absolute_si == 2.0);
  CHECK_THAT(good("accuracy: 3.6 degF\n", kelvin).absolute_si, WithinRel(2.0, 1e-12));
}

TEST_CASE("stated_text: an error is neither next to nothing nor larger than all") {
  // A judgement of such an error ended as a bug of ours: no number was left to print.
  for (const char* size : {"97531 %", "101 %", "1e300 W", "1000001 W", "1e300 digits"}) {
    CAPTURE(size);
    CHECK(bad("accuracy: " + std::string(size) + "\n", power).code == "R01");
  }
  for (const char* size : {"1e-300 %", "1e-300 W", "0 %", "0 digits"}) {
    CAPTURE(size);
    CHECK(bad("accuracy: " + std::string(size) + "\n", power).code == "R04");
  }
  CHECK(good("accuracy: 100 %\n", power).relative == 1.0);
  CHECK(good("accuracy: 1e6 W\n", power).absolute_si == 1e6);
  CHECK(good("accuracy: 0.001 W\n", power).absolute_si == 0.001);
  CHECK(bad("uncertainty: {expanded: 1 W, k: 1e300}\n", power).code == "R01");
}

TEST_CASE("stated_text: unknown is absent, not an error") {
  Diagnostics notes;
  CHECK_FALSE(state("accuracy: unknown\n", power, notes));
  CHECK(notes.empty());
}

TEST_CASE("stated_text: own repeats are a standard deviation") {
  const StatedParts parts = good("spread: 0.3 g\n", mass);
  CHECK(parts.shape == Shape::normal);
  CHECK(parts.absolute_si == 0.0003);
  CHECK(good("spread: 2 %\n", mass).relative == 0.02);
}

// JCGM 100:2008, 4.3.4 (from memory): a value quoted at a level of confidence is divided by the
// factor of the normal distribution; the factors 1.64, 1.96 and 2.58 for 90, 95 and 99 %. They
// have three printed digits.
TEST_CASE("stated_text: a certificate with its level") {
  const auto factor =
      GENERATE(std::pair{"90 %", 1.64}, std::pair{"95 %", 1.96}, std::pair{"99 %", 2.58});
  CAPTURE(factor.first);
  const StatedParts parts = good(std::string("within: 1 W, ") + factor.first + "\n", power);
  CHECK(parts.shape == Shape::normal);
  CHECK_THAT(1.0 / parts.absolute_si, WithinAbs(factor.second, 0.005));
  CHECK_THAT(good(std::string("within: 1 %, ") + factor.first + "\n", power).relative * 100.0,
             WithinRel(parts.absolute_si, 1e-12));
}

TEST_CASE("stated_text: the metrologist's ways") {
  const StatedParts u = good("uncertainty: {u: 0.2 g, degrees_of_freedom: 5}\n", mass);
  CHECK(u.shape == Shape::normal);
  CHECK(u.absolute_si == 0.0002);
  CHECK(u.degrees_of_freedom == 5.0);
  const StatedParts half = good("uncertainty: {half_width: 0.5 g, shape: triangular}\n", mass);
  CHECK(half.shape == Shape::triangular);
  CHECK(half.absolute_si == 0.0005);
  const StatedParts expanded = good("uncertainty: {expanded: 1 %, k: 2}\n", mass);
  CHECK(expanded.shape == Shape::normal);
  CHECK(expanded.relative == 0.005);
  CHECK(std::isinf(expanded.degrees_of_freedom));
  CHECK(stated_as<Mass>(half)->absolute == 0.5_g);
  CHECK_FALSE(stated_as<Mass>(std::nullopt));
}

TEST_CASE("stated_text: a plus-minus sign is refused with the three ways in its unit") {
  const std::string sign = GENERATE(as<std::string>{}, "±", "+-", "+/-");
  for (const std::string key : {"accuracy", "spread", "within"}) {
    const Diagnostic note = bad(key + ": " + sign + "0.6 g\n", mass);
    CAPTURE(key, sign);
    CHECK(note.code == "U11");
    CHECK(note.where.column == static_cast<int>(key.size()) + 3);
    CHECK_THAT(note.message, Contains("± alone does not say what it promises"));
    REQUIRE(note.hints.size() == 3);
    CHECK_THAT(note.hints[0], Contains("accuracy: 0.6 g "));
    CHECK_THAT(note.hints[1], Contains("spread: 0.6 g "));
    CHECK_THAT(note.hints[2], Contains("within: \"0.6 g, 95 %\""));
  }
  CHECK_THAT(bad("accuracy: ±1 % + 3 digits\n", power).hints[0], Contains("1 % + 3 digits"));
  CHECK(bad("uncertainty: {u: ±1 %}\n", power).code == "U11");
}

TEST_CASE("stated_text: faults are located and mended") {
  struct Row {
    const char* yaml;
    const char* code;
    int column;
  };
  const Row row = GENERATE(
      Row{"accuracy: 1 % + 3\n", "U02", 17}, Row{"accuracy: 1 % + 3 g\n", "U03", 19},
      Row{"accuracy: 1 % + 2 %\n", "U24", 17}, Row{"accuracy: 1 % +\n", "U21", 16},
      Row{"accuracy: 0 %\n", "R04", 11}, Row{"accuracy: -1 %\n", "R04", 11},
      Row{"accuracy: 1 % FS\n", "U13", 13}, Row{"accuracy: 3 counts\n", "U04", 13},
      Row{"spread: 3 digits\n", "U22", 9}, Row{"within: 1 %\n", "U25", 9},
      Row{"within: 1 %, 95\n", "U02", 14}, Row{"within: 1 %, 50 %\n", "R05", 14},
      Row{"within: 1 %, 100 %\n", "R05", 14}, Row{"accuracy: [1 %]\n", "K05", 11},
      Row{"uncertainty: {half_width: 1 %}\n", "K02", 1},
      Row{"uncertainty: {expanded: 1 %}\n", "K02", 1},
      Row{"uncertainty: {expanded: 1 %, k: 0.5}\n", "R01", 33},
      Row{"uncertainty: {u: 1 %, k: 2}\n", "C02", 23},
      Row{"uncertainty: {u: 1 %, shape: arcsine}\n", "C02", 23},
      Row{"uncertainty: {u: 1 %, shape: triangular}\n", "C02", 23},
      Row{"uncertainty: {expanded: 1 %, k: 2, shape: rectangular}\n", "C02", 36},
      Row{"uncertainty: {half_width: 1 %, shape: normal}\n", "C02", 32},
      Row{"uncertainty: {half_width: 1 %, shape: square}\n", "K06", 39},
      Row{"uncertainty: {u: 1 %, degrees_of_freedom: 0}\n", "R01", 43},
      Row{"uncertainty: {u: 1 %, degrees_of_freedom: -4}\n", "R01", 43},
      Row{"uncertainty: {u: 1 %, degrees_of_freedom: 0.5}\n", "R01", 43},
      Row{"uncertainty: {u: 1 %, degrees_of_freedom: many}\n", "U12", 43},
      Row{"uncertainty: {u: 1 %, expanded: 2 %}\n", "C01", 23},
      Row{"uncertainty: {shape: arcsine}\n", "K02", 1}, Row{"uncertainty: 1 %\n", "K05", 14});
  CAPTURE(row.yaml);
  const Diagnostic note = bad(row.yaml, power);
  CHECK(note.code == row.code);
  CHECK(note.where.column == row.column);
}

TEST_CASE("stated_text: what has no meaning for this reading") {
  CHECK(bad("accuracy: 2 %\n", kelvin).code == "U23");
  CHECK(bad("accuracy: 1 digit\n", kelvin).code == "U22");
}

TEST_CASE("stated_text: two statements name both lines") {
  const Diagnostic note = bad("accuracy: 1 %\nspread: 1 %\n", power);
  CHECK(note.code == "C01");
  CHECK(note.where.line == 2);
  CHECK(note.related.at(0).where.line == 1);
}

TEST_CASE("stated_text: values with an error of their own") {
  Diagnostics notes;
  const auto read = [&](const std::string& yaml) {
    const Node root = tree(yaml);
    const Entry& entry = root.entries.at(0);
    return read_value(entry.value, entry.key, entry.key_span, Measure::temperature_coefficient, any,
                      notes);
  };
  const auto plain = read("power: -0.35 %/K\n");
  REQUIRE(plain);
  CHECK_THAT(plain->value_si, WithinRel(-0.0035, 1e-12));
  CHECK_FALSE(plain->size_si);
  const auto half = read("power: {value: -0.35 %/K, half_width: 0.05 %/K}\n");
  REQUIRE(half);
  CHECK(half->shape == Shape::rectangular);
  CHECK_THAT(*half->size_si, WithinRel(0.0005, 1e-12));
  const auto expanded = read("power: {value: -0.35 %/K, expanded: 0.06 %/K, k: 2}\n");
  REQUIRE(expanded);
  CHECK(expanded->shape == Shape::normal);
  CHECK_THAT(*expanded->size_si, WithinRel(0.0003, 1e-12));
  CHECK_FALSE(read("power: unknown\n"));
  CHECK(notes.empty());
  CHECK_FALSE(read("power: {value: -0.35 %/K}\n"));
  CHECK_FALSE(read("power: {u: 0.05 %/K}\n"));
  CHECK_FALSE(read("power: {value: -0.35 %/K, u: 5 %}\n"));
  CHECK_FALSE(read("power: {value: -0.35, u: 0.05 %/K}\n"));
  CHECK_FALSE(read("power: -0.35 ±0.05 %/K\n"));
  std::vector<std::string> codes;
  for (const Diagnostic& note : notes.items())
    codes.emplace_back(note.code);
  CHECK(codes == std::vector<std::string>{"K02", "K02", "U23", "U02", "U11"});
}

// The shapes of JCGM 100:2008, 4.3.7 to 4.3.9 and G.4.2 (from memory): a divisor of the root of 3,
// 6 or 2 for a half-width, 1 for a standard deviation; each may have degrees of freedom.
TEST_CASE("stated_text: every shape with its degrees of freedom") {
  struct Row {
    const char* size;
    Shape shape;
    double u;
  };
  const Row row = GENERATE(
      Row{"u: 0.6 g, shape: normal", Shape::normal, 0.6e-3}, Row{"u: 0.6 g", Shape::normal, 0.6e-3},
      Row{"expanded: 1.2 g, k: 2, shape: normal", Shape::normal, 0.6e-3},
      Row{"half_width: 0.6 g, shape: rectangular", Shape::rectangular, 0.6e-3 / 1.7320508075688772},
      Row{"half_width: 0.6 g, shape: triangular", Shape::triangular, 0.6e-3 / 2.449489742783178},
      Row{"half_width: 0.6 g, shape: arcsine", Shape::arcsine, 0.6e-3 / 1.4142135623730951});
  CAPTURE(row.size);
  const std::string text =
      std::string("uncertainty: {") + row.size + ", degrees_of_freedom: 12.5}\n";
  const auto stated = stated_as<Mass>(good(text, mass));
  REQUIRE(stated);
  CHECK(stated->shape == row.shape);
  CHECK(stated->degrees_of_freedom == 12.5);
  CHECK_THAT(stated->absolute_u(Mass{}).si(), WithinRel(row.u, 1e-12));
}

TEST_CASE("stated_text: a value's error has degrees of freedom too") {
  const auto read = [](const std::string& yaml) {
    Diagnostics notes;
    const Node root = tree(yaml);
    const Entry& entry = root.entries.at(0);
    const auto parts = read_value(entry.value, entry.key, entry.key_span,
                                  Measure::temperature_difference, any, notes);
    CAPTURE(yaml, seen(notes));
    CHECK(notes.empty());
    return stated_value_as<TemperatureDifference>(parts);
  };
  const auto t = read("cell: {value: 3 K, u: 0.5 K, degrees_of_freedom: 4}\n");
  REQUIRE(t);
  CHECK(t->degrees_of_freedom == 4.0);
  CHECK(t->standard_u() == 0.5);
  CHECK(std::isinf(read("cell: {value: 3 K, half_width: 1 K}\n")->degrees_of_freedom));
  const auto plain = read("cell: 3 K\n");
  CHECK(std::isinf(plain->degrees_of_freedom));
  CHECK(plain->size.si() == 0.0);
  CHECK_FALSE(read("cell: unknown\n"));
}
