#include "hailwright/core/quantity_text.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "hailwright/core/contract.hpp"
#include "hailwright/core/source.hpp"
#include "support/catch.hpp"

using namespace hailwright;

static_assert(MeasureOf<Length>::value == Measure::length);
static_assert(MeasureOf<TemperaturePoint>::value == Measure::temperature);
static_assert(MeasureOf<TemperatureDifference>::value == Measure::temperature_difference);
static_assert(Measured<Ratio> && Measured<Angle> && Measured<FrameRate>);
static_assert(!Measured<double> && !Measured<Momentum> && !Measured<Area> && !Measured<Money>);

namespace {

constexpr double exactly_scaled = 4e-16;  // two roundings of a double

/// The problem of a text that must not be read.
template <class T>
TextProblem problem_of(const TextResult<T>& result) {
  REQUIRE_FALSE(result.value.has_value());
  REQUIRE(result.problem.has_value());
  CHECK_FALSE(result.problem->message.empty());
  return *result.problem;
}

Amount amount_of(const TextResult<Amount>& result) {
  if (result.problem) FAIL(result.problem->message);
  REQUIRE(result.value.has_value());
  return *result.value;
}

bool has_hint(const TextProblem& problem, std::string_view part) {
  return std::any_of(problem.hints.begin(), problem.hints.end(),
                     [&](const std::string& hint) { return hint.find(part) != std::string::npos; });
}

struct Written {
  std::string_view text;
  Measure measure;
  double si;
  double step_si;
};

struct Refused {
  std::string_view text;
  Measure measure;
  std::string_view code;
  std::size_t offset;
  std::size_t length;
  std::string_view message_part;
  std::string_view hint_part;
};

}  // namespace

TEST_CASE("read_amount: numbers with units, and the size of their last digit") {
  const Written w = GENERATE(values<Written>({
      {"25 mm", Measure::length, 0.025, 0.001},
      {"25mm", Measure::length, 0.025, 0.001},
      {"  25 \t mm ", Measure::length, 0.025, 0.001},
      {"25\u00A0mm", Measure::length, 0.025, 0.001},
      {"25\u202Fmm", Measure::length, 0.025, 0.001},
      {"1 in", Measure::length, 0.0254, 0.0254},
      {"2.5 l", Measure::volume, 0.0025, 0.0001},
      {"750 ml", Measure::volume, 0.00075, 0.000001},
      {"800 cm³", Measure::volume, 0.0008, 0.000001},
      {"0.005 m3", Measure::volume, 0.005, 0.001},
      {"7.5 g", Measure::mass, 0.0075, 0.0001},
      {"75 g", Measure::mass, 0.075, 0.001},
      {"7.50 g", Measure::mass, 0.0075, 0.00001},
      {"+7.5 g", Measure::mass, 0.0075, 0.0001},
      {".5 g", Measure::mass, 0.0005, 0.0001},
      {"5. g", Measure::mass, 0.005, 0.001},
      {"0 g", Measure::mass, 0.0, 0.001},
      {"0.5 g", Measure::mass, 0.0005, 0.0001},
      {"1e3 m", Measure::length, 1000.0, 1000.0},
      {"1.5e3 m", Measure::length, 1500.0, 100.0},
      {"1.5E+03 m", Measure::length, 1500.0, 100.0},
      {"1.5e-3 m", Measure::length, 0.0015, 0.0001},
      {"-0.35 %/K", Measure::temperature_coefficient, -0.0035, 0.0001},
      {"\u22120.35 %/degC", Measure::temperature_coefficient, -0.0035, 0.0001},
      {"5 %", Measure::ratio, 0.05, 0.01},
      {"62 mph", Measure::speed, 62 * 0.44704, 0.44704},
      {"90 km/h", Measure::speed, 25.0, 1 / 3.6},
      {"240 fps", Measure::frame_rate, 240.0, 1.0},
      {"1000 W/m²", Measure::irradiance, 1000.0, 1.0},
      {"12 Ω", Measure::resistance, 12.0, 1.0},
      {"12 \u2126", Measure::resistance, 12.0, 1.0},
      {"12 ohm", Measure::resistance, 12.0, 1.0},
      {"0.917 g/cm3", Measure::density, 917.0, 1.0},
      {"20 min", Measure::time, 1200.0, 60.0},
      {"180 deg", Measure::angle, std::numbers::pi, std::numbers::pi / 180},
      {"104 degF", Measure::temperature, 313.15, 5.0 / 9},
      {"-18 °C", Measure::temperature, 255.15, 1.0},
      {"300 K", Measure::temperature, 300.0, 1.0},
      {"36 degF", Measure::temperature_difference, 20.0, 5.0 / 9},
      {"2 degC", Measure::temperature_difference, 2.0, 1.0},
      {"0.5 K", Measure::temperature_difference, 0.5, 0.1},
      {"1e-300 mm", Measure::length, 1e-303, 1e-303},
      {"1e300 kPa", Measure::pressure, 1e303, 1e303},
  }));
  CAPTURE(w.text);
  const Amount amount = amount_of(read_amount(w.text, w.measure));
  CHECK_THAT(amount.si, WithinRel(w.si, exactly_scaled));
  CHECK_THAT(amount.step_si, WithinRel(w.step_si, exactly_scaled));
}

TEST_CASE("read_amount: zero has no sign") {
  for (const std::string_view text : {"-0 mm", "\u22120.0 mm", "-0e5 mm", "+0 mm"}) {
    CAPTURE(text);
    const double si = amount_of(read_amount(text, Measure::length)).si;
    CHECK(si == 0.0);
    CHECK_FALSE(std::signbit(si));
  }
}

TEST_CASE("read_amount: agrees bit by bit with the literals and with percent()") {
  CHECK(read_quantity<Length>("33.3 mm").value == 33.3_mm);
  CHECK(read_quantity<Mass>("7.53 g").value == 7.53_g);
  CHECK(read_quantity<Ratio>("99.9 %").value == percent(99.9));
  CHECK(read_quantity<Density>("0.917 g/cm3").value == 0.917_g_per_cm3);
  for (int tenths = 0; tenths <= 1000; ++tenths) {
    const double value = tenths / 10.0;
    CAPTURE(value);
    CHECK(read_quantity<Ratio>(fixed(value, 1) + " %").value == percent(value));
  }
}

TEST_CASE("read_amount: what is refused, where, and the mend") {
  using M = Measure;
  const Refused r = GENERATE(values<Refused>({
      {"", M::length, "U01", 0, 0, "a length was expected", "units of a length: mm, cm, m, in, ft"},
      {"   ", M::length, "U01", 0, 0, "a length was expected", "units of a length"},
      {"23", M::speed, "U02", 0, 2, "has no unit, a speed was expected", "m/s, km/h, mph, ft/s"},
      {" -2.5", M::speed, "U02", 1, 4, "\"-2.5\" has no unit", "m/s"},
      {"23 mm", M::speed, "U03", 3, 2, "mm is a length, a speed was expected", "units of a speed"},
      {"85 fps", M::speed, "U03", 3, 3, "fps is a frame rate", "write ft/s"},
      {"5 %", M::temperature_coefficient, "U03", 2, 1, "% is a percentage", "%/K"},
      {"5 K", M::ratio, "U03", 2, 1, "K is a temperature", "%"},
      {"5 m", M::time, "U03", 2, 1, "m is a length, a time was expected", "min"},
      {"62 MPH", M::speed, "U04", 3, 3, "unknown unit \"MPH\"", "write mph"},
      {"62 kph", M::speed, "U04", 3, 3, "unknown unit", "write km/h"},
      {"62 mhp", M::speed, "U04", 3, 3, "unknown unit", "did you mean mph?"},
      {"5 w", M::power, "U04", 2, 1, "unknown unit", "write W"},
      {"5 MW", M::power, "U04", 2, 2, "unknown unit", "give the amount in W"},
      {"100 cm/s", M::speed, "U04", 4, 4, "unknown unit", "give the amount in m/s"},
      {"25 deg C", M::temperature, "U04", 3, 5, "unknown unit", "write degC"},
      {"7 ft lbf", M::energy, "U04", 2, 6, "unknown unit", "write ft-lbf"},
      {"−25 µm", M::length, "U04", 4, 2, "unknown unit", "give the amount in m"},
      {"5 m/s/s", M::speed, "U04", 2, 5, "unknown unit", "units of a speed"},
      {"12 x 5 mm", M::length, "U04", 3, 6, "unknown unit", "units of a length"},
      {"1e mm", M::length, "U04", 1, 4, "unknown unit", "units of a length"},
      {"25 mm²", M::length, "U04", 3, 3, "unknown unit", "units of a length"},
      {"23,5 mm", M::length, "U05", 0, 4, "the decimal mark is a point", "write 23.5"},
      {"-0,125 mm", M::length, "U05", 1, 5, "the decimal mark is a point", "write 0.125"},
      {"1234,567 g", M::mass, "U05", 0, 8, "the decimal mark is a point", "write 1234.567"},
      {"1,000 g", M::mass, "U06", 0, 5, "in two ways", "write 1000, "},
      {"1,000 g", M::mass, "U06", 0, 5, "in two ways", "write 1.000, "},
      {"1 000 g", M::mass, "U06", 0, 5, "digits are not grouped", "write 1000"},
      {"1\u202F000 g", M::mass, "U06", 0, 5, "digits are not grouped", "write 1000"},
      {"1'000 g", M::mass, "U06", 0, 5, "digits are not grouped", "write 1000"},
      {"1_0 g", M::mass, "U06", 0, 3, "digits are not grouped", "write 10"},
      {"1,234,567 g", M::mass, "U06", 0, 9, "digits are not grouped", "write 1234567"},
      {"1,234.5 g", M::mass, "U06", 0, 7, "digits are not grouped", "write 1234.5"},
      {"1.234,5 g", M::mass, "U06", 0, 7, "digits are not grouped", "write 1234.5"},
      {"1.234.567 g", M::mass, "U06", 0, 9, "digits are not grouped", "write 1234567"},
      {"010 mm", M::length, "U07", 0, 3, "octal", "write 10"},
      {"-007 mm", M::length, "U07", 1, 3, "octal", "write 7"},
      {"00 mm", M::length, "U07", 0, 2, "octal", "write 0"},
      {"00.5 mm", M::length, "U07", 0, 4, "octal", "write 0.5"},
      {"0x1F mm", M::length, "U08", 0, 7, "not a decimal number", "decimal digits"},
      {"-0X1 mm", M::length, "U08", 0, 7, "not a decimal number", "decimal digits"},
      {"0o17 mm", M::length, "U08", 0, 7, "not a decimal number", "decimal digits"},
      {"0B1 mm", M::length, "U08", 0, 6, "not a decimal number", "decimal digits"},
      {"0oz5 mm", M::length, "U04", 1, 6, "unknown unit", "mm"},
      {"nan mm", M::length, "U09", 0, 6, "not a finite number", "left out"},
      {"-INF m", M::length, "U09", 0, 6, "not a finite number", "left out"},
      {".inf", M::length, "U09", 0, 4, "not a finite number", "left out"},
      {"infinity m", M::length, "U09", 0, 10, "not a finite number", "left out"},
      {"1e400 mm", M::length, "U10", 0, 5, "beyond", "exponent"},
      {"-1e400 mm", M::length, "U10", 0, 6, "beyond", "exponent"},
      {"1e-400 mm", M::length, "U10", 0, 6, "beyond", "exponent"},
      {"0e400 mm", M::length, "U10", 0, 5, "beyond", "exponent"},
      {"1e99999999999 mm", M::length, "U10", 0, 13, "beyond", "exponent"},
      {"1.5e308 kPa", M::pressure, "U10", 0, 7, "beyond", "exponent"},
      {"25 mm ± 0.2 mm", M::length, "U11", 6, 1, "does not say", "accuracy: 0.2 mm"},
      {"25 mm ± 0.2 mm", M::length, "U11", 6, 1, "does not say", "spread: 0.2 mm"},
      {"25 mm ± 0.2 mm", M::length, "U11", 6, 1, "does not say", "within: 0.2 mm, 95 %"},
      {"25 mm +/- 1 %", M::length, "U11", 6, 3, "does not say", "accuracy: 1 %"},
      {"25+-1 degC", M::temperature, "U11", 2, 2, "does not say", "accuracy: 1 degC"},
      {"25 ± 3", M::power, "U11", 3, 1, "± alone does not say what it promises", "spread: 1 W"},
      {"± 3 W", M::power, "U11", 0, 1, "does not say", "within: 3 W, 95 %"},
      {"abc", M::length, "U12", 0, 3, "does not start with a number", "units of a length"},
      {"- 5 mm", M::length, "U12", 0, 6, "does not start with a number", "23.5"},
      {"--5 mm", M::length, "U12", 0, 6, "does not start with a number", "23.5"},
      {"mm", M::length, "U12", 0, 2, "does not start with a number", "23.5"},
      {".", M::length, "U12", 0, 1, "does not start with a number", "23.5"},
      {"٣ mm", M::length, "U12", 0, 4, "does not start with a number", "23.5"},
      {"1.2.3 mm", M::length, "U12", 0, 5, "is not one number", "23.5"},
      {"3 5 mm", M::length, "U12", 0, 3, "is not one number", "23.5"},
      {"1e3.5 mm", M::length, "U12", 0, 8, "is not one number", "23.5"},
      {"25 mm long", M::length, "U13", 3, 7, "found \"long\" after the unit mm", "write mm"},
      {"3 lb 2 oz", M::mass, "U13", 2, 7, "found \"2 oz\" after the unit lb", "write lb"},
  }));
  CAPTURE(r.text);
  const TextProblem problem = problem_of(read_amount(r.text, r.measure));
  CHECK(problem.code == r.code);
  CHECK(problem.offset == r.offset);
  CHECK(problem.length == r.length);
  CHECK_THAT(problem.message, Contains(std::string(r.message_part)));
  CAPTURE(problem.hints);
  CHECK(has_hint(problem, r.hint_part));
}

TEST_CASE("read_amount: a prefix that is not read is never answered by its base unit") {
  // "did you mean W?" for MW would leave the number a million times wrong.
  for (const std::string_view text : {"5 hW", "5 mW", "5 MW"}) {
    CAPTURE(text);
    const TextProblem problem = problem_of(read_amount(text, Measure::power));
    CHECK_FALSE(has_hint(problem, "did you mean"));
    CHECK(has_hint(problem, "prefix"));
  }
  for (const std::string_view text : {"5 cl", "5 dl", "5 dm3"}) {
    CAPTURE(text);
    const TextProblem problem = problem_of(read_amount(text, Measure::volume));
    CHECK_FALSE(has_hint(problem, "did you mean"));
    CHECK(has_hint(problem, "prefix"));
  }
  const TextProblem litre = problem_of(read_amount("2 L", Measure::volume));
  CHECK(has_hint(litre, "write l"));
}

TEST_CASE("read_amount: a unit serves its own measure and no other") {
  std::set<Measure> measures;
  for (const Unit& unit : units())
    measures.insert(unit.measure);
  CHECK(measures.size() == 20);
  for (const Unit& unit : units()) {
    for (const Measure measure : measures) {
      CAPTURE(unit.symbol, name(unit.measure), name(measure));
      const auto result = read_amount("1 " + std::string(unit.symbol), measure);
      CHECK(result.value.has_value() == (find_unit(unit.symbol, measure) != nullptr));
      CHECK(result.problem.has_value() != result.value.has_value());
      if (result.problem) CHECK(result.problem->code == "U03");
    }
  }
}

TEST_CASE("read_amount: hostile texts are refused inside their bounds") {
  std::mt19937 random(20260614);
  const std::vector<std::string> pieces{
      "1", "0", "9", "000", ".",  ",",   "e",    "E",    "-", "+", "−", "±",   " ",      "\t",
      "'", "_", "’", "x",   "mm", "nan", "\xFF", "\x80", "°", "%", "/", "+/-", "\u00A0", "W/m2"};
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    const auto count = random() % 8;
    for (std::uint32_t k = 0; k < count; ++k)
      text += pieces[random() % pieces.size()];
    CAPTURE(text);
    const auto result = read_amount(text, Measure::length);
    if (result.value.has_value() == result.problem.has_value()) FAIL("neither or both");
    if (result.problem) {
      const TextProblem& p = *result.problem;
      if (p.code.empty() || p.offset + p.length > count_characters(text)) FAIL("a bad place");
    } else if (!std::isfinite(result.value->si) || !(result.value->step_si > 0.0)) {
      FAIL("not finite");
    }
  }
  const std::string marks = [] {
    std::string many;
    for (int i = 0; i < 20000; ++i)
      many += "±";
    return many;
  }();
  CHECK(problem_of(read_amount(marks, Measure::length)).code == "U11");
  CHECK(problem_of(read_amount(std::string(100000, '9') + " mm", Measure::length)).code == "U10");
  const TextProblem long_word =
      problem_of(read_amount("1 " + std::string(100000, 'q'), Measure::length));
  CHECK(long_word.message.size() < 100);
}

TEST_CASE("read_quantity: the type names the measure") {
  CHECK_THAT(read_quantity<Speed>("62 mph").value.value().si(), WithinRel(27.71648, 1e-15));
  CHECK_THAT(read_quantity<Energy>("58 ft-lbf").value.value().si(), WithinAbs(78.637, 0.0005));
  CHECK(read_quantity<TemperaturePoint>("25 degC").value == TemperaturePoint::from_celsius(25.0));
  CHECK_THAT(read_quantity<TemperaturePoint>("104 degF").value.value().celsius(),
             WithinAbs(40.0, 1e-12));
  CHECK_THAT(read_quantity<TemperatureDifference>("3.6 degF").value.value().si(),
             WithinRel(2.0, exactly_scaled));
  CHECK(read_quantity<Ratio>("5 %").value == percent(5.0));
  CHECK(read_quantity<FrameRate>("240 fps").value == FrameRate::from_si(240.0));
  CHECK(problem_of(read_quantity<Mass>("5 mm")).code == "U03");
  CHECK(problem_of(read_quantity<TemperatureDifference>("5")).code == "U02");
}

TEST_CASE("read_number: no unit belongs here") {
  CHECK(amount_of(read_number("87.2")).si == 87.2);
  CHECK(amount_of(read_number(" -1.5e2 ")).si == -150.0);
  CHECK(amount_of(read_number("1.5e2")).step_si == 10.0);
  const TextProblem rest = problem_of(read_number("87.2 W"));
  CHECK(rest.code == "U13");
  CHECK(rest.offset == 5);
  CHECK(rest.length == 1);
  CHECK(problem_of(read_number("")).code == "U01");
  CHECK(problem_of(read_number("87,2")).code == "U05");
  const TextProblem both = problem_of(read_number("87 ± 2"));
  CHECK(both.code == "U11");
  CHECK(has_hint(both, "accuracy, spread or within"));
}

TEST_CASE("read_number: tables whose decimal mark is a comma") {
  CHECK(amount_of(read_number("87,25", ',')).si == 87.25);
  CHECK(amount_of(read_number("87,25", ',')).step_si == 0.01);
  CHECK(amount_of(read_number("-0,5e1", ',')).si == -5.0);
  CHECK(amount_of(read_number("87", ',')).si == 87.0);
  const TextProblem point = problem_of(read_number("87.2", ','));
  CHECK(point.code == "U05");
  CHECK(has_hint(point, "write 87,2"));
  CHECK(problem_of(read_number("1.000", ',')).code == "U06");
  CHECK(has_hint(problem_of(read_number("1.234,5", ',')), "write 1234,5"));
  CHECK_THROWS_AS(read_number("1", ';'), BugError);
}

TEST_CASE("read_number_in and read_unit: a table column") {
  const TextResult<Unit> unit = read_unit(" g ", Measure::mass);
  REQUIRE(unit.value.has_value());
  const Amount mass = amount_of(read_number_in("7,53", *unit.value, ','));
  CHECK(mass.si == (7.53_g).si());
  CHECK_THAT(mass.step_si, WithinRel(1e-5, exactly_scaled));
  const Unit* celsius = find_unit("degC", Measure::temperature);
  REQUIRE(celsius != nullptr);
  CHECK(amount_of(read_number_in("25.5", *celsius)).si == 25.5 + 273.15);
  CHECK(amount_of(read_number_in("25.5", *celsius)).step_si == 0.1);

  const TextProblem wrong = problem_of(read_unit(" w", Measure::power));
  CHECK(wrong.code == "U04");
  CHECK(wrong.offset == 1);
  CHECK(wrong.length == 1);
  CHECK(has_hint(wrong, "write W"));
  CHECK(problem_of(read_unit("", Measure::power)).code == "U02");
  CHECK(problem_of(read_unit("J", Measure::power)).code == "U03");
}

TEST_CASE("read_count: whole numbers in plain digits") {
  CHECK(read_count("0").value == 0);
  CHECK(read_count(" 11 ").value == 11);
  CHECK(read_count("2147483647").value == 2147483647);
  CHECK(problem_of(read_count("")).code == "U01");
  CHECK(problem_of(read_count("2147483648")).code == "U10");
  CHECK(problem_of(read_count(std::string(1000, '9'))).code == "U10");
  for (const std::string_view text : {"007", "00", "010"}) {
    CAPTURE(text);
    CHECK(problem_of(read_count(text)).code == "U07");
  }
  CHECK(has_hint(problem_of(read_count("010")), "write 10"));
  for (const std::string_view text :
       {"-1", "+1", "3.0", "3,5", "1e3", "three", "3 balls", "0x3", "nan", "± 3", "1_000"}) {
    CAPTURE(text);
    CHECK(problem_of(read_count(text)).code == "U14");
  }
}

TEST_CASE("read_money: an amount and three capital letters") {
  const TextResult<Money> price = read_money("89.50 USD");
  REQUIRE(price.value.has_value());
  CHECK(price.value->amount == 89.5);
  CHECK(price.value->currency == "USD");
  CHECK_FALSE(std::signbit(read_money("-0 EUR").value.value().amount));
  CHECK(read_money("89EUR").value.value().currency == "EUR");
  CHECK(problem_of(read_money("89")).code == "U15");
  CHECK(has_hint(problem_of(read_money("89")), "write 89 EUR"));
  CHECK(problem_of(read_money("89 eur")).code == "U16");
  CHECK(has_hint(problem_of(read_money("89 eur")), "write EUR"));
  CHECK(has_hint(problem_of(read_money("89 €")), "write EUR"));
  CHECK(problem_of(read_money("89 EURO")).code == "U16");
  CHECK(problem_of(read_money("89,50 EUR")).code == "U05");
  CHECK(problem_of(read_money("$89")).code == "U12");
  CHECK(has_hint(problem_of(read_money("EUR 89")), "89 EUR"));
  CHECK(problem_of(read_money("")).code == "U01");
}
